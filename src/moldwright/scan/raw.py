"""What a parser hands on: triangles as the file lists them, before anything is mended."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from moldwright.scan.repairs import Repair
from moldwright.scan.scan import Vector

Points = NDArray[np.float64]
Indices = NDArray[np.int64]


@dataclass(frozen=True, slots=True, eq=False)
class Raw:
    """Triangles of one file.

    Parameters
    ----------
    vertices : (n, 3) float32 or float64, file units.
    faces : (m, 3) int64 indices; None where every three vertices in turn make a triangle.
    part : (n,) the part of the file that each vertex belongs to; None for one part.
    unit, up : what the format itself states.
    """

    vertices: NDArray[np.floating]
    faces: Indices | None
    part: Indices | None = None
    unit: str | None = None
    up: Vector | None = None
    repairs: tuple[Repair, ...] = ()
