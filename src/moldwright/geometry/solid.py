"""Closed solids and their booleans (manifold3d), with every promise checked on the way in and out."""

from __future__ import annotations

from typing import Any, TypeAlias

import manifold3d as m3
import numpy as np

from moldwright.errors import ComputationFailed
from moldwright.geometry.mesh import Mesh
from moldwright.geometry.precision import single_precision

LEAST_TOLERANCE_MM = 5e-3
FLOAT_SHARE = 2e-5
TOLERANCES = (1.0, 0.0, 3.0, 10.0, 30.0)

Solid: TypeAlias = Any
"""A `manifold3d.Manifold`: the library ships no types that a checker accepts."""


def solid_of(mesh: Mesh) -> Solid:
    """A solid from a closed mesh; ComputationFailed where the mesh is open, inside out or empty."""
    solid = m3.Manifold(
        m3.Mesh64(np.ascontiguousarray(mesh.vertices), np.ascontiguousarray(mesh.faces, dtype=np.uint64))
    )
    if solid.status() != m3.Error.NoError:
        raise ComputationFailed("solid-not-closed", str(solid.status()), None, "", "Report this commission.")
    if solid.volume() <= 0:
        raise ComputationFailed("solid-inside-out", f"{solid.volume():.3f}", 0, "mm3", "Report this commission.")
    return solid


def mesh_of(solid: Solid) -> Mesh:
    """The solid's triangles."""
    raw = solid.to_mesh64()
    return Mesh(np.array(raw.vert_properties[:, :3], dtype=np.float64), np.array(raw.tri_verts, dtype=np.int32))


def bodies_of(solid: Solid, least_mm3: float = 0.0) -> list[Solid]:
    """The separate bodies of at least a volume, largest first."""
    parts = [part for part in solid.decompose() if part.volume() > least_mm3]
    return sorted(parts, key=lambda part: -part.volume())


def largest_body(solid: Solid) -> Solid:
    parts = bodies_of(solid)
    if not parts:
        raise ComputationFailed("solid-empty", 0, None, "mm3", "Report this commission.")
    return parts[0]


def above(solid: Solid, z_mm: float) -> Solid:
    """The part of the solid over the plane z = z_mm, closed flat there."""
    return solid.trim_by_plane((0.0, 0.0, 1.0), z_mm)


def exportable(solid: Solid) -> Mesh:
    """The solid's triangles as a file of single precision can hold them: still closed when equal corners are joined.

    Edges shorter than single precision tells apart are collapsed first (manifold3d's simplification, which keeps a
    solid a solid; with another tolerance or none where that ties a knot). Corners of different parts of the surface
    that fall on one place are drawn a little into the body.

    Raises ComputationFailed where that does not help.
    """
    low, high = np.array(solid.bounding_box()).reshape(2, 3)
    tolerance_mm = max(LEAST_TOLERANCE_MM, FLOAT_SHARE * float(np.abs([low, high]).max()))
    why = ""
    for factor in TOLERANCES:
        simple = solid.simplify(factor * tolerance_mm) if factor else solid
        mesh = single_precision(mesh_of(simple), nudge_mm=tolerance_mm)
        why = mesh.why_invalid()
        if not why:
            return mesh
    raise ComputationFailed("solid-not-exportable", why, None, "", "Report this commission.")
