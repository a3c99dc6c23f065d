"""The page from which the seam is marked by hand: scale of the views, rule of heights, bars, table."""

from __future__ import annotations

import math
from typing import Any

from moldwright.plan.plan import Plan
from moldwright.sheets.picture import Pictures
from moldwright.units import show_length
from moldwright.units.constants import INCH_MM
from moldwright.units.system import UnitSystem

SCALES = (0.5, 1, 1.5, 2, 2.5, 3, 3.5, 4, 5, 6, 7, 8, 10, 12, 15, 20, 25, 30, 40, 50)
VIEW_MM = 69.0
"""Greatest width of a view on the paper; beside it stands the rule of heights."""


def seam_page(plan: Plan, pictures: Pictures, view_tall_mm: float) -> dict[str, Any]:
    """All numbers of the page.

    Parameters
    ----------
    plan : the plan.
    pictures : its drawings.
    view_tall_mm : greatest height of a view on this paper [mm].
    """
    us = plan.units == UnitSystem.US
    scale = _scale(pictures, view_tall_mm)
    unit = INCH_MM if us else 1.0
    bar_mm = _nice(50.0 * scale / unit) * unit
    return {
        "scale": scale,
        "scale_text": f"1 : {scale:g}",
        "ticks": _ticks(pictures, scale, us),
        "bar_mm": bar_mm,
        "bar_cells": 5,
        "bar_text": f"{bar_mm / unit:g} {'in' if us else 'mm'} on the piece, at the views' scale",
        "true_mm": 4 * INCH_MM if us else 100.0,
        "true_cells": 4 if us else 10,
        "true_text": f"{'4 in' if us else '100 mm'} on this paper: lay a rule on it before you trust the views",
        "rows": [[f"{row.angle_deg:g}°", _height(row.height_mm, plan.units)] for row in plan.shell.seam_table],
    }


def _height(height_mm: float | None, units: UnitSystem) -> str:
    return "no seam" if height_mm is None else show_length(height_mm, units)


def _scale(pictures: Pictures, view_tall_mm: float) -> float:
    need = max(max(p.width_mm / VIEW_MM, p.height_mm / view_tall_mm) for p in pictures.seam)
    return next((s for s in SCALES if s >= need - 1e-9), math.ceil(need))


def _nice(most: float) -> float:
    """The greatest of 1, 2, 5 times a power of ten that is not above `most`.

    >>> _nice(125.0), _nice(0.7)
    (100.0, 0.5)
    """
    power = 10.0 ** math.floor(math.log10(most))
    return float(max(k * power for k in (1, 2, 5) if k * power <= most * (1 + 1e-9)))


def _ticks(pictures: Pictures, scale: float, us: bool) -> list[dict[str, Any]]:
    """Heights at least 5 mm apart on the paper, written in millimeters or inches."""
    unit = INCH_MM if us else 1.0
    least = 5.0 * scale / unit
    step = next(k * p for p in (0.1, 1.0, 10.0, 100.0) for k in (1.0, 2.0, 5.0) if k * p >= least - 1e-9)
    first = pictures.seam[0]
    top = first.bottom_mm + first.height_mm * 0.995
    count = int(top / (step * unit)) + 1
    return [{"at_mm": k * step * unit, "text": f"{round(k * step, 3):g}"} for k in range(count)]
