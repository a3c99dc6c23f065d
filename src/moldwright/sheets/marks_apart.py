"""Marks on a printed picture, each set where it can be read."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from moldwright.sheets.picture import Mark, MarkKind

MARK_MM, GAP_MM = 4.8, 0.4
"""How large a number's disk or a letter's square is printed, and the room between two."""
RASTER_MM = 0.7


def apart(marks: Sequence[Mark], wide_mm: float, tall_mm: float) -> tuple[Mark, ...]:
    """Marks set as near as may be to their points so that none covers another and all lie within the picture.

    Letters have their places first, then numbers in their order; those that moved point to where they stood. Where a
    picture has no room left, a mark goes where it covers least.

    Parameters
    ----------
    marks : with shares of the picture.
    wide_mm, tall_mm : as large as it is printed [mm].
    """
    size = np.array([wide_mm, tall_mm])
    columns, rows = (np.arange(MARK_MM / 2, side - MARK_MM / 2 + 1e-9, RASTER_MM) for side in size)
    raster = np.stack(np.meshgrid(columns, rows), axis=-1).reshape(-1, 2)
    room = np.full(len(raster), np.inf)
    out = list(marks)
    for n in sorted(range(len(marks)), key=lambda n: marks[n].kind is not MarkKind.LETTER):
        stood = np.array([marks[n].x, marks[n].y]) * size
        far = np.linalg.norm(raster - stood, axis=1)
        free = room >= MARK_MM + GAP_MM
        chosen = int(np.where(free, far, np.inf).argmin() if free.any() else room.argmax())
        room = np.minimum(room, np.linalg.norm(raster - raster[chosen], axis=1))
        x, y = (float(share) for share in raster[chosen] / size)
        moved = far[chosen] > RASTER_MM
        out[n] = replace(marks[n], x=x, y=y, to=(marks[n].x, marks[n].y) if moved else None)
    return tuple(out)
