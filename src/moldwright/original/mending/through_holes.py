"""The through-holes of the piece, which rubber would close into webs; a lattice of them is refused."""

from __future__ import annotations

from moldwright.errors import NoSafePlan
from moldwright.geometry.handles import Handle, find_handles, genus_of
from moldwright.geometry.mesh import Mesh

MOST_THROUGH_HOLES = 200


def through_holes(mesh: Mesh, coarse_mm: float) -> tuple[Handle, ...]:
    """The through-holes of one closed body; NoSafePlan above 200 of them (our own limit, no source).

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
        )
    return find_handles(mesh, coarse_mm)
