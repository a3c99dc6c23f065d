"""The connected parts of a mesh."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray
from scipy.sparse import coo_matrix
from scipy.sparse.csgraph import connected_components

from moldwright.geometry.clip import compact
from moldwright.geometry.mesh import Mesh


def part_of_faces(mesh: Mesh) -> NDArray[np.int64]:
    """(m,) the number of the connected part that each triangle is of, from 0; triangles that share a vertex connect.

    Source: connected components of the graph of the edges (scipy).

    Parameters
    ----------
    mesh : any triangles.
    """
    a, b, c = mesh.faces.T
    n = len(mesh.vertices)
    links = coo_matrix((np.ones(2 * len(a), bool), (np.concatenate([a, b]), np.concatenate([b, c]))), shape=(n, n))
    label = connected_components(links, directed=False)[1]
    return np.unique(label[a], return_inverse=True)[1].ravel().astype(np.int64)


def connected_parts(mesh: Mesh) -> list[Mesh]:
    """The parts whose triangles share vertices, largest (by triangles) first.

    Source: connected components of the graph of the edges (scipy).

    Parameters
    ----------
    mesh : any triangles.
    """
    part = part_of_faces(mesh)
    count = np.bincount(part)
    if len(count) <= 1:
        return [mesh]
    groups = np.split(np.argsort(part, kind="stable"), np.cumsum(count)[:-1])
    return [compact(Mesh(mesh.vertices, mesh.faces[groups[n]])) for n in np.argsort(-count, kind="stable")]
