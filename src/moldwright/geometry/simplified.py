"""Solids with fewer triangles, for the screen: how far they are off is measured, not promised."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from moldwright.geometry.closest import away_from_mesh
from moldwright.geometry.mesh import Mesh
from moldwright.geometry.solid import mesh_of, solid_of

FIRST_MM, GROWS, MOST_TRIES = 0.06, 1.3, 16
"""The finest tolerance that is tried, and by what it grows from try to try: our own."""
LOOKED_AT = 4000
"""Corners of the full solid whose distance is measured: our own."""


@dataclass(frozen=True, slots=True, eq=False)
class Simplified:
    """Solids with no more triangles than allowed. `off_mm`: how far a looked-at corner of a full one is off at most."""

    meshes: tuple[Mesh, ...]
    off_mm: float


def simplified(full: Sequence[Mesh], most: int) -> Simplified:
    """Solids with so many triangles together at most, all by one tolerance.

    Parameters
    ----------
    full : closed solids [mm].
    most : triangles of all together; what no tolerance reaches is left with more.

    Source: edges collapsed within a tolerance, by manifold3d.
    """
    meshes, tolerance_mm = tuple(full), FIRST_MM
    for _ in range(MOST_TRIES):
        if sum(len(mesh.faces) for mesh in meshes) <= most:
            break
        meshes = tuple(mesh_of(solid_of(mesh).simplify(tolerance_mm)) for mesh in meshes)
        tolerance_mm *= GROWS
    return Simplified(meshes, max((_off_mm(one, other) for one, other in zip(full, meshes, strict=True)), default=0.0))


def _off_mm(full: Mesh, simple: Mesh) -> float:
    if simple is full:
        return 0.0
    every = max(1, len(full.vertices) // LOOKED_AT)
    return float(away_from_mesh(full.vertices[::every], simple).max())
