"""Rays against a triangle mesh (embreex)."""

from __future__ import annotations

import numpy as np
from embreex import rtcore_scene
from embreex.mesh_construction import TriangleMesh
from numpy.typing import NDArray

from moldwright.geometry.mesh import Mesh


def hit_distances(mesh: Mesh, origins_mm: NDArray[np.float64], direction: NDArray[np.float64]) -> NDArray[np.float32]:
    """Distance [mm] along one direction from each of (n, 3) points to the mesh; 1e37 and more where none is met."""
    scene = rtcore_scene.EmbreeScene()
    TriangleMesh(scene, np.ascontiguousarray(mesh.corners, dtype=np.float32))
    rays = np.ascontiguousarray(np.broadcast_to(direction, origins_mm.shape), dtype=np.float32)
    distances: NDArray[np.float32] = scene.run(
        np.ascontiguousarray(origins_mm, dtype=np.float32), rays, query="DISTANCE"
    )
    return distances
