"""The connected parts of a mesh."""

from __future__ import annotations

import numpy as np
from scipy.sparse import coo_matrix
from scipy.sparse.csgraph import connected_components

from moldwright.geometry.clip import compact
from moldwright.geometry.mesh import Mesh


def connected_parts(mesh: Mesh) -> list[Mesh]:
    """The parts whose triangles share vertices, largest (by triangles) first.

    Parameters
    ----------
    mesh : any triangles [mm].

    Source: connected components of a graph, as scipy has them.
    """
    a, b, c = mesh.faces.T
    n = len(mesh.vertices)
    links = coo_matrix((np.ones(2 * len(a), bool), (np.concatenate([a, b]), np.concatenate([b, c]))), shape=(n, n))
    count, label = connected_components(links, directed=False)
    if count == 1:
        return [mesh]
    of_face = label[a]
    order = np.argsort(-np.bincount(of_face, minlength=count), kind="stable")
    return [compact(Mesh(mesh.vertices, mesh.faces[of_face == part])) for part in order if (of_face == part).any()]
