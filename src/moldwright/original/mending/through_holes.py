"""The through-holes of the piece, which rubber would close into webs; a lattice of them is refused."""

from __future__ import annotations

import numpy as np

from moldwright.errors import NoSafePlan
from moldwright.found_at import FoundAt
from moldwright.geometry.curved import angle_defects
from moldwright.geometry.handles import Handle, find_handles, genus_of
from moldwright.geometry.mesh import Mesh
from moldwright.geometry.on_body import found_on
from moldwright.geometry.solid import mesh_of, solid_of

MOST_THROUGH_HOLES = 40
"""At a divider each, set or a web cut by hand, two hours' work: our own limit, no source."""


def through_holes(mesh: Mesh, coarse_mm: float) -> tuple[Handle, ...]:
    """The through-holes of one closed body; NoSafePlan above `MOST_THROUGH_HOLES` of them.

    Each wants its own divider set before the first coat, or its web cut: nobody does that for hundreds.

    Parameters
    ----------
    mesh : one closed body [mm].
    coarse_mm : to what the body is simplified before its holes are looked for [mm].

    Source: our own.
    """
    genus = genus_of(mesh, coarse_mm)
    if genus > MOST_THROUGH_HOLES:
        raise NoSafePlan(
            "too-many-through-holes",
            genus,
            MOST_THROUGH_HOLES,
            "holes",
            "Rubber closes into a web in every hole and locks the glove: fill the lattice in the scan, "
            "or plan its parts one at a time.",
            place=_amid_holes(mesh, coarse_mm),
        )
    return find_handles(mesh, coarse_mm)


def _amid_holes(mesh: Mesh, coarse_mm: float) -> FoundAt:
    """Amid the holes: where the surface bends like a saddle, of which every hole has a full turn twice.

    Source: the theorem of Gauss and Bonnet.
    """
    simple = mesh_of(solid_of(mesh).simplify(coarse_mm))
    saddle = np.maximum(-angle_defects(simple), 0.0)
    middle = np.average(simple.vertices, axis=0, weights=saddle)
    away = np.linalg.norm(simple.vertices - middle, axis=1)
    order = np.argsort(away)
    half = np.searchsorted(np.cumsum(saddle[order]), 0.9 * saddle.sum())
    return found_on(mesh, middle, 2.0 * float(away[order[min(int(half), len(order) - 1)]]))
