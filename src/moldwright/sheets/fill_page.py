"""The page that tells where rubber is packed, and the through-holes."""

from __future__ import annotations

import math
from dataclasses import replace
from math import fsum
from typing import Any

from moldwright.plan.ids import CoatId
from moldwright.plan.plan import Plan
from moldwright.sheets.marks_apart import apart
from moldwright.sheets.picture import Axis, Picture, Pictures, placed
from moldwright.sheets.seam_words import UNIT, point_text, set_off
from moldwright.sheets.wording import table
from moldwright.sheets.words import mass_or_trace, reads_nothing
from moldwright.units import show_length, show_mass
from moldwright.units.constants import INCH_MM
from moldwright.units.system import UnitSystem

ROW_MM, REST_MM = 7.2, 62.0
"""What a row of a table takes of the page, and what everything but pictures and rows takes, two rules under pictures
among it."""
LEAST_MM, MOST_MM = 45.0, 80.0
WIDE_MM = 76.0
"""Greatest width of a picture; beside it stands its rule of heights."""
TICKS_MM = 9.0
"""Marks of a rule stand at least so far apart on the paper [mm]."""
STEPS = {
    UnitSystem.METRIC: (5.0, 10.0, 20.0, 50.0, 100.0, 200.0, 500.0),
    UnitSystem.US: (0.5, 1.0, 2.0, 5.0, 10.0, 20.0),
}


def fill_page(plan: Plan, pictures: Pictures, room_mm: float, files: dict[str, bytes]) -> dict[str, Any]:
    """The page's pictures and tables.

    Parameters
    ----------
    plan : the plan.
    pictures : its drawings.
    room_mm : height of a page between head and foot [mm].
    files : where the pictures' bytes are put.
    """
    lines = (len(plan.glove.spots) + 1) // 2 + bool(plan.glove.small_spots) + len(plan.original.holes)
    rows = max(1, (len(pictures.fill) + 1) // 2)
    left_mm = (room_mm - ROW_MM * lines - REST_MM) / rows
    tall_mm = min(MOST_MM, max(LEAST_MM, left_mm))
    return {
        "say": table()["fill"]["say"],
        "pictures": [_picture(p, f"fill-{k}", tall_mm, plan, files) for k, p in enumerate(pictures.fill)],
        "unit": UNIT[plan.units],
        "spots": _spots(plan),
        "small": _small(plan),
        "holes": _holes(plan),
    }


def _picture(picture: Picture, name: str, tall_mm: float, plan: Plan, files: dict[str, bytes]) -> dict[str, Any]:
    """A picture as large as there is room, its marks apart, and its rules: over the board and along it."""
    wide_mm = min(WIDE_MM, tall_mm * picture.width_mm / picture.height_mm)
    high_mm = wide_mm * picture.height_mm / picture.width_mm
    level, units = picture.level, plan.units
    corner_mm = plan.flange.frame.left_mm if level.axis is Axis.RIGHT else plan.flange.frame.front_mm
    sense, scale = level.sense, picture.width_mm / wide_mm
    along = _ticks(sense * (level.start_mm - corner_mm), picture.width_mm, scale, units)
    up = _ticks(picture.bottom_mm, picture.height_mm, scale, units)
    marked = replace(picture, marks=apart(picture.marks, wide_mm, high_mm))
    return placed(marked, name, files) | {
        "paper_mm": wide_mm,
        "across": [{"at": share, "text": set_off(sense * mm, units)} for share, mm in along],
        "up": [{"at": share, "text": set_off(mm, units)} for share, mm in up if mm >= 0.0],
        "axis": level.axis,
        "rightward": sense > 0,
        "unit": UNIT[units],
    }


def _ticks(start_mm: float, long_mm: float, scale: float, units: UnitSystem) -> list[tuple[float, float]]:
    """Round lengths along a side of a picture, each with its share of it."""
    unit_mm = INCH_MM if units is UnitSystem.US else 1.0
    step_mm = next((s for s in STEPS[units] if s * unit_mm >= TICKS_MM * scale), STEPS[units][-1]) * unit_mm
    numbers = range(math.ceil(start_mm / step_mm - 1e-9), math.floor((start_mm + long_mm) / step_mm + 1e-9) + 1)
    return [((k * step_mm - start_mm) / long_mm, k * step_mm) for k in numbers]


def _spots(plan: Plan) -> list[dict[str, str]]:
    coats = _coat_numbers(plan)
    return [
        {
            "number": str(number),
            "grams": mass_or_trace(spot.net_g, plan.units, plan.scale_g),
            "depth": show_length(spot.depth_mm, plan.units).rpartition(" ")[0],
            "after": coats[spot.after],
            "at": point_text(spot.at, plan.flange.frame, plan.units),
        }
        for number, spot in enumerate(plan.glove.spots, start=1)
    ]


def _small(plan: Plan) -> list[dict[str, str]]:
    """What the places without a number take together, a coat each; none where there is nothing of note in them."""
    numbers = _coat_numbers(plan)
    found = {coat: fsum(p.net_g for p in plan.glove.small_spots if p.after == coat) for coat in numbers}
    told = {coat: show_mass(net_g, plan.units, finest_g=plan.scale_g) for coat, net_g in found.items()}
    return [{"after": numbers[coat], "grams": grams} for coat, grams in told.items() if not reads_nothing(grams)]


def _coat_numbers(plan: Plan) -> dict[CoatId, str]:
    return {coat.id: str(number) for number, coat in enumerate(plan.glove.coats, start=1)}


def _holes(plan: Plan) -> list[dict[str, str]]:
    treated = table()["fill"]["treat"]
    return [
        {
            "letter": hole.letter,
            "width": show_length(hole.width_mm, plan.units),
            "treat": treated[hole.treat],
            "at": point_text(hole.at, plan.flange.frame, plan.units),
        }
        for hole in plan.original.holes
    ]
