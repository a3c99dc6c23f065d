"""The edges of a closed mesh in pairs, and the surfaces that hang together by them."""

from __future__ import annotations

from typing import Any

import numba as nb
import numpy as np
from numpy.typing import NDArray

from moldwright.geometry.mesh import Faces, Mesh


def edge_pairs(mesh: Mesh) -> NDArray[np.int64] | None:
    """(e, 2) the two triangles of every edge; None where an edge has not exactly one triangle on each side.

    Edges are sorted with their sense as the last bit: in a sound mesh every edge stands there twice, once each way.

    Parameters
    ----------
    mesh : triangles whose shared corners are one vertex [mm].

    Source: our own.
    """
    faces = mesh.faces.astype(np.int64)
    a, b = faces.T.ravel(), faces[:, [1, 2, 0]].T.ravel()
    if len(a) == 0 or (a == b).any():
        return None
    key = (np.minimum(a, b) * len(mesh.vertices) + np.maximum(a, b)) * 2 + (a > b)
    order = np.argsort(key)
    key = key[order]
    there, back = key[0::2], key[1::2]
    if len(there) != len(back) or (there & 1).any() or (back != there + 1).any() or (there[1:] == there[:-1]).any():
        return None
    return (order % len(faces)).reshape(-1, 2)


def surfaces_of(mesh: Mesh) -> NDArray[np.int32] | None:
    """(m,) for every triangle the number of the closed surface that it is of, 0 first; None where edges do not pair.

    Surfaces hang together by edges: two that meet in a corner only are two, as for a reader who counts bodies.

    Parameters
    ----------
    mesh : triangles whose shared corners are one vertex [mm].

    Source: union by index (Galler & Fischer 1964, "An improved equivalence algorithm", Communications of the ACM 7).
    """
    pairs = edge_pairs(mesh)
    return None if pairs is None else _united(pairs, len(mesh.faces))


@nb.njit(cache=True)
def _united(pairs: Any, count: int) -> Any:
    """(count,) numbers of the sets that pairs unite, in the order of their first members."""
    root = np.arange(count)
    for n in range(pairs.shape[0]):
        a, b = pairs[n, 0], pairs[n, 1]
        while root[a] != a:
            root[a] = root[root[a]]
            a = root[a]
        while root[b] != b:
            root[b] = root[root[b]]
            b = root[b]
        if a < b:
            root[b] = a
        else:
            root[a] = b
    number = np.full(count, -1, np.int32)
    out = np.empty(count, np.int32)
    found = 0
    for n in range(count):
        m = n
        while root[m] != m:
            m = root[m]
        if number[m] < 0:
            number[m] = found
            found += 1
        out[n] = number[m]
    return out


def volumes_by(mesh: Mesh, number: NDArray[np.int32]) -> NDArray[np.float64]:
    """(k,) signed volume [mm3] of every numbered surface of a mesh: negative where it bounds a hollow.

    Parameters
    ----------
    mesh : closed surfaces [mm].
    number : (m,) for every triangle the number of its surface, 0 to k - 1.

    Source: the divergence theorem.
    """
    a, b, c = (mesh.corners - mesh.vertices.mean(axis=0)).transpose(1, 0, 2)
    six = np.einsum("ij,ij->i", a, np.cross(b, c))
    return np.asarray(np.bincount(number, weights=six) / 6, dtype=np.float64)


def of_faces(mesh: Mesh, kept: NDArray[np.bool_]) -> Mesh:
    """The mesh of some of the triangles, without vertices that none of them uses.

    Parameters
    ----------
    mesh : triangles [mm].
    kept : (m,) which of them stay.

    Source: our own.
    """
    faces: Faces = mesh.faces[kept]
    used = np.zeros(len(mesh.vertices), bool)
    used[faces] = True
    fresh = (np.cumsum(used) - 1).astype(np.int32)
    return Mesh(mesh.vertices[used], fresh[faces])
