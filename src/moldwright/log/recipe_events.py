"""Recipes of colors and metals, as they were really mixed."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from moldwright.log.event import Body
from moldwright.log.ids import FileHash, LotId
from moldwright.log.lot_events import Stuff
from moldwright.log.run_events import CupRef


class RecipeKind(StrEnum):
    """What a recipe is for."""

    COLOR = "color"
    METAL = "metal"


@dataclass(frozen=True, slots=True)
class RecipePart:
    """One part with the mass that was used."""

    stuff: Stuff
    mass_g: float
    lot: LotId | None = None


@dataclass(frozen=True, slots=True)
class RecipeKept(Body):
    """A recipe, or a new state of it: the parts in their order. `cup`: the cup of the run that it was taken from."""

    name: str
    kind: RecipeKind
    parts: tuple[RecipePart, ...]
    swatch: FileHash | None = None
    run: str = ""
    cup: CupRef | None = None


@dataclass(frozen=True, slots=True)
class RecipeDropped(Body):
    """No longer used."""

    why: str = ""
