"""The seam of a shell about a plain block, on fields in closed form: its length, its line, its heights."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

import geometry_bodies as bodies
import manifold3d
import numpy as np
import pytest
import shapely
from coated_bodies import lay_flange
from mold_splits import ACROSS_X
from scipy import ndimage
from scipy.spatial import cKDTree

from moldwright.geometry.contour import level_lines
from moldwright.geometry.field import Sampled
from moldwright.geometry.grid import Grid
from moldwright.geometry.solid import mesh_of, solid_of
from moldwright.mold.blank import Blank
from moldwright.mold.seam import edges_mm, uncovered_share
from moldwright.mold.seam_line import SeamCurve, length_mm, seam_curve
from moldwright.mold.seam_stations import seam_plan, stations_on, thinned
from moldwright.mold.undercut import InTheWay
from moldwright.plan.seam import ViewSide

WIDE, DEEP, TALL, FLANGE_MM, FAR_MM = 30.0, 24.0, 40.0, 25.0, 100.0


def by_hand(floor_mm: float = 0.0, way_mm: float = -1.0, seam_mm: float = 0.5) -> Blank:
    """A block on the board: the seam in the plane x = `seam_mm`, the flange all round; `way_mm`: what ways meet."""
    block = bodies.mesh(bodies.box(WIDE, DEEP, TALL))
    grid = Grid((-45.0, -45.0, 0.0), 1.0, (91, 91, 81))
    x, y, z = np.meshgrid(*(grid.axis(n) for n in range(3)), indexing="ij")
    away = np.stack([np.abs(x) - WIDE / 2, np.abs(y) - DEEP / 2, z - TALL])
    core = np.where((away < 0).all(axis=0), away.max(axis=0), np.linalg.norm(np.maximum(away, 0), axis=0))
    core = core.astype(np.float32)
    way = np.full_like(core, way_mm)
    border = (x - seam_mm).astype(np.float32)
    hidden = InTheWay(grid, core, (way, way), (border, -border), np.full_like(core, -FAR_MM))
    band = core - np.float32(FLANGE_MM)
    return Blank(hidden, np.abs(border), core, block, (), band, ACROSS_X, floor_mm, np.zeros(core.shape, bool))


def test_the_seam_runs_up_over_and_down() -> None:
    """Its flange is a band w wide round three sides of the block's middle section: area w (2 h + b) + pi w^2 / 2.

    Length = area / w = 2 h + b + pi w / 2, within 2 %: points are counted.
    """
    exact = 2 * TALL + DEEP + np.pi * FLANGE_MM / 2
    assert sum(edges_mm(by_hand(), FLANGE_MM)) == pytest.approx(exact, rel=0.02)


def both_sides(border: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
    """How far two pieces reach beyond the seam between them."""
    first = border.astype(np.float32)
    return first, -first


def block_curve(wave_mm: float = 0.0) -> SeamCurve:
    """The plane x = 0.5 mm, or one that bends aside with the height, on a block with a flange 4 mm thick about it."""
    body = bodies.box(WIDE, DEEP, TALL) + bodies.box(WIDE + 40, DEEP + 40, 4)
    grid = Grid((-45.0, -45.0, 0.0), 1.0, (91, 91, 81))
    x, _, z = np.meshgrid(*(grid.axis(n) for n in range(3)), indexing="ij")
    border = x - 0.5 - wave_mm * np.sin(np.pi * z / TALL)
    return seam_curve(bodies.mesh(body), both_sides(border), grid, 4.0)


def test_the_seams_line_runs_up_over_and_down_and_out_over_the_flange() -> None:
    """In order up one side, over the top, down the other: 2 (h - 4) + b long, on the surface and in the plane."""
    curve = block_curve()
    (line,) = curve.wall
    assert not line.closed
    assert length_mm(line.points) == pytest.approx(2 * (TALL - 4) + DEEP, abs=2.0)
    assert np.abs(line.points[:, 0] - 0.5).max() < 1e-3
    on_side = np.abs(np.abs(line.points[:, 1]) - DEEP / 2) < 1e-6
    assert (on_side | (np.abs(line.points[:, 2] - TALL) < 1e-6)).all()
    ends = sorted(tuple(part.points[-1][:2]) for part in curve.flange)
    assert ends == [pytest.approx((0.5, -DEEP / 2 - 20)), pytest.approx((0.5, DEEP / 2 + 20))]
    for end, part in zip((line.points[0], line.points[-1]), curve.flange, strict=True):
        assert np.linalg.norm(part.points[0] - end) < 3.0


def test_the_steps_of_a_grid_are_evened_within_a_millimeter() -> None:
    """A border that jumps by 1.4 mm every 3 mm of height, as a grid's steps do: the line keeps within 1 mm of where the
    border meets the surface (scipy's nearest neighbors), on the surface, and sways by less than half as much."""
    body = bodies.mesh(bodies.box(WIDE, DEEP, TALL) + bodies.box(WIDE + 40, DEEP + 40, 4))
    grid = Grid((-45.0, -45.0, 0.0), 1.0, (91, 91, 81))
    x, _, z = np.meshgrid(*(grid.axis(n) for n in range(3)), indexing="ij")
    border = Sampled((x - 0.5 - np.where(z % 6 < 3, 0.7, -0.7)).astype(np.float32), grid)
    fine = mesh_of(solid_of(body).refine_to_length(1.0))
    values = ndimage.map_coordinates(border.field, ((fine.vertices - grid.origin) / grid.step_mm).T, order=1)
    raw = np.concatenate([line.of(fine.vertices) for line in level_lines(fine, values.astype(np.float64))])
    (line,) = seam_curve(body, both_sides(border.field), grid, 4.0).wall
    assert cKDTree(raw).query(line.points)[0].max() <= 1.0
    flank = line.points[(line.points[:, 2] > 8) & (line.points[:, 2] < TALL - 4)]
    assert np.allclose(np.abs(flank[:, 1]), DEEP / 2)
    stepped = raw[(raw[:, 2] > 8) & (raw[:, 2] < TALL - 4)]
    assert np.ptp(flank[:, 0]) < 0.5 * np.ptp(stepped[:, 0])


def test_a_seam_that_does_not_reach_the_floor_is_a_ring() -> None:
    """A level border at 20 mm goes round the block, 2 (a + b), closed; one of less than 40 mm is not told."""
    body = bodies.mesh(bodies.box(WIDE, DEEP, TALL))
    grid = Grid((-45.0, -45.0, 0.0), 1.0, (91, 91, 81))
    x, y, z = np.meshgrid(*(grid.axis(n) for n in range(3)), indexing="ij")
    (ring,) = seam_curve(body, both_sides(z - 20.25), grid, 4.0).wall
    assert ring.closed
    assert length_mm(np.concatenate([ring.points, ring.points[:1]])) == pytest.approx(2 * (WIDE + DEEP), abs=1e-3)
    corner = np.sqrt((x - WIDE / 2) ** 2 + (y - DEEP / 2) ** 2 + (z - TALL) ** 2) - 6.0
    assert seam_curve(body, both_sides(corner), grid, 4.0).wall == ()


def test_stations_stand_at_steps_turns_and_bends() -> None:
    """Every 10 mm of height on both flanks, at both corners of the top, and a straight join strays 1.5 mm at most."""
    (line,) = block_curve(wave_mm=8.0).wall
    chosen, points = stations_on(line.points, 10.0, 1.5)
    heights = points[chosen][:, 2]
    for flank in (points[chosen][:, 1] < -DEEP / 2 + 0.01, points[chosen][:, 1] > DEEP / 2 - 0.01):
        assert {10.0, 20.0, 30.0} <= set(np.round(heights[flank], 6))
    assert np.abs(heights - TALL).min() < 0.01
    for a, b in pairwise(chosen):
        join = points[b] - points[a]
        away = np.linalg.norm(np.cross(points[a : b + 1] - points[a], join), axis=1) / np.linalg.norm(join)
        assert away.max() <= 1.5 + 1e-6


def test_a_line_that_runs_out_and_back_is_told_without_its_spur() -> None:
    """Up a flank with a spur of 6 mm aside at half its height and a zigzag of 3 mm every 4 mm after it: dots 8 mm apart
    and more, none at the spur's tip, and the flank within 3 mm of the straight joins (Shapely)."""
    flank = np.array([[0.0, 0.0, z] for z in range(61)])
    spur = np.array([[x, 0.0, 30.2] for x in (1.5, 3.0, 4.5, 6.0, 4.5, 3.0, 1.5)])
    wild = [[1.5 * (-1) ** k, 0.0, 62.0 + 4 * k] for k in range(10)]
    line = np.concatenate([flank[:31], spur, flank[31:], wild, [[0.0, 0.0, 105.0]]])
    chosen, points = stations_on(line, 20.0, 2.0)
    told = points[thinned(chosen, points)]
    assert np.linalg.norm(np.diff(told, axis=0), axis=1).min() >= 8.0
    assert not (told[:, 0] > 3.0).any()
    joins = shapely.LineString(told[:, [0, 2]])
    assert max(joins.distance(shapely.Point(x, z)) for x, z in flank[:, [0, 2]]) <= 3.0


def test_a_place_that_a_side_shows_at_a_slant_is_told_from_there() -> None:
    """A block with a wedge on its right half that falls by 20 mm over 72: the seam over its top faces front and back
    with cosine 0, the right with sin(atan(20/72)) = 0.27, and is in sight from there."""
    wedge = manifold3d.CrossSection([np.array([[-36.0, 0.0], [36.0, 0.0], [36.0, 20.0], [-36.0, 40.0]])])
    body = bodies.mesh(wedge.extrude(24.0).rotate((90, 0, 0)).translate((0, 12, 0)) + bodies.box(120, 64, 4))
    grid = Grid((-65.0, -45.0, 0.0), 1.0, (131, 91, 81))
    y = np.meshgrid(*(grid.axis(n) for n in range(3)), indexing="ij")[1]
    curve = seam_curve(body, both_sides(y - 0.5), grid, 4.0)
    told = seam_plan(curve, body, lay_flange(bodies.box(72.0, 24.0, 40.0), 20.0, 4.0))
    over_the_top = [s for line in told.lines for s in line.stations if 21.0 < s.height_mm < 39.0 and s.aside_mm == 0.5]
    assert over_the_top
    assert all(s.side is ViewSide.RIGHT and s.seen for s in over_the_top)


@pytest.mark.parametrize("wave_mm", [0.0, 8.0])
def test_stations_are_told_from_the_side_that_sees_them(wave_mm: float) -> None:
    """On the front of the block from the front, x to the right of the middle and 20 mm in; at the back mirrored."""
    body = bodies.mesh(bodies.box(WIDE, DEEP, TALL) + bodies.box(WIDE + 40, DEEP + 40, 4))
    flange = lay_flange(bodies.box(WIDE, DEEP, TALL), 20.0, 4.0)
    told = seam_plan(block_curve(wave_mm), body, flange)
    stations = told.lines[0].stations
    for side, sign in ((ViewSide.FRONT, 1), (ViewSide.BACK, -1)):
        seen = [s for s in stations if s.side is side and s.seen]
        assert len(seen) >= 3
        for station in seen:
            x = 0.5 + wave_mm * np.sin(np.pi * station.height_mm / TALL)
            assert station.aside_mm == pytest.approx(sign * x, abs=0.3)
            assert station.depth_mm == pytest.approx(20.0, abs=0.1)
    assert len(told.crossings) == 2
    assert told.step_mm == 10.0


@pytest.mark.parametrize("wave_mm", [0.0, 4.0, 9.0])
def test_the_way_over_the_flange_is_told_within_3_mm(wave_mm: float) -> None:
    """A border that bends aside by a sine over the flange of a block: on paper within 3 mm of it, bends and all."""
    body = bodies.mesh(bodies.box(WIDE, DEEP, TALL) + bodies.box(WIDE + 40, DEEP + 40, 4))
    grid = Grid((-45.0, -45.0, 0.0), 1.0, (91, 91, 81))
    x, y, _ = np.meshgrid(*(grid.axis(n) for n in range(3)), indexing="ij")
    border = x - 0.5 - wave_mm * np.sin(np.pi * (np.abs(y) - DEEP / 2) / 20)
    curve = seam_curve(body, both_sides(border), grid, 4.0)
    told = seam_plan(curve, body, lay_flange(bodies.box(WIDE, DEEP, TALL), 20.0, 4.0))
    ways = [shapely.LineString(crossing.places) for crossing in told.crossings]
    over = np.linspace(DEEP / 2 + 1, DEEP / 2 + 19, 60)
    for side in (-1, 1):
        for y_mm in over:
            at = shapely.Point(0.5 + wave_mm * np.sin(np.pi * (y_mm - DEEP / 2) / 20), side * y_mm)
            assert min(way.distance(at) for way in ways) <= 3.0


def seen(first: np.ndarray, second: np.ndarray, floor_mm: float = 0.0) -> float:
    """The uncovered share where the first's way out is free at `first`, the second's at `second`."""
    blank = by_hand(floor_mm)
    ways = tuple(np.where(free, np.float32(1), np.float32(-1)) for free in (first, second))
    in_the_way = replace(blank.hidden, ways=ways)
    return uncovered_share(replace(blank, hidden=in_the_way))


def test_the_share_that_neither_piece_covers() -> None:
    """All, nothing, and the second's half; each piece counts on its own side of the seam only."""
    blank = by_hand()
    every, none, firsts = np.ones(blank.band.shape, bool), np.zeros(blank.band.shape, bool), blank.hidden.sides[0] > 0
    assert (seen(none, none), seen(every, every)) == (1.0, 0.0)
    assert seen(every, none) == pytest.approx(0.5, abs=0.03)
    assert seen(firsts, ~firsts) == 0.0
    assert seen(~firsts, firsts) == 1.0


def test_only_the_rubbers_own_surface_over_the_floor_counts() -> None:
    """Nothing is uncovered where only points in the rubber, farther than a step from it, or under the floor held."""
    blank = by_hand()
    over = np.broadcast_to(blank.grid.axis(2) > 10.0, blank.band.shape)
    for free in (blank.whole > 0.3, blank.whole <= 1.3):
        assert seen(free, free) == 0.0
    assert seen(over, over, floor_mm=10.0) == 0.0
    assert seen(over, over, floor_mm=9.0) > 0.0
