"""What parallel rays see: closed forms, and pixel by pixel against the ray caster (embree), which shares no code."""

from __future__ import annotations

import math

import geometry_bodies as bodies
import numpy as np
import pytest
from sheets_fixture import ball, mold_meshes

from moldwright.geometry.raster import first_seen
from moldwright.geometry.rays import Rays
from moldwright.sheets.camera import Camera, camera_around, directions

WIDE, TALL = 200, 160


def test_a_box_seen_straight_on_covers_its_pixels() -> None:
    """Closed form: 10 mm of 20 mm across is half of each side; its front lies 15 mm deep."""
    box = bodies.mesh(bodies.box(10, 10, 10))
    look, right, up = directions(0.0, 0.0)
    camera = Camera(np.array([0.0, 0.0, box.vertices[:, 2].mean()]), look, right, up, 20.0, 20.0, 20.0)
    found = first_seen([camera.in_pixels(box.vertices, 40, 40)], [box.faces], 40, 40)
    seen = found.solid.reshape(40, 40) >= 0
    assert seen[10:30, 10:30].all()
    assert seen.sum() == 400
    assert found.distance_mm[found.solid >= 0] == pytest.approx(15.0, abs=1e-5)


def test_a_ball_has_a_circle_s_area_and_its_depths() -> None:
    """Closed form: pi r^2; at a distance s from the middle the sphere is sqrt(r^2 - s^2) before it. Icosphere of five
    halvings: within 0.2 mm."""
    sphere = ball(40.0, 5)
    camera = camera_around([sphere], 0.0, 0.0, 0.1)
    found = first_seen([camera.in_pixels(sphere.vertices, WIDE, WIDE)], [sphere.faces], WIDE, WIDE)
    pixel_mm2 = camera.width_mm * camera.height_mm / WIDE**2
    assert (found.solid >= 0).sum() * pixel_mm2 == pytest.approx(math.pi * 40.0**2, rel=0.005)
    middle = found.distance_mm.reshape(WIDE, WIDE)[WIDE // 2, WIDE // 2]
    assert camera.reach_mm - middle == pytest.approx(40.0, abs=0.2)


@pytest.mark.parametrize(("azimuth", "elevation", "reach"), [(0.0, 0.0, 1.0), (37.0, 22.0, 1.0), (118.0, -15.0, 0.0)])
def test_it_sees_what_the_ray_caster_meets(azimuth: float, elevation: float, reach: float) -> None:
    """All but pixels whose ray runs along an edge; original and glove share a surface, where either may be seen. With
    no reach the rays start in the middle of the solids."""
    its = mold_meshes()
    meshes = [its.original, its.glove, *its.shell]
    camera = camera_around(meshes, azimuth, elevation)
    camera = Camera(*(getattr(camera, n) for n in ("center", "look", "right", "up", "width_mm", "height_mm")),
                    reach_mm=camera.reach_mm * reach)  # fmt: skip
    places = [camera.in_pixels(mesh.vertices, WIDE, TALL) for mesh in meshes]
    found = first_seen(places, [mesh.faces for mesh in meshes], WIDE, TALL)
    met = Rays(meshes).first_hits(*camera.rays(WIDE, TALL))
    hit, both = (found.solid >= 0) == (met.solid >= 0), (found.solid >= 0) & (met.solid >= 0)
    assert hit.mean() > 0.999
    assert (np.abs(found.distance_mm[both] - met.distance_mm[both]) < 1e-2).mean() > 0.999
    face = both & (found.solid == met.solid) & (found.face == met.face)
    assert face.mean() > 0.1
    np.testing.assert_allclose(found.u[face], met.u[face], atol=2e-2)
