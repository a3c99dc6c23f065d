"""How near points are to a surface."""

from __future__ import annotations

import igl
import numpy as np
from numpy.typing import NDArray

from moldwright.geometry.mesh import Mesh

Points = NDArray[np.float64]
AT_ONCE = 2000


def distances_to(mesh: Mesh, points: Points) -> Points:
    """The distance of each point from the nearest triangle, (n,), in the mesh's unit (an AABB tree, through libigl).

    Asked in blocks, so that Ctrl-C is heard between them.

    Parameters
    ----------
    mesh : any triangles.
    points : (n, 3), same unit.

    Source: libigl.
    """
    faces = mesh.faces.astype(np.int64)
    vertices = np.ascontiguousarray(mesh.vertices)
    tree = igl.AABB()
    tree.init(vertices, faces)
    blocks = (np.ascontiguousarray(points[at : at + AT_ONCE]) for at in range(0, len(points), AT_ONCE))
    found = [np.sqrt(tree.squared_distance(vertices, faces, block)[0]).ravel() for block in blocks]
    return np.concatenate(found) if found else np.zeros(0)
