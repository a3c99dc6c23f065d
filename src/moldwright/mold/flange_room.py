"""What a flange leaves beyond the glove's wall for its keys."""

from __future__ import annotations

import math

from moldwright.errors import InputRefused
from moldwright.ways import Change

KEEP_MM, KEEP_SHARE = 15.0, 0.5
"""What stays of the flange between a key cut and the wall, and its greatest share: common practice, no source."""
LEAST_ROOM_MM = 8.0
"""Flange beyond the wall under which two cuts cannot be told apart: our choice."""


def keep_from_wall_mm(width_mm: float, wall_mm: float) -> float:
    """How far the key cuts stay off the wall [mm].

    Parameters
    ----------
    width_mm : flange beyond the foot [mm].
    wall_mm : all coats together, what of the width stands under the wall [mm].

    Raises InputRefused where too little of the flange is left. Source: common practice, no source.

    >>> keep_from_wall_mm(40.0, 4.0), keep_from_wall_mm(20.0, 4.0)
    (15.0, 8.0)
    """
    room_mm = width_mm - wall_mm
    if room_mm < LEAST_ROOM_MM:
        least_mm = math.ceil(wall_mm + LEAST_ROOM_MM)
        remedy = "The keys are cut beyond the wall: make the flange so wide or wider"
        way = Change("mold.flange", f"{least_mm} mm")
        raise InputRefused("flange-narrow", round(width_mm, 4), least_mm, "mm", remedy, way)
    return min(KEEP_MM, KEEP_SHARE * room_mm)
