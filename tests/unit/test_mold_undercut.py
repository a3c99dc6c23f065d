"""Undercuts that are packed down to the smallest that matters, and what is told of each place."""

from __future__ import annotations

import geometry_bodies as bodies
import manifold3d as m3
import numpy as np
import pytest
from mold_packing import packed_ml as whole_packing_ml

from moldwright.geometry.grid import Grid
from moldwright.mold.split import CoarseSplit
from moldwright.mold.undercut import InTheWay, fill_solid, filled_core, hidden_fields, look_along, seam_sides

UP = np.array([[0.0, 0.0, 1.0]])


@pytest.mark.parametrize("side", [6.0, 8.0])
def test_a_small_pocket_is_packed(side: float) -> None:
    """A square blind hole in a post's side, drawn straight up: side^3, within 15 % at a step of 1 mm."""
    post = bodies.box(30, 30, 30) - m3.Manifold.cube((side, side, side)).translate((15 - side, -side / 2, 12.0))
    assert whole_packing_ml(bodies.mesh(post), UP) == pytest.approx(side**3 / 1000, rel=0.15)


GRID = Grid((-15.0, -15.0, 0.0), 0.5, (61, 61, 61))
X, Y, Z = np.meshgrid(*(GRID.axis(n) for n in range(3)), indexing="ij")
TOP = np.maximum.reduce([Z - 10, np.abs(X) - 12, np.abs(Y) - 12])
FAR_MM = 100.0
BLOCK = bodies.mesh(bodies.box(24, 24, 10))


def in_the_way(packed: np.ndarray) -> InTheWay:
    """A block with its top at 10 mm; the first piece has all the space and catches where `packed` is not positive."""
    far = np.full(GRID.shape, FAR_MM, np.float32)
    return InTheWay(GRID, TOP.astype(np.float32), (packed.astype(np.float32), far), (far, -far), -far)


def packed_ml(packed: np.ndarray, floor_mm: float = 0.0) -> float:
    fill, _ = fill_solid(in_the_way(packed), floor_mm)
    return (filled_core(BLOCK, fill).volume() - 5760) / 1000


def lump(radius: float) -> np.ndarray:
    """A ball half sunk into the block's top."""
    return np.sqrt(X**2 + Y**2 + (Z - 10) ** 2) - radius


@pytest.mark.parametrize(("radius", "kept"), [(1.9, False), (2.5, True), (5.0, True)])
def test_a_place_of_less_than_a_fiftieth_of_a_milliliter_is_left_free(radius: float, kept: bool) -> None:
    """Half balls: 14, 33 and 262 mm3, 2 pi r^3 / 3; our own rule, 20 mm3."""
    exact = 2 * np.pi * radius**3 / 3 / 1000
    assert packed_ml(lump(radius)) == pytest.approx(exact if kept else 0.0, rel=0.06)


@pytest.mark.parametrize(("deep", "kept"), [(0.45, False), (1.1, True)])
def test_a_place_shallower_than_four_tenths_of_a_millimeter_is_left_free(deep: float, kept: bool) -> None:
    """20 x 20 mm in layers of points half a millimeter apart: none deeper than 0.4 mm, or two."""
    layer = np.maximum.reduce([Z - 10 - deep + 0.25, np.abs(X) - 10, np.abs(Y) - 10])
    assert packed_ml(layer) == pytest.approx(0.4 * (deep - 0.25) if kept else 0.0, rel=0.1)


def test_two_places_are_judged_one_by_one() -> None:
    places = [np.sqrt((X - x) ** 2 + Y**2 + (Z - 10) ** 2) - radius for x, radius in ((8, 4.0), (-8, 1.5))]
    assert packed_ml(np.minimum(*places)) == pytest.approx(2 * np.pi * 64 / 3 / 1000, rel=0.05)


def test_nothing_is_packed_under_the_floor() -> None:
    """A post of radius 5 mm on the block's top, up to 14 mm: with the floor at 12 mm only what is above."""
    post = np.maximum(np.hypot(X, Y) - 5, Z - 14)
    assert packed_ml(post) == pytest.approx(np.pi * 25 * 4 / 1000, rel=0.05)
    fill, _ = fill_solid(in_the_way(post), 12.0)
    assert fill is not None
    assert fill.bounding_box()[2] == pytest.approx(12.0, abs=0.01)


def test_the_field_of_core_and_packing() -> None:
    fill, whole = fill_solid(in_the_way(lump(5.0)), 0.0)
    assert fill is not None
    near = (lump(5.0) < 0.5) & (TOP > 0)
    assert np.abs(whole - np.minimum(lump(5.0), TOP))[near].max() < 1e-5
    far = lump(5.0) > 3.0
    assert np.abs(whole - TOP)[far].max() < 1e-5
    nothing, bare = fill_solid(in_the_way(np.full(GRID.shape, 1.0)), 0.0)
    assert nothing is None
    assert np.abs(bare - TOP).max() < 1e-5


@pytest.mark.parametrize(
    ("ways", "border", "outside", "packed"),
    [
        ((-2.0, 3.0), 4.0, -9.0, -2.0),  # on the first's side, in the first's way
        ((3.0, -2.0), 4.0, -9.0, 3.0),  # on the first's side, in the second's way only
        ((3.0, -2.0), -4.0, -9.0, -2.0),
        ((-2.0, -2.0), 0.5, -9.0, -0.5),  # half a millimeter from the seam: as far as the seam
        ((-2.0, 3.0), 4.0, 1.0, 1.0),  # outside the space of the shell
        ((-2.0, -2.0), 4.0, -0.5, -0.5),  # half a millimeter inside of it
        ((7.0, 9.0), 8.0, -9.0, 5.0),  # never more than the core's own distance
    ],
)
def test_what_must_be_packed_at_a_point(ways: tuple[float, ...], border: float, outside: float, packed: float) -> None:
    """A point 5 mm off the core; distances in its ways out, to the seam (positive on the first's side) and space."""
    one, grid = np.ones((1, 1, 1), np.float32), Grid((0.0, 0.0, 0.0), 1.0, (1, 1, 1))
    found = hidden_fields(
        InTheWay(grid, 5 * one, tuple(way * one for way in ways), (border * one, -border * one), outside * one)
    )
    assert found.item() == pytest.approx(packed)


def test_the_seam_between_labels_is_a_plane_half_way() -> None:
    """Labels meet between points 3 mm apart, a ball of neither among them: signed millimeters to the plane x = 1.5, up
    to 36 mm (twelve steps)."""
    grid = Grid((-48.0, -24.0, 0.0), 3.0, (33, 17, 14))
    x, y, z = np.meshgrid(*(grid.axis(n) for n in range(3)), indexing="ij")
    free = np.sqrt(x**2 + y**2 + (z - 18) ** 2) > 8
    labels = np.where(free, np.where(x > 0, 0, 1), -1).astype(np.int8)
    split = CoarseSplit(np.eye(2, 3), grid, labels, 0.0, 0.0)
    fine = Grid((-42.0, -9.0, 9.0), 1.5, (55, 13, 13))
    found, other = seam_sides(split, fine)
    away = np.broadcast_to(fine.axis(0)[:, None, None] - 1.5, fine.shape)
    assert np.abs(found - np.clip(away, -36, 36)).max() < 0.8
    assert (other == -found).all()


def test_looking_out_along_a_draw() -> None:
    """A block 20 mm wide and 10 mm tall seen from beside and from under a plate; distances are kept to three steps."""
    core = bodies.mesh(bodies.box(20, 20, 10).translate((0, 0, 20)))
    grid = Grid((-20.0, -20.0, 0.0), 2.0, (21, 21, 26))
    ways = np.array([[0.0, 0.0, 1.0], [1.0, 0.0, 0.0]])
    border, outside = np.zeros(grid.shape, np.float32), np.ones(grid.shape, np.float32)
    found = look_along(core, grid, ways, (border, -border), outside)
    assert found.core[10, 10, 18] == pytest.approx(6.0)  # 36 mm up, 6 over the top; three steps of 2 mm
    assert found.core[10, 10, 13] < -3.9  # its middle
    assert found.ways[0][10, 10, 5] < -3.9  # under it: all of it is in the way up
    assert found.ways[0][10, 10, 16] == pytest.approx(2.0, abs=0.05)  # over it, 32 mm up: only away
    assert found.ways[1][2, 10, 12] < -3.9  # beside it, drawn through it
    assert found.ways[1][17, 10, 12] == pytest.approx(4.0, abs=0.05)  # on the other side
    assert found.sides[0] is border
    assert found.outside is outside
