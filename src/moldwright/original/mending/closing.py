"""A cut scan closed at the board: walls go down from its edge there and meet in one point below."""

from __future__ import annotations

import manifold3d as m3
import numpy as np

from moldwright.geometry.clip import open_edges, patched
from moldwright.geometry.mesh import Mesh
from moldwright.geometry.solid import Solid

DEPTH_MM = 1.0
CUT_MM = 1e-5


def closed_at_board(cut: Mesh) -> Solid | None:
    """The scan's own triangles as one closed set of bodies over z = 0, wherever they cross; None where they tie knots.

    Holes are closed by fans. The walls' lower end may cross itself: it is cut off again, and the plane closes what
    is left by the walls alone.

    Parameters
    ----------
    cut : the scan over the board, open where it is open [mm].

    Source: our own.
    """
    whole = _with_walls(patched(cut))
    raw = m3.Manifold(m3.Mesh64(whole.vertices, whole.faces.astype(np.uint64)))
    if raw.status() != m3.Error.NoError or raw.is_empty():
        return None
    return raw.trim_by_plane((0.0, 0.0, 1.0), CUT_MM).translate((0.0, 0.0, -CUT_MM))


def _with_walls(cut: Mesh) -> Mesh:
    edges = open_edges(cut)
    edges = edges[(cut.vertices[edges, 2] == 0.0).all(axis=1)]
    if len(edges) == 0:
        return cut
    n = len(cut.vertices)
    used, place = np.unique(edges, return_inverse=True)
    low = cut.vertices[used] - np.array([0.0, 0.0, DEPTH_MM])
    (a, b), (c, d) = edges.T, (n + place.reshape(-1, 2)).T
    tip = np.full(len(edges), n + len(used))
    walls = [np.stack(corners, axis=1) for corners in ((b, a, c), (b, c, d), (d, c, tip))]
    vertices = np.concatenate([cut.vertices, low, low.mean(axis=0)[None]])
    return Mesh(vertices, np.concatenate([cut.faces, *walls]).astype(np.int32))
