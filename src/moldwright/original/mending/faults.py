"""Where bodies cut through themselves: the zones in which a level set takes the place of the scan's surface."""

from __future__ import annotations

from dataclasses import dataclass

import igl
import numpy as np
from numpy.typing import NDArray

from moldwright.geometry.distance import unsigned_band
from moldwright.geometry.field import Sampled
from moldwright.geometry.grid import Grid
from moldwright.geometry.mesh import Mesh
from moldwright.geometry.sign import winding_numbers
from moldwright.geometry.solid import Solid, mesh_of, solid_of
from moldwright.geometry.surface import level_set

REACH_STEPS = 2.0
CORE_STEPS, SHALLOW_STEPS, PROBE_STEPS = 1.0, 1.5, 0.01


@dataclass(frozen=True, slots=True, eq=False)
class Hidden:
    """Surface that lies inside the piece.

    Parameters
    ----------
    shallow : triangles nearer than 1.5 steps to the piece's surface [mm].
    deep : whether some lies deeper.
    """

    shallow: Mesh
    deep: bool


def hidden_surface(faulty: Solid, whole: Mesh, sampled: Mesh, step_mm: float) -> Hidden:
    """The triangles of bodies that cut themselves which lie inside the piece.

    Inside are those whose middle, moved outward by a hundredth of the step, has a winding number of 1 or more.

    Parameters
    ----------
    faulty : the bodies that cut themselves [mm].
    whole : all bodies of the scan.
    sampled : the piece as a level set.
    step_mm : sampling step [mm].

    Source: Jacobson et al. 2013, "Robust inside-outside segmentation using generalized winding numbers".
    """
    fine = mesh_of(faulty.refine_to_length(SHALLOW_STEPS * step_mm))
    middles = fine.corners.mean(axis=1)
    a, b, c = fine.corners.transpose(1, 0, 2)
    normals = np.cross(b - a, c - a)
    normals /= np.maximum(np.linalg.norm(normals, axis=1, keepdims=True), 1e-30)
    inside = winding_numbers(whole, middles + PROBE_STEPS * step_mm * normals) > 0.5
    hidden = np.flatnonzero(inside)
    if len(hidden) == 0:
        return Hidden(Mesh(fine.vertices, fine.faces[:0]), False)
    depth = _depth(middles[hidden], sampled)
    shallow = depth < SHALLOW_STEPS * step_mm
    return Hidden(Mesh(fine.vertices, fine.faces[hidden[shallow]]), bool((~shallow).any()))


def _depth(points: NDArray[np.float64], surface: Mesh) -> NDArray[np.float64]:
    squared = igl.point_mesh_squared_distance(points, surface.vertices, surface.faces.astype(np.int64))[0]
    return np.asarray(np.sqrt(squared), dtype=np.float64)


def zone_about(segments: NDArray[np.float64], surface: Mesh, step_mm: float) -> Solid:
    """All points within two steps of segments and of a surface, as a solid.

    Parameters
    ----------
    segments : (n, 2, 3) along which triangles cross [mm].
    surface : further triangles [mm].
    step_mm : sampling step [mm].

    Source: our own.
    """
    n, first = len(segments), len(surface.vertices)
    lines = first + np.stack([np.arange(n), n + np.arange(n), n + np.arange(n)], axis=1)
    vertices = np.concatenate([surface.vertices, segments[:, 0], segments[:, 1]])
    soup = Mesh(vertices, np.concatenate([surface.faces, lines]).astype(np.int32))
    used = soup.vertices[np.unique(soup.faces)]
    reach, band = REACH_STEPS * step_mm, (REACH_STEPS + 2) * step_mm
    grid = Grid.around(used.min(axis=0), used.max(axis=0), step_mm, band)
    distance = np.minimum(unsigned_band(soup, grid, band)[0], np.float32(band))
    return solid_of(level_set(Sampled(distance, grid), reach))
