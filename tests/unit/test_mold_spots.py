"""Where rubber is packed, how deep and how much, on bodies whose crevices are known.

Grooves round bodies of revolution: in the half plane of the axis the coats are an offset and the bridge a closing, both
by Shapely (a reference library), the volume by Pappus. Boxes: by hand.
"""

from __future__ import annotations

from functools import cache

import geometry_bodies as bodies
import manifold3d as m3
import numpy as np
import pytest
from coated_bodies import coated as coated_body
from shapely import LineString, MultiPoint, Point, Polygon, box

from moldwright.geometry.mesh import Mesh
from moldwright.mold.crevices import REACH_MM, crevices_of
from moldwright.mold.glove import BRIDGE_SHARE, CoatedBody
from moldwright.mold.measures import FillSpot, SpotKind
from moldwright.mold.packed import Packed, deepest_of, packed_bodies, points_on
from moldwright.mold.spots import spots_of

COAT_MM, STEP_MM = 4.0, 0.5
WHEEL = Polygon([(-20, 0), (20, 0), (20, 20), (8, 20), (8, 32), (20, 32), (20, 50), (-20, 50)])
"""A post of radius 20 mm, 50 mm tall, with a groove 12 mm wide and 12 mm deep; the groove on one side only, since each
side is the whole body."""
DOME = Point(0, 0).buffer(24.0, quad_segs=64) & box(-30, 0, 30, 30) - box(8, 8, 30, 20)
"""Half a ball of radius 24 mm on the board with a groove from 8 to 20 mm up."""
PROFILES = {"wheel": WHEEL, "dome": DOME}


@cache
def coated(name: str) -> CoatedBody:
    corners = np.array((PROFILES[name] & box(0, 0, 60, 60)).exterior.coords)[:-1]
    turned = m3.CrossSection([corners[:: 1 if Polygon(corners).exterior.is_ccw else -1]]).revolve(128)
    return coated_body(bodies.mesh(turned), (COAT_MM,), 12.0, STEP_MM)


@cache
def told(name: str) -> tuple[FillSpot, ...]:
    return spots_of(coated(name).crevices, ())


def in_the_plane(name: str) -> tuple[Polygon, LineString, LineString]:
    """The bridged groove, its edge toward the open side, and its edge on the coats."""
    bridge = BRIDGE_SHARE * COAT_MM
    grown = PROFILES[name].buffer(COAT_MM, quad_segs=64)
    closed = grown.buffer(bridge, quad_segs=64).buffer(-bridge, quad_segs=64)
    parts = (closed - grown) & box(0, COAT_MM, 60, 60)
    crevice = max(getattr(parts, "geoms", [parts]), key=lambda part: part.area)
    bridged = crevice.exterior & closed.exterior.buffer(1e-4)
    return crevice, bridged, crevice.exterior & grown.exterior.buffer(1e-4)


@pytest.mark.parametrize("name", PROFILES)
def test_the_rubber_of_a_groove(name: str) -> None:
    """Pappus: 2 pi times the radius of the middle times the area; within 5 %; no crevice is elsewhere."""
    crevice, _, _ = in_the_plane(name)
    exact_ml = 2 * np.pi * crevice.centroid.x * crevice.area / 1000
    assert sum(spot.volume_ml for spot in told(name)) == pytest.approx(exact_ml, rel=0.05)
    assert sum(spot.volume_ml for spot in told(name)) == pytest.approx(coated(name).crevice_ml, rel=0.01)


@pytest.mark.parametrize("name", PROFILES)
def test_a_groove_is_as_deep_as_from_its_bridge_to_its_ground(name: str) -> None:
    _, bridge, ground = in_the_plane(name)
    exact_mm = max(bridge.distance(Point(p)) for part in getattr(ground, "geoms", [ground]) for p in part.coords)
    for spot in told(name):
        assert spot.kind is SpotKind.CREVICE
        assert spot.depth_mm == pytest.approx(exact_mm, rel=0.1, abs=0.6)


@pytest.mark.parametrize("name", PROFILES)
def test_a_groove_is_pushed_in_at_its_bridge(name: str) -> None:
    """Within 1 mm of it; at its rim, where bridge and coats meet, the same."""
    _, bridge, _ = in_the_plane(name)
    for spot in told(name):
        x, y, z = spot.at
        assert bridge.distance(Point(np.hypot(x, y), z)) < 1.0


@pytest.mark.parametrize("name", PROFILES)
def test_a_groove_that_runs_on_is_told_in_places(name: str) -> None:
    """All round: no point of the bridge is farther from a place than twice the reach, and none is told twice."""
    _, bridge, _ = in_the_plane(name)
    around_mm = 2 * np.pi * bridge.centroid.x
    places = np.array([spot.at for spot in told(name)])
    assert around_mm / (2 * REACH_MM) <= len(places) <= around_mm / REACH_MM + 1
    outer = sum(place.outer.area_mm2 for place in coated(name).crevices)
    assert outer == pytest.approx(around_mm * bridge.length, rel=0.1)


def test_a_thin_film_in_a_crease_is_no_place() -> None:
    """Two planes at 150 degrees: coats of 4 mm, closed by 3 mm, leave (1 / cos 15 - 1) 3 = 0.1 mm in the crease."""
    roof = m3.CrossSection([[(-30, 0), (30, 0), (30, 20), (0, 12), (-30, 20)]]).extrude(50).rotate((90, 0, 0))
    assert coated_body(bodies.mesh(roof.translate((0, 25, 0))), (COAT_MM,), 12.0, STEP_MM).crevices == ()


def test_what_both_surfaces_share_encloses_nothing() -> None:
    block = bodies.mesh(bodies.box(10, 10, 10))
    assert crevices_of(block, block, 0.0, 1.0, 0.0) == ()


PIT = m3.Manifold.cube((10.0, 8.0, 8.0)).translate((10.0, -4.0, 16.0))


def test_a_pit_is_packed_flush() -> None:
    """8 x 8 mm, 10 mm deep, in the side of a block toward +x; the filling reaches half a millimeter into the block."""
    block = bodies.box(40, 30, 40) - PIT
    fill = m3.Manifold.cube((10.5, 9.0, 9.0)).translate((9.5, -4.5, 15.5))
    (place,) = packed_bodies(fill, bodies.mesh(block), 0.0, 1.0)
    at, deep_mm = deepest_of(place)
    assert place.volume_mm3 == pytest.approx(640)
    assert place.outer.area_mm2 == pytest.approx(64)
    assert place.inner.area_mm2 == pytest.approx(64 + 4 * 80)
    assert deep_mm == pytest.approx(10.0, abs=0.02)
    assert at == pytest.approx((20, 0, 20), abs=1.0)


def test_what_stands_on_the_floor_is_not_open_below() -> None:
    """A collar of 5 mm round a post, from the floor up: pushed in from beside or from above."""
    post, collar = bodies.cone(10, 10, 40, 96), bodies.cone(15, 15, 30, 96).trim_by_plane((0, 0, 1), 4.0)
    (place,) = packed_bodies(collar, bodies.mesh(post), 4.0, 1.0)
    assert place.outer.corners[:, :, 2].max(axis=1).min() > 5.0
    assert place.outer.area_mm2 == pytest.approx(2 * np.pi * 15 * 26 + np.pi * (15**2 - 10**2), rel=0.01)
    assert deepest_of(place)[1] == pytest.approx(5.0, abs=0.1)


def test_crumbs_are_no_places() -> None:
    crumbs = m3.Manifold.cube((2, 2, 2)).translate((30, 0, 0)) + m3.Manifold.cube((3, 3, 3)).translate((40, 0, 0))
    (place,) = packed_bodies(crumbs, bodies.mesh(bodies.box(10, 10, 10)), 0.0, 20.0)
    assert place.volume_mm3 == pytest.approx(27)


def test_points_on_a_large_triangle() -> None:
    """Every point of the triangle is near one of them."""
    triangle = Mesh(np.array([(0.0, 0, 0), (10, 0, 0), (0, 7, 0)]), np.array([[0, 1, 2]], np.int32))
    found = MultiPoint(points_on(triangle, 1.0)[:, :2])
    assert found.convex_hull.symmetric_difference(Polygon([(0, 0), (10, 0), (0, 7)])).area < 1e-9
    for x, y in np.random.default_rng(3).dirichlet((1, 1, 1), 200)[:, :2] * (10, 7):
        assert found.distance(Point(x, y)) <= 0.75


def slab(size: tuple[float, float, float], at: tuple[float, float, float]) -> Packed:
    """A block of rubber that is open on top."""
    body = bodies.mesh(m3.Manifold.cube(size).translate(at))
    top = body.corners[:, :, 2].min(axis=1) > at[2] + size[2] / 2
    return Packed(Mesh(body.vertices, body.faces[top]), Mesh(body.vertices, body.faces[~top]), body.volume_mm3)


def test_a_crevice_under_an_undercut_is_packed_with_it() -> None:
    """10 x 10 x 2 mm under 10 x 10 x 3 mm: one place, as deep as both."""
    (found,) = spots_of([slab((10, 10, 2), (0, 0, 10))], [slab((10, 10, 3), (0, 0, 12))])
    assert (found.kind, found.volume_ml) == (SpotKind.UNDERCUT, pytest.approx(0.5))
    assert found.depth_mm == pytest.approx(5.0, abs=0.02)
    assert found.at[2] == pytest.approx(15.0)


def test_a_crevice_is_pushed_in_where_no_undercut_is_packed_over_it() -> None:
    """Triangles of 1 mm; a third of the crevice is covered."""
    low, high = slab((30, 10, 2), (0, 0, 10)), slab((10, 10, 3), (0, 0, 12))
    fine = Packed(*(bodies.mesh(bodies.solid(soup(low)).refine_to_length(1.0)) for _ in range(2)), low.volume_mm3)
    top = fine.outer.corners[:, :, 2].min(axis=1) > 11.9
    crevice = Packed(
        Mesh(fine.outer.vertices, fine.outer.faces[top]), Mesh(fine.inner.vertices, fine.inner.faces[~top]), 600.0
    )
    first, second = spots_of([crevice], [high])
    assert (first.kind, second.kind) == (SpotKind.CREVICE, SpotKind.UNDERCUT)
    assert (first.volume_ml, second.volume_ml) == (0.6, pytest.approx(0.3))
    assert first.at[0] > 10.0
    assert first.at[2] == pytest.approx(12.0)
    assert first.depth_mm == pytest.approx(2.0, abs=0.3)


def soup(place: Packed) -> Mesh:
    """Both surfaces of a place together."""
    return Mesh(place.outer.vertices, np.concatenate([place.outer.faces, place.inner.faces]))


def test_the_order_of_the_work() -> None:
    """Crevices are packed first, the largest of each kind comes first."""
    small, large = slab((5, 5, 5), (0, 0, 0)), slab((8, 8, 8), (20, 0, 0))
    found = spots_of([slab((6, 6, 6), (40, 0, 0))], [small, large])
    assert [(spot.kind, round(spot.volume_ml, 3)) for spot in found] == [
        (SpotKind.CREVICE, 0.216), (SpotKind.UNDERCUT, 0.512), (SpotKind.UNDERCUT, 0.125),
    ]  # fmt: skip
