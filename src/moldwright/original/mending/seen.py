"""Which parts of a scan of many parts can be seen from outside; what lies wholly inside others changes nothing."""

from __future__ import annotations

import numpy as np

from moldwright.geometry.clip import capped, compact, patched
from moldwright.geometry.connected import part_of_faces
from moldwright.geometry.grid import Grid
from moldwright.geometry.mesh import Mesh
from moldwright.original.mending.sampled import banded
from moldwright.progress import Progress

MANY_PARTS = 32
SEEN_STEPS = 1.5


def seen_from_outside(cut: Mesh, grid: Grid, progress: Progress) -> Mesh:
    """The scan without the parts that others hide; as it is where it has at most 32 parts.

    The nearest surface of a point outside is always surface of the whole piece, so a part is kept where it is the
    nearest to some point outside, asked at every second grid point. A part that shows less than that is lost; parts
    as small are specks.

    Parameters
    ----------
    cut : the scan over the board [mm].
    grid : where it will be sampled.
    progress : told between short pieces of the work; it may raise to cancel.

    Source: our own.
    """
    of_face = part_of_faces(cut)
    if int(of_face.max()) < MANY_PARTS:
        return cut
    whole, coarse = patched(cut), grid.coarser(2)
    distance, nearest, inside = banded(whole, capped(whole), coarse, SEEN_STEPS * coarse.step_mm, progress)
    faces = np.unique(nearest[~inside & (distance < SEEN_STEPS * coarse.step_mm)])
    shown = np.zeros(int(of_face.max()) + 1, bool)
    shown[of_face[faces[(faces >= 0) & (faces < len(cut.faces))]]] = True
    return compact(Mesh(cut.vertices, cut.faces[shown[of_face]]))
