"""The scan's open borders away from the board: what was closed, each with the length of its edge."""

from __future__ import annotations

import numpy as np

from moldwright.geometry.clip import open_borders
from moldwright.geometry.mesh import Mesh
from moldwright.scan.repairs import Repair, RepairCode

MOST_TOLD = 10


def hole_repairs(cut: Mesh) -> tuple[Repair, ...]:
    """The holes that `geometry.clip.patched` closes with fans, the ten longest each, the rest together.

    Parameters
    ----------
    cut : the scan over the board, open where it is open [mm].

    Source: our own.
    """
    edges, border = open_borders(cut)
    if len(edges) == 0:
        return ()
    length = np.linalg.norm(cut.vertices[edges[:, 0]] - cut.vertices[edges[:, 1]], axis=1)
    largest = np.sort(np.bincount(border, weights=length))[::-1]
    told = tuple(Repair(RepairCode.HOLE_CLOSED, round(float(s), 1), "mm") for s in largest[:MOST_TOLD])
    rest = largest[MOST_TOLD:]
    if len(rest) == 0:
        return told
    return (*told, Repair(RepairCode.HOLE_CLOSED, round(float(rest.sum()), 1), "mm", len(rest)))
