"""The flange's outline and its two keys: closed forms, and Shapely (a reference library) in the plane."""

from __future__ import annotations

import geometry_bodies as bodies
import manifold3d as m3
import numpy as np
import pytest
import shapely
from coated_bodies import lay_flange
from shapely import LineString, Polygon
from shapely.affinity import rotate, translate
from shapely.ops import split

from moldwright.errors import InputRefused
from moldwright.mold.flange import bare_flange, keyed
from moldwright.plan.flange import FlangePlan
from moldwright.ways import Change

WALL_MM = 4.0
FEET = {
    "block": bodies.box(60, 40, 10),
    "slanted block": bodies.box(60, 40, 10).rotate((0, 0, 30)).translate((3, -2, 0)),
    "disk": bodies.cone(30, 30, 10, 96),
    "long bar, aslant": bodies.box(150, 15, 10).rotate((0, 0, 45)),
    "triangle": m3.Manifold.cylinder(10, 40, 40, 3),
    "angle": bodies.box(80, 20, 10) + bodies.box(20, 80, 10).translate((30, 30, 0)),
    "ring": bodies.cone(40, 40, 10, 96) - bodies.cone(30, 30, 10, 96),
}
WIDTHS = (15.0, 40.0, 75.0)


def foot_of(name: str) -> Polygon:
    """What stands on the board, seen from above, without holes."""
    return Polygon(max((Polygon(ring) for ring in FEET[name].project().to_polygons()), key=lambda p: p.area).exterior)


def laid(name: str, width_mm: float) -> FlangePlan:
    return lay_flange(FEET[name], width_mm, WALL_MM)


@pytest.mark.parametrize("width_mm", WIDTHS)
def test_about_a_block_it_is_the_block_grown_by_the_width_less_two_corners(width_mm: float) -> None:
    """a b + 2 w (a + b) + pi w^2 less what lies beyond both cuts; the frame is the block grown by the width."""
    found = laid("block", width_mm)
    whole = 60 * 40 + 2 * width_mm * 100 + np.pi * width_mm**2
    bare = shapely.box(-30, -20, 30, 20).buffer(width_mm, quad_segs=64)
    gone = sum(min(part.area for part in split(bare, LineString(_long(key))).geoms) for key in found.keys)
    assert found.area_mm2 == pytest.approx(whole - gone, rel=2e-3)
    assert Polygon(found.outline).area == pytest.approx(found.area_mm2, rel=1e-4)
    assert Polygon(found.outline).length == pytest.approx(found.edge_mm, rel=1e-4)
    assert (found.frame.length_mm, found.frame.breadth_mm) == pytest.approx((60 + 2 * width_mm, 40 + 2 * width_mm))


def _long(key: object) -> np.ndarray:
    start, end = np.array(key.start), np.array(key.end)  # type: ignore[attr-defined]
    return np.array([start - 0.01 * (end - start), end + 0.01 * (end - start)])


@pytest.mark.parametrize("name", FEET)
@pytest.mark.parametrize("width_mm", WIDTHS)
def test_the_edge_is_as_far_out_as_told(name: str, width_mm: float) -> None:
    """As far from the foot as the width all round, in a dent rounded by the same radius; nearer at the cuts only."""
    found, foot = laid(name, width_mm), foot_of(name)
    outline = Polygon(found.outline)
    closed = foot.buffer(2 * width_mm, quad_segs=64).buffer(-width_mm, quad_segs=64)
    assert outline.is_valid
    assert outline.difference(closed.buffer(0.1)).is_empty
    cuts = [LineString([key.start, key.end]).buffer(0.1) for key in found.keys]
    rest = shapely.difference(outline.exterior, shapely.union_all(cuts))
    assert rest.difference(closed.exterior.buffer(0.15)).is_empty
    assert rest.length > 0.5 * closed.exterior.length


@pytest.mark.parametrize("name", FEET)
@pytest.mark.parametrize("width_mm", WIDTHS)
def test_both_cuts_stay_off_the_wall_and_differ(name: str, width_mm: float) -> None:
    """Straight between edge and edge, as long as told, as far from foot and wall as told, and more than 1.3 to 1."""
    found, foot = laid(name, width_mm), foot_of(name)
    for key in found.keys:
        line = LineString([key.start, key.end])
        assert line.length == pytest.approx(key.length_mm, abs=0.05)
        assert foot.distance(line) >= WALL_MM + found.keep_mm - 0.1
        assert shapely.hausdorff_distance(Polygon(found.outline).exterior.intersection(line.buffer(0.1)), line) < 0.2
    assert found.keep_mm == min(15.0, (width_mm - WALL_MM) / 2)
    assert found.keys[0].length_mm > 1.3 * found.keys[1].length_mm


@pytest.mark.parametrize("name", FEET)
@pytest.mark.parametrize("width_mm", [20.0, 40.0])
def test_it_seats_one_way_only(name: str, width_mm: float) -> None:
    """In its own outline with half a millimeter of play it fits no other way: turned by 10 degrees or more, and moved
    about by up to 6 mm, some of it always stands out by more than 0.5 mm^2 (Shapely)."""
    shape = Polygon(laid(name, width_mm).outline)
    seat = shape.buffer(0.5)
    shapely.prepare(seat)
    for turn in range(10, 351, 10):
        turned = rotate(shape, turn, origin=shape.centroid)
        moves = [(x, y) for x in range(-6, 7, 2) for y in range(-6, 7, 2)]
        assert min(translate(turned, *move).difference(seat).area for move in moves) > 0.5, turn


def test_too_little_beyond_the_wall_is_refused() -> None:
    with pytest.raises(InputRefused) as refused:
        lay_flange(FEET["block"], 15.0, 7.5)
    assert refused.value.code == "flange-narrow"
    assert refused.value.way == Change("mold.flange", "16 mm")
    assert lay_flange(FEET["block"], 16.0, 7.5).keep_mm == pytest.approx(4.25)


@pytest.mark.parametrize("name", FEET)
@pytest.mark.parametrize("width_mm", WIDTHS)
def test_no_key_is_cut_where_the_seam_goes_over_the_flange(name: str, width_mm: float) -> None:
    """A seam across the foot's middle in any direction stays 10 mm off what is cut away (Shapely)."""
    bare = bare_flange(FEET[name], width_mm, WALL_MM)
    outline, foot = Polygon(bare.outline), Polygon(bare.foot)
    for turn in range(0, 180, 15):
        across = translate(LineString([(-900, 0), (900, 0)]), *np.array(foot.centroid.coords)[0])
        over = rotate(across, turn, origin=foot.centroid).intersection(outline).difference(foot)
        seam = np.array([over.interpolate(d).coords[0] for d in np.arange(0.0, over.length, 1.0)])
        found = keyed(bare, seam)
        gone = outline.difference(Polygon(found.outline)).buffer(-0.2)
        assert gone.area > 10.0
        assert gone.distance(over) >= 10.0, turn
