"""How much of a body is thin, and how much of the rubber about it would stand in narrow gaps."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from moldwright.geometry.mesh import Mesh
from moldwright.geometry.rays import Rays
from moldwright.mold.kinds import Slim

SAMPLES = 20_000
SLIM_MM = 3.0
"""A part, or a fin of rubber, under so much is thin: common practice, no source."""
OPPOSITE = -0.7
"""What a ray meets counts where its normal is so much against the ray's start: two faces of one plate; our own."""
OFF_MM = 1e-3
Points = NDArray[np.float64]


def slim_of(body: Mesh, slim_mm: float = SLIM_MM) -> Slim:
    """How much of a body is thin, and lies at narrow gaps: by rays from evenly spread points, in and out.

    Parameters
    ----------
    body : closed [mm].
    slim_mm : thinner than this is thin [mm].

    Source: our own; local thickness along the normal.
    """
    face, points = _spread(body)
    normals = _normals(body)
    rays = Rays([body])
    return Slim(*(_share(rays, points, normals, face, side, slim_mm) for side in (-1.0, 1.0)))


def _share(rays: Rays, points: Points, normals: Points, face: NDArray[np.int64], side: float, slim_mm: float) -> float:
    along = side * normals[face]
    met = rays.first_hits(points + OFF_MM * along, along)
    against = np.einsum("ij,ij->i", normals[met.face], normals[face]) < OPPOSITE
    return float((against & (met.face >= 0) & (met.distance_mm < slim_mm)).mean())


def _normals(body: Mesh) -> Points:
    a, b, c = body.corners.transpose(1, 0, 2)
    across = np.cross(b - a, c - a)
    unit: Points = across / np.maximum(np.linalg.norm(across, axis=1, keepdims=True), 1e-12)
    return unit


def _spread(body: Mesh) -> tuple[NDArray[np.int64], Points]:
    """Triangles and points on them, spread by area: the same points each time."""
    a, b, c = body.corners.transpose(1, 0, 2)
    upto = np.cumsum(np.linalg.norm(np.cross(b - a, c - a), axis=1))
    random = np.random.default_rng(0)
    face = np.searchsorted(upto, (np.arange(SAMPLES) + 0.5) / SAMPLES * upto[-1])
    root, share = np.sqrt(random.random(SAMPLES))[:, None], random.random(SAMPLES)[:, None]
    points: Points = (1 - root) * a[face] + root * (1 - share) * b[face] + root * share * c[face]
    return face, points
