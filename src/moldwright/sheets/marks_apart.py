"""Marks on a printed picture, each set where it can be read."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from moldwright.sheets.picture import Mark, MarkKind

MARK_MM, GAP_MM, DOT_MM = 4.8, 0.4, 0.6
"""How large a number's disk or a letter's square is printed, the room between two, and the radius of the dot at what a
moved one means."""
RASTER_MM = 0.7


def apart(marks: Sequence[Mark], wide_mm: float, tall_mm: float) -> tuple[Mark, ...]:
    """Marks set as near as may be to their points so that none covers another or its point, within the picture.

    Letters have their places first, then numbers in their order; one that moved stands clear of the point that it
    means, with a line to it. Where a picture has no room left, a mark goes where it covers least.

    Parameters
    ----------
    marks : with shares of the picture.
    wide_mm, tall_mm : as large as it is printed [mm].
    """
    size = np.array([wide_mm, tall_mm])
    columns, rows = (np.arange(MARK_MM / 2, side - MARK_MM / 2 + 1e-9, RASTER_MM) for side in size)
    raster = np.stack(np.meshgrid(columns, rows), axis=-1).reshape(-1, 2)
    stood = np.array([(mark.x, mark.y) for mark in marks]).reshape(-1, 2) * size
    away = np.linalg.norm(raster[:, None] - stood[None], axis=2)
    bare = away >= MARK_MM / 2 * math.sqrt(2) + DOT_MM
    room = np.full(len(raster), np.inf)
    out = list(marks)
    for n in sorted(range(len(marks)), key=lambda n: marks[n].kind is not MarkKind.LETTER):
        chosen = _chosen(n, away, bare, room)
        room = np.minimum(room, np.linalg.norm(raster - raster[chosen], axis=1))
        x, y = (float(share) for share in raster[chosen] / size)
        moved = away[chosen, n] > RASTER_MM
        out[n] = replace(marks[n], x=x, y=y, to=(marks[n].x, marks[n].y) if moved else None)
    return tuple(out)


def _chosen(n: int, away: NDArray[np.float64], bare: NDArray[np.bool_], room: NDArray[np.float64]) -> int:
    """The place of the raster for a mark: its own where it covers no other's point, else the nearest off all points."""
    free = room >= MARK_MM + GAP_MM
    others = np.delete(bare, n, axis=1).all(axis=1)
    own = free & others & (away[:, n] <= RASTER_MM)
    for among in (own, free & others & bare[:, n], free):
        if among.any():
            return int(np.where(among, away[:, n], np.inf).argmin())
    return int(room.argmax())
