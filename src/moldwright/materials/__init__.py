"""Sheets of generic materials, compatibility, hazards. Every number is a range that says where it comes from."""

from __future__ import annotations

from moldwright.materials.figure import Figure, Pack
from moldwright.materials.finding import SheetFinding
from moldwright.materials.kinds import (
    Consumable,
    Pigment,
    Powder,
    Release,
    Resin,
    Rubber,
    Sealer,
    Sheet,
    Shell,
    Thixotrope,
    TwoPart,
    Wax,
)
from moldwright.materials.library import Library, check_sheet, library
from moldwright.materials.mixture import mixed_density_g_ml

__all__ = [
    "Consumable",
    "Figure",
    "Library",
    "Pack",
    "Pigment",
    "Powder",
    "Release",
    "Resin",
    "Rubber",
    "Sealer",
    "Sheet",
    "SheetFinding",
    "Shell",
    "Thixotrope",
    "TwoPart",
    "Wax",
    "check_sheet",
    "library",
    "mixed_density_g_ml",
]
