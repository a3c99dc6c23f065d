"""Originals of a wanted number of triangles: the demo's otter on a finer lattice."""

from __future__ import annotations

import math
from functools import lru_cache

from moldwright.geometry.mesh import Mesh
from moldwright.making.demo.original import DEMO_STEP_MM, otter_mesh

DEMO_TRIANGLES = 236_448


@lru_cache(maxsize=1)
def otter_of(triangles: int) -> Mesh:
    """The otter with about `triangles` triangles: their number goes with 1 / step^2."""
    return otter_mesh(round(DEMO_STEP_MM * math.sqrt(DEMO_TRIANGLES / triangles), 4))
