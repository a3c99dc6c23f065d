"""The page that tells where rubber is packed, and the through-holes."""

from __future__ import annotations

from math import fsum
from typing import Any

from moldwright.plan.plan import Plan
from moldwright.sheets.picture import Pictures, placed
from moldwright.sheets.wording import table
from moldwright.sheets.words import mass_or_trace, reads_nothing
from moldwright.units import show_length, show_mass
from moldwright.units.system import UnitSystem

ROW_MM, REST_MM = 7.2, 52.0
"""What a row of a table takes of the page, and what everything but pictures and rows takes."""
LEAST_MM, MOST_MM = 45.0, 80.0


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
    return {
        "say": table()["fill"]["say"],
        "pictures": [placed(p, f"fill-{k}", files) for k, p in enumerate(pictures.fill)],
        "tall_mm": min(MOST_MM, max(LEAST_MM, left_mm)),
        "spots": _spots(plan),
        "small": _small(plan),
        "holes": _holes(plan),
    }


def _spots(plan: Plan) -> list[dict[str, str]]:
    return [
        {
            "number": str(number),
            "grams": mass_or_trace(spot.net_g, plan.units, plan.scale_g),
            "depth": show_length(spot.depth_mm, plan.units),
            "after": plan.coat(spot.after).name,
            "at": _place(spot.at, plan.units),
        }
        for number, spot in enumerate(plan.glove.spots, start=1)
    ]


def _small(plan: Plan) -> dict[str, str]:
    """The places without a number in one line; empty where there is nothing of note in them."""
    small = plan.glove.small_spots
    grams = show_mass(fsum(each.net_g for each in small), plan.units, finest_g=plan.scale_g)
    if reads_nothing(grams):
        return {}
    coats = dict.fromkeys(plan.coat(each.after).name for each in small)
    return {"grams": grams, "after": ", ".join(coats)}


def _holes(plan: Plan) -> list[dict[str, str]]:
    treated = table()["fill"]["treat"]
    return [
        {
            "letter": hole.letter,
            "width": show_length(hole.width_mm, plan.units),
            "treat": treated[hole.treat],
            "at": _place(hole.at, plan.units),
        }
        for hole in plan.original.holes
    ]


def _place(at: tuple[float, float, float], units: UnitSystem) -> str:
    """Right, back and up from the table's origin."""
    *near, last = (show_length(round(v), units) for v in at)
    return ", ".join([*(text.rpartition(" ")[0] for text in near), last])
