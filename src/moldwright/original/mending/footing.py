"""Where the middle of a piece's foot is."""

from __future__ import annotations

from moldwright.geometry.mesh import Mesh

ON_BOARD_MM = 1e-6


def middle_of_foot(mesh: Mesh) -> tuple[float, float]:
    """The middle of the box about what touches the board, seen from above [mm]; of all where nothing does.

    Parameters
    ----------
    mesh : standing on z = 0 [mm].

    Source: our own.
    """
    foot = mesh.vertices[mesh.vertices[:, 2] <= ON_BOARD_MM]
    base = foot if len(foot) else mesh.vertices
    x, y, _ = (base.min(axis=0) + base.max(axis=0)) / 2
    return float(x), float(y)
