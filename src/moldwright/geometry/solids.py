"""Closed solids and their booleans (manifold3d), with every promise checked on the way in and out."""

from __future__ import annotations

from typing import Any, TypeAlias

import manifold3d as m3
import numpy as np

from moldwright.errors import ComputationFailed
from moldwright.geometry.mesh import Mesh

LEAST_TOLERANCE_MM = 5e-3
FLOAT_SHARE = 2e-5
TOLERANCE_TRIES = 6

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
    return Mesh(
        np.array(raw.vert_properties[:, :3], dtype=np.float64), np.array(raw.tri_verts, dtype=np.int32)
    )


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
    solid a solid); the tolerance grows until no corner falls on another's place.

    Raises ComputationFailed where that does not help.
    """
    low, high = np.array(solid.bounding_box()).reshape(2, 3)
    tolerance_mm = max(LEAST_TOLERANCE_MM, FLOAT_SHARE * float(np.abs([low, high]).max()))
    for _ in range(TOLERANCE_TRIES):
        mesh = _welded(mesh_of(solid.simplify(tolerance_mm)))
        if mesh.why_invalid() == "":
            return mesh
        tolerance_mm *= 3
    raise ComputationFailed("solid-not-exportable", f"{tolerance_mm:.4f}", None, "mm", "Report this commission.")


def _welded(mesh: Mesh) -> Mesh:
    """The mesh in single precision as a reader of an unindexed file sees it: corners at one place are one.

    Triangles that lose a corner by that are dropped, with the edge that they close.
    """
    rows = np.ascontiguousarray(mesh.vertices.astype(np.float32) + np.float32(0.0))
    _, first, same = np.unique(rows.view(np.dtype((np.void, 12))).ravel(), return_index=True, return_inverse=True)
    faces = same.ravel()[mesh.faces].astype(np.int32)
    a, b, c = faces.T
    return Mesh(rows[first].astype(np.float64), faces[(a != b) & (b != c) & (c != a)])
