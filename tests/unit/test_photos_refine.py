"""A ball with a dimple, speckled or plain, painted by casting rays at two spheres: outlines show the whole ball.

Volume of the dimple from the volume common to two spheres of radii R, r at distance d:
pi (R + r - d)^2 (d^2 + 2 d (R + r) - 3 (R - r)^2) / (12 d), closed form; depth under the ball's surface: R + r - d.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from scipy.ndimage import map_coordinates
from tests.photo_silhouettes import lens, ring, seen

from moldwright.geometry.grid import Grid
from moldwright.geometry.level import body_at
from moldwright.geometry.mesh import Mesh
from moldwright.geometry.rays import hit_distances
from moldwright.photos.hull.carve import carved
from moldwright.photos.hull.views import Seen, flat_views
from moldwright.photos.refine.looks import flat_grays, gray_of
from moldwright.photos.refine.recess import Recessed, recessed
from moldwright.photos.refine.settings import RefineSettings
from moldwright.photos.view import View

BALL, DIMPLE = 40.0, 22.0
MIDDLE = np.array([0.0, 0.0, 60.0])
APART = 52.0
TOWARD = np.array([np.cos(0.3), 0.0, np.sin(0.3)])
DEEP = BALL + DIMPLE - APART
BITE_MM3 = (
    np.pi * DEEP**2 * (APART**2 + 2 * APART * (BALL + DIMPLE) - 3 * (BALL - DIMPLE) ** 2) / (12 * APART)
)  # fmt: skip
LATTICE = np.random.default_rng(5).uniform(-1, 1, (32, 32, 32))
THROUGH = lens(640, 480, 690.0)


def met(view: View) -> tuple[np.ndarray, np.ndarray]:
    """Which pixels see the ball, and (n, 3) where their rays meet it, behind the dimple's mouth its far wall."""
    v, u = np.mgrid[0 : view.lens.height_px, 0 : view.lens.width_px].astype(np.float64)
    at = np.stack(
        [u - view.lens.center_px[0], v - view.lens.center_px[1], np.full_like(u, view.lens.focal_px)], axis=-1
    )
    rays = at @ view.rotation
    rays /= np.linalg.norm(rays, axis=-1, keepdims=True)
    near, _ = through(view.eye_mm, rays, MIDDLE, BALL)
    hit = np.isfinite(near)
    first = view.eye_mm + near[hit, None] * rays[hit]
    in_dimple = np.linalg.norm(first - MIDDLE - APART * TOWARD, axis=1) < DIMPLE
    _, far = through(first[in_dimple], rays[hit][in_dimple], MIDDLE + APART * TOWARD, DIMPLE)
    first[in_dimple] += far[:, None] * rays[hit][in_dimple]
    return hit, first


def through(start: np.ndarray, rays: np.ndarray, middle: np.ndarray, radius: float) -> tuple[np.ndarray, np.ndarray]:
    to = middle - start
    along = np.einsum("...j,...j->...", rays, to)
    rest = radius**2 - np.einsum("...j,...j->...", to, to) + along**2
    half = np.sqrt(np.where(rest >= 0, rest, np.nan))
    return along - half, along + half


def painted(view: View, speckle: float) -> Seen:
    hit, points = met(view)
    gray = np.full(hit.shape, 110.0)
    gray[hit] = 130.0 + speckle * map_coordinates(LATTICE, (points / 2.2).T, order=1, mode="grid-wrap")
    gray += np.random.default_rng(1).normal(0.0, 1.0, gray.shape)
    shown = seen(view, hit.astype(np.float32))
    rgb = np.repeat(np.clip(gray, 0, 255).astype(np.uint8)[..., None], 3, axis=2)
    return replace(shown, gray=gray_of(rgb, shown.outline))


def refined(speckle: float) -> tuple[Mesh, Recessed]:
    views = [*ring(20, 250.0, 14.0, MIDDLE, THROUGH, "low"), *ring(20, 250.0, 45.0, MIDDLE, THROUGH, "high")]
    shown = [painted(view, speckle) for view in views]
    flat, gray = flat_views(shown), flat_grays(shown)
    assert gray is not None
    grid = Grid((-48.0, -48.0, 0.0), 1.0, (97, 97, 112))
    field = carved(flat, grid, 5.0)
    hull = body_at(field)
    return hull, recessed(hull, field, flat, gray, 5.0, replace(RefineSettings(), points=3000))


def test_speckles_tell_a_dimple_that_no_outline_shows() -> None:
    hull, found = refined(60.0)
    assert found.field is not None
    body = body_at(found.field)
    assert hull.volume_mm3 - body.volume_mm3 == pytest.approx(BITE_MM3, rel=0.35)
    start = MIDDLE + 2 * BALL * TOWARD
    reached = float(hit_distances(body, start[None], -TOWARD)[0])
    assert reached - BALL == pytest.approx(DEEP, abs=3.0)
    assert float(hit_distances(hull, start[None], -TOWARD)[0]) - BALL < 0.1 * DEEP
    other = MIDDLE - 2 * BALL * TOWARD * [1, 1, -1]
    way = (MIDDLE - other) / np.linalg.norm(MIDDLE - other)
    assert float(hit_distances(body, other[None], way)[0]) == pytest.approx(BALL, abs=0.7)


@pytest.mark.slow
def test_a_plain_surface_changes_nothing() -> None:
    _, found = refined(0.0)
    assert found.field is None
    assert found.clear_share < RefineSettings().clear_share
