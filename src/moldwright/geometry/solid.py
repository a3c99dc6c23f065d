"""Closed solids and their booleans (manifold3d), with every promise checked on the way in and out."""

from __future__ import annotations

from typing import Any, TypeAlias
from weakref import WeakKeyDictionary

import manifold3d as m3
import numpy as np

from moldwright.errors import ComputationFailed
from moldwright.geometry.edges import of_faces, surfaces_of, volumes_by
from moldwright.geometry.mesh import Mesh
from moldwright.geometry.precision import single_precision

LEAST_TOLERANCE_MM = 5e-3
FLOAT_SHARE = 2e-5
TOLERANCES = (1.0, 0.0, 3.0, 10.0, 30.0)

SPECK_MM3 = 1.0
"""A part of an exported solid below this is a crumb of its making and is dropped: a cube of 1 mm, our choice."""

Solid: TypeAlias = Any
"""A `manifold3d.Manifold`: the library ships no types that a checker accepts."""

_SOLIDS: WeakKeyDictionary[Mesh, Solid] = WeakKeyDictionary()
"""Solids that were made already, as long as their mesh lives: both never change."""


def solid_of(mesh: Mesh) -> Solid:
    """A solid from a closed mesh, made once; ComputationFailed where the mesh is open, inside out or empty.

    Parameters
    ----------
    mesh : closed, wound outward [mm].

    Source: our own, through manifold3d.
    """
    known = _SOLIDS.get(mesh)
    if known is None:
        known = _SOLIDS[mesh] = _made(mesh)
    return known


def _made(mesh: Mesh) -> Solid:
    solid = m3.Manifold(
        m3.Mesh64(np.ascontiguousarray(mesh.vertices), np.ascontiguousarray(mesh.faces, dtype=np.uint64))
    )
    if solid.status() != m3.Error.NoError:
        raise ComputationFailed("solid-not-closed", str(solid.status()), None, "", "Report this commission.")
    if solid.volume() <= 0:
        raise ComputationFailed("solid-inside-out", f"{solid.volume():.3f}", 0, "mm3", "Report this commission.")
    return solid


def mesh_of(solid: Solid) -> Mesh:
    """The solid's triangles.

    Parameters
    ----------
    solid : any solid [mm].

    Source: our own, through manifold3d.
    """
    mesh = _triangles(solid)
    if solid.volume() > 0:
        _SOLIDS[mesh] = solid
    return mesh


def _triangles(solid: Solid) -> Mesh:
    raw = solid.to_mesh64()
    return Mesh(np.array(raw.vert_properties[:, :3], dtype=np.float64), np.array(raw.tri_verts, dtype=np.int32))


def bodies_of(solid: Solid, least_mm3: float = 0.0) -> list[Solid]:
    """The separate bodies of more than a volume, largest first; hollows inside them are filled.

    Parameters
    ----------
    solid : any solid [mm].
    least_mm3 : volume up to which a body is left out [mm3], >= 0.

    Source: our own, through manifold3d.
    """
    parts = [part for part in solid.decompose() if part.volume() > least_mm3]
    return sorted(parts, key=lambda part: -part.volume())


def largest_body(solid: Solid) -> Solid:
    """The body of most volume, hollows inside it filled; ComputationFailed where there is none.

    Parameters
    ----------
    solid : any solid [mm].

    Source: our own, through manifold3d.
    """
    number = surfaces_of(_triangles(solid))
    if number is not None and number.max() == 0 and solid.volume() > 0:
        return solid
    parts = bodies_of(solid)
    if not parts:
        raise ComputationFailed("solid-empty", 0, None, "mm3", "Report this commission.")
    return parts[0]


def above(solid: Solid, z_mm: float) -> Solid:
    """The part of the solid over the plane z = z_mm, closed flat there.

    Parameters
    ----------
    solid : any solid [mm].
    z_mm : height of the plane [mm].

    Source: our own, through manifold3d.
    """
    return solid.trim_by_plane((0.0, 0.0, 1.0), z_mm)


def exportable(solid: Solid, least_mm3: float = SPECK_MM3) -> Mesh:
    """The solid as its file of single precision is read again: equal corners joined, closed, one body.

    Edges shorter than single precision tells apart are collapsed first (manifold3d's simplification, which keeps a
    solid a solid; with another tolerance or none where that ties a knot). Corners of different parts of the surface
    that fall on one place are drawn a little into the body. Where collapsing has cut a crumb off, or left one hanging
    by a corner, it is dropped up to `least_mm3`. Corners of the result are exact in single precision and no two are
    equal, so that what a reader joins is what is returned.

    Parameters
    ----------
    solid : what is written to a file [mm].
    least_mm3 : volume from which a second body is refused, not dropped [mm3]; infinite: only the largest is kept.

    Raises ComputationFailed where that does not help. Source: our own.
    """
    low, high = np.array(solid.bounding_box()).reshape(2, 3)
    tolerance_mm = max(LEAST_TOLERANCE_MM, FLOAT_SHARE * float(np.abs([low, high]).max()))
    why = ""
    for factor in TOLERANCES:
        simple = solid.simplify(factor * tolerance_mm) if factor else solid
        mesh = without_specks(single_precision(_triangles(simple), nudge_mm=tolerance_mm), least_mm3)
        why = why_not_one_body(mesh)
        if not why:
            return mesh
    raise ComputationFailed("solid-not-exportable", why, None, "", "Report this commission.")


def without_specks(mesh: Mesh, least_mm3: float = SPECK_MM3) -> Mesh:
    """The mesh without closed surfaces, of bodies or of hollows, that hold less than a volume; the largest stays.

    Parameters
    ----------
    mesh : closed surfaces, equal corners joined [mm]; returned as it is where edges do not pair.
    least_mm3 : volume from which a surface is kept [mm3], > 0.

    Source: our own.
    """
    number = surfaces_of(mesh)
    if number is None or number.max() == 0:
        return mesh
    volumes = volumes_by(mesh, number)
    real = np.abs(volumes) >= least_mm3
    real[np.argmax(volumes)] = True
    return mesh if real.all() else of_faces(mesh, real[number])


def why_not_one_body(mesh: Mesh) -> str:
    """Why a mesh, as it stands in its file, is not one closed body of positive volume; "" where it is.

    Parameters
    ----------
    mesh : triangles, equal corners joined [mm].

    Source: our own.
    """
    number = surfaces_of(mesh)
    if number is None or not np.isfinite(mesh.vertices).all():
        return mesh.why_invalid() or "its edges do not pair"
    if number.max() > 0:
        least = float(np.sort(np.abs(volumes_by(mesh, number)))[-2])
        return f"it falls into {int(number.max()) + 1} surfaces, the second of {least:.3f} mm3"
    volume = mesh.volume_mm3
    return "" if volume > 0 else f"it is inside out (volume {volume:.1f} mm3)"
