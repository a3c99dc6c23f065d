"""The boards of a stand as one solid, as it stands on the table."""

from __future__ import annotations

import manifold3d as m3
import numpy as np

from moldwright.geometry.mesh import Mesh
from moldwright.geometry.solid import SPECK_MM3, Solid, exportable, solid_of
from moldwright.mold.stand_found import StandFound
from moldwright.plan.stand import StandBoard


def stand_solid(found: StandFound) -> Mesh:
    """All boards in one.

    Parameters
    ----------
    found : the stand, with boards.

    Source: our own.
    """
    solids = [_on_edge(board, found.thick_mm) for board in found.boards]
    return exportable(m3.Manifold.batch_boolean(solids, m3.OpType.Add), SPECK_MM3)


def turned_over(mesh: Mesh, mouth_mm: float) -> Solid:
    """A solid of the mold as it hangs in the stand, turned over about the way from left to right.

    Parameters
    ----------
    mesh : as it stands on its board [mm].
    mouth_mm : how high the mouth is over the table [mm].

    Source: our own.
    """
    way = np.array([[1.0, 0.0, 0.0, 0.0], [0.0, -1.0, 0.0, 0.0], [0.0, 0.0, -1.0, mouth_mm]])
    return solid_of(mesh).transform(way)


def _on_edge(board: StandBoard, thick_mm: float) -> Solid:
    """A board under the turned mold, without slots."""
    outline = [(board.edge[0][0], 0.0), (board.edge[-1][0], 0.0), *reversed(board.edge)]
    flat = m3.Manifold.extrude(m3.CrossSection([outline]), thick_mm).translate((0.0, 0.0, -thick_mm / 2))
    if board.across:
        way = [[1.0, 0.0, 0.0, 0.0], [0.0, 0.0, -1.0, -board.at_mm], [0.0, 1.0, 0.0, 0.0]]
    else:
        way = [[0.0, 0.0, -1.0, board.at_mm], [-1.0, 0.0, 0.0, 0.0], [0.0, 1.0, 0.0, 0.0]]
    return flat.transform(np.array(way))
