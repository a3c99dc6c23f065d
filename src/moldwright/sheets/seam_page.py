"""The page from which the seam is marked by hand: scale of the views, rule of heights, bars, table of stations."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Any

from moldwright.plan.flange import Frame
from moldwright.plan.plan import Plan
from moldwright.plan.seam import SeamPlan
from moldwright.sheets.picture import Picture
from moldwright.sheets.seam_words import (
    HIDDEN,
    UNIT_WORD,
    is_slit,
    line_titles,
    mark_of,
    numbered,
    place_text,
    station_row,
)
from moldwright.units.constants import INCH_MM
from moldwright.units.system import UnitSystem

SCALES = (0.5, 1, 1.5, 2, 2.5, 3, 3.5, 4, 5, 6, 7, 8, 10, 12, 15, 20, 25, 30, 40, 50)
VIEW_MM = 69.0
"""Greatest width of a view on the paper; beside it stands the rule of heights."""
ACROSS = {UnitSystem.METRIC: 3, UnitSystem.US: 2}
"""The table's blocks side by side: fractions of an inch are wider."""
MOST_ROWS, ROW_MM, TABLE_HEAD_MM = 48, 3.5, 26.0
"""Rows of a block, the height of one, and of what stands over and under the table [mm]."""
LEAST_VIEW_MM, OLD_TABLE_MM = 52.0, 44.0
"""Views are not made smaller for the table's sake; what `view_tall_mm` already leaves for it [mm]."""


def seam_page(plan: Plan, seam: SeamPlan, views: Sequence[Picture], view_tall_mm: float) -> dict[str, Any]:
    """All numbers of the page.

    Parameters
    ----------
    plan : the plan.
    seam : the lines that are marked: its shell's seam, or its slit.
    views : the sides that show them.
    view_tall_mm : greatest height of a view on this paper [mm].
    """
    us = plan.units == UnitSystem.US
    blocks = station_blocks(seam, plan.units)
    table_mm = TABLE_HEAD_MM + ROW_MM * max(map(len, blocks), default=0)
    beside_mm = view_tall_mm - max(0.0, table_mm - OLD_TABLE_MM) / 2
    together = beside_mm >= LEAST_VIEW_MM and len(blocks) <= ACROSS[plan.units]
    scale = _scale(views, beside_mm if together else view_tall_mm)
    unit = INCH_MM if us else 1.0
    bar_mm = _nice(50.0 * scale / unit) * unit
    return {
        "scale": scale,
        "scale_text": f"1 : {scale:g}",
        "ticks": _ticks(views, scale, us),
        "bar_mm": bar_mm,
        "bar_cells": 5,
        "bar_text": f"{bar_mm / unit:g} {'in' if us else 'mm'} on the piece, at the views' scale",
        "true_mm": 4 * INCH_MM if us else 100.0,
        "true_cells": 4 if us else 10,
        "true_text": f"{'4 in' if us else '100 mm'} on this paper: lay a rule on it before you trust the views",
        "blocks": blocks,
        "across": ACROSS[plan.units],
        "together": together,
        "say": _sayings(plan),
        "crossings": crossing_rows(seam, plan.flange.frame, plan.units),
    }


def station_blocks(seam: SeamPlan, units: UnitSystem) -> list[list[list[str]]]:
    """The stations in blocks of equal length; a row of one text is the title of a line.

    Parameters
    ----------
    seam : the lines that are marked.
    units : what is printed.
    """
    rows: list[list[str]] = []
    for title, (_, stations) in zip(line_titles(seam), numbered(seam), strict=True):
        rows.append([title])
        rows += [station_row(number, station, units) for number, station in stations]
    across = ACROSS[units]
    pages = max(1, math.ceil(len(rows) / (across * MOST_ROWS)))
    each = max(1, math.ceil(len(rows) / (across * pages)))
    return [rows[k : k + each] for k in range(0, len(rows), each)]


def crossing_rows(seam: SeamPlan, frame: Frame, units: UnitSystem) -> list[list[str]]:
    """Each crossing's mark, and its places from the wall to the flange's edge.

    Parameters
    ----------
    seam : the lines that are marked.
    frame : on the board.
    units : what is printed.
    """
    slit = is_slit(seam)
    return [
        [mark_of(k, slit), *(place_text(place, frame, units) for place in crossing.places)]
        for k, crossing in enumerate(seam.crossings)
    ]


def _sayings(plan: Plan) -> dict[str, str]:
    unit = UNIT_WORD[plan.units]
    return {
        "table": f"All in {unit}. A plumb line stands at the middle of each side of the frame: F front, R right,"
        " B back, L left. Slide the square along that side of the frame by the offset, to your right or left; then"
        f" height up it, and straight in from it by how far behind. {HIDDEN}: out of sight from there, found by how"
        " far behind.",
        "crossings": f"Over the flange, in {unit} from the frame's front left corner",
    }


def _scale(views: Sequence[Picture], view_tall_mm: float) -> float:
    need = max(max(p.width_mm / VIEW_MM, p.height_mm / view_tall_mm) for p in views)
    return next((s for s in SCALES if s >= need - 1e-9), math.ceil(need))


def _nice(most: float) -> float:
    """The greatest of 1, 2, 5 times a power of ten that is not above `most`.

    >>> _nice(125.0), _nice(0.7)
    (100.0, 0.5)
    """
    power = 10.0 ** math.floor(math.log10(most))
    return float(max(k * power for k in (1, 2, 5) if k * power <= most * (1 + 1e-9)))


def _ticks(views: Sequence[Picture], scale: float, us: bool) -> list[dict[str, Any]]:
    """Heights at least 5 mm apart on the paper, written in millimeters or inches."""
    unit = INCH_MM if us else 1.0
    least = 5.0 * scale / unit
    step = next(k * p for p in (0.1, 1.0, 10.0, 100.0) for k in (1.0, 2.0, 5.0) if k * p >= least - 1e-9)
    first = views[0]
    top = first.bottom_mm + first.height_mm * 0.995
    count = int(top / (step * unit)) + 1
    return [{"at_mm": k * step * unit, "text": f"{round(k * step, 3):g}"} for k in range(count)]
