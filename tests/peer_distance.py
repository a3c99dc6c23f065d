"""Distance to a surface as a reference library measures it."""

from __future__ import annotations

import igl
import numpy as np
from numpy.typing import NDArray

from moldwright.geometry.mesh import Mesh


def peer_distance(points: NDArray[np.float64], mesh: Mesh) -> NDArray[np.float64]:
    """How far points lie from a mesh [mm], by libigl."""
    faces = mesh.faces.astype(np.int64)
    squared = igl.point_mesh_squared_distance(np.ascontiguousarray(points), mesh.vertices, faces)[0]
    return np.asarray(np.sqrt(squared))
