"""The minimum cut on grids small enough to know the answer: closed forms of counted points, no other source."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import product

import numpy as np
import pytest

from moldwright.geometry.cut import Labeling, WayOff, _forward_pairs, _half_neighbors, _pairs
from moldwright.geometry.shadow import digital_line
from moldwright.geometry.sign import Mask

ALONG_X = np.array([[1.0, 0.0, 0.0], [-1.0, 0.0, 0.0]])
SHAPE = (9, 6, 6)


@dataclass(frozen=True)
class Cut:
    """Which points went to the first of two labels; what that costs, and what is hidden of it."""

    first: Mask
    energy: float
    hidden: float


def two_way_cut(
    core: Mask,
    free: Mask,
    directions: np.ndarray,
    hidden: tuple[np.ndarray, np.ndarray],
    point_weight: float,
    area_weight: float,
) -> Cut:
    """Two labels, begun with all points in the second: one move is the best there is."""
    points = Labeling(core, free, point_weight, area_weight)
    ways = [points.way(direction, share) for direction, share in zip(directions, hidden, strict=True)]
    labels = points.moved(np.ones(points.count, np.int8), ways, 0)
    return Cut(points.on_grid(labels) == 0, points.energy(labels, ways), points.hidden(labels, ways))


def walled() -> tuple[Mask, Mask, tuple[np.ndarray, np.ndarray]]:
    """A wall right across: what is left of it is hidden along +x, what is right of it along -x."""
    core = np.zeros(SHAPE, bool)
    core[4] = True
    left, right = np.zeros(SHAPE, np.float32), np.zeros(SHAPE, np.float32)
    left[:4], right[5:] = 1.0, 1.0
    return core, ~core, (left, right)


def test_each_side_of_a_wall_goes_to_the_piece_that_sees_out() -> None:
    core, free, hidden = walled()
    found = two_way_cut(core, free, ALONG_X, hidden, 1.0, 0.01)
    assert found.first[5:].all()
    assert not found.first[:5].any()
    assert found.hidden == 0.0


def test_a_tie_falls_to_the_piece_that_sees_more() -> None:
    """Costs too small for the cut's whole numbers: the pull alone decides, and it must not pull the wrong way."""
    core, free, hidden = walled()
    found = two_way_cut(core, free, ALONG_X, hidden, 1e-9, 0.01)
    assert found.first[5:].all()
    assert not found.first[:5].any()


def test_a_pocket_that_neither_sees_out_of_is_paid_for_in_full_and_in_part() -> None:
    """A closed box of walls: its 2 x 2 x 2 points cost their own weight; at half a share each, half of it."""
    core, free = np.zeros(SHAPE, bool), np.ones(SHAPE, bool)
    core[2:6, 1:5, 1:5] = True
    core[3:5, 2:4, 2:4] = False
    free &= ~core
    for share in (1.0, 0.5):
        inside = np.zeros(SHAPE, np.float32)
        inside[3:5, 2:4, 2:4] = share
        found = two_way_cut(core, free, ALONG_X, (inside, inside), 0.25, 0.0)
        assert found.hidden == pytest.approx(8 * share * 0.25)
        assert found.energy == pytest.approx(8 * share * 0.25, abs=0.01)


def even_directions(count: int) -> np.ndarray:
    """Unit vectors spread evenly over the sphere, on a spiral of the golden angle."""
    height = 1 - 2 * (np.arange(count) + 0.5) / count
    turn = np.arange(count) * np.pi * (3 - 5**0.5)
    ring = np.sqrt(1 - height**2)
    return np.stack([ring * np.cos(turn), ring * np.sin(turn), height], axis=1)


def test_a_cut_link_stands_for_its_share_of_the_sphere() -> None:
    """Cauchy-Crofton: an area is twice the mean of its shadows, so a link d stands for 2 share / |d|, its share that of
    the directions nearer to it than to any other of the 13 (Voronoi areas on the sphere, counted here)."""
    steps = np.array([step for step, _ in _half_neighbors()], float)
    lengths = np.linalg.norm(steps, axis=1)
    nearest = np.abs(even_directions(40_000) @ (steps / lengths[:, None]).T).argmax(axis=1)
    share = np.bincount(nearest, minlength=13) / 40_000
    assert [area for _, area in _half_neighbors()] == pytest.approx(list(2 * share / lengths), rel=0.01)


def test_the_links_that_a_plane_cuts_weigh_its_area() -> None:
    """A plane of unit normal n is crossed |n . d| times a squared step by link d: 1 on average, within 8 % each way."""
    steps = np.array([step for step, _ in _half_neighbors()], float)
    found = np.abs(even_directions(4000) @ steps.T) @ np.array([area for _, area in _half_neighbors()])
    assert found.mean() == pytest.approx(1.0, abs=1e-3)
    assert np.abs(found - 1).max() < 0.08


def test_every_neighbor_is_linked_once() -> None:
    """26 neighbors, 13 without their opposites."""
    steps = [step for step, _ in _half_neighbors()]
    assert len({*steps, *(tuple(-s for s in step) for step in steps)}) == 26
    assert len(steps) == 13
    assert (0, 0, 0) not in steps


@pytest.mark.parametrize("step", [(1, 0, 0), (0, -1, 1), (1, 1, -1), (-1, 0, 0)])
def test_neighbors_are_paired_where_both_are_free(step: tuple[int, int, int]) -> None:
    """Against every pair of a block of 3 x 4 x 5 points counted one by one, one of them not free."""
    number = np.arange(60, dtype=np.int32).reshape(3, 4, 5) - 1
    wanted = set()
    for at in np.ndindex(number.shape):
        to = tuple(np.add(at, step))
        if all(0 <= t < n for t, n in zip(to, number.shape, strict=True)) and number[at] >= 0 and number[to] >= 0:
            wanted.add((int(number[at]), int(number[to])))
    found = list(zip(*(side.tolist() for side in _pairs(number, step)), strict=True))
    assert len(found) == len(set(found))
    assert set(found) == wanted


@pytest.mark.parametrize(
    "direction",
    [(0.0, 0.0, 1.0), (-1.0, 0.0, 0.0), (0.6, 0.5, 0.62), (-0.5, 0.3, -0.8), (0.3, -0.5, 0.8), (0.2, -0.9, 0.3)],
)
def test_a_point_that_sees_out_is_tied_to_the_next_on_its_ray(direction: tuple[float, float, float]) -> None:
    """Against the line walked point by point: offsets round(s d_q / |d_a|) along the longest axis a."""
    way = np.array(direction) / np.linalg.norm(direction)
    number = np.arange(210, dtype=np.int32).reshape(5, 6, 7) - 1
    seen = (np.arange(210).reshape(5, 6, 7) % 3) > 0
    axis = int(np.argmax(np.abs(way)))
    offset = [np.rint(s * way / abs(way[axis])).astype(int) for s in range(8)]
    length, sign = number.shape[axis], 1 if way[axis] > 0 else -1
    wanted = set()
    for at in np.ndindex(number.shape):
        s = at[axis] if sign > 0 else length - 1 - at[axis]
        step = offset[s + 1] - offset[s]
        step[axis] = sign
        to = tuple(np.add(at, step))
        if (
            all(0 <= t < n for t, n in zip(to, number.shape, strict=True))
            and seen[at]
            and number[at] >= 0
            and number[to] >= 0
        ):
            wanted.add((int(number[at]), int(number[to])))
    found = list(zip(*(side.tolist() for side in _forward_pairs(number, seen, digital_line(way, 7))), strict=True))
    assert len(found) == len(set(found))
    assert set(found) == wanted


def test_the_border_costs_its_area() -> None:
    """Two halves of a block of 10 x 8 x 8 points, each hidden from one side: 64 links run straight across, 56 along
    each of 4 edges, 49 along each of 4 corners, with the shares of the sphere above and 0.01 a squared step."""
    shape = (10, 8, 8)
    core, free = np.zeros(shape, bool), np.ones(shape, bool)
    first, second = np.zeros(shape, np.float32), np.zeros(shape, np.float32)
    second[:5], first[5:] = 1.0, 1.0
    up = np.array([[0.0, 0.0, 1.0], [0.0, 0.0, 1.0]])
    found = two_way_cut(core, free, up, (first, second), 1.0, 0.01)
    assert found.first[:5].all()
    assert not found.first[5:].any()
    assert found.hidden == 0.0
    areas = 64 * 0.0916 + 4 * 56 * 0.0740 / 2**0.5 + 4 * 49 * 0.0704 / 3**0.5
    assert found.energy == pytest.approx(0.01 * 2 * areas, rel=2e-3)


def test_the_border_goes_where_it_is_least() -> None:
    """Between two chambers joined by a neck of one point: the border runs through the neck, not through a chamber,
    although a point beside the neck must be paid for."""
    shape = (9, 5, 5)
    free = np.zeros(shape, bool)
    free[:4], free[5:] = True, True
    free[4, 2, 2] = True
    first, second = np.zeros(shape, np.float32), np.zeros(shape, np.float32)
    first[0], second[8] = 1.0, 1.0
    up = np.array([[0.0, 0.0, 1.0], [0.0, 0.0, 1.0]])
    found = two_way_cut(~free, free, up, (first, second), 1.0, 0.01)
    assert not found.first[:4].any()
    assert found.first[5:].all()
    assert found.hidden == 0.0
    assert found.energy < 0.1


@pytest.mark.parametrize(("dear", "bound", "paid"), [(1.0, 3, 0.25), (0.125, 8, 0.125)])
def test_a_ray_stays_in_its_label(dear: float, bound: int, paid: float) -> None:
    """A row drawn off both ways: where point 3 is dear to the second (along -x), it and all beyond it to +x are the
    first's, though point 5 is hidden from there; where it is cheap, the second keeps all."""
    shape = (8, 1, 1)
    core, free = np.zeros(shape, bool), np.ones(shape, bool)
    first, second = np.zeros(shape, np.float32), np.zeros(shape, np.float32)
    second[3], first[5], first[0] = dear, 0.25, 0.25
    found = two_way_cut(core, free, ALONG_X, (first, second), 2.0, 0.0)
    assert found.hidden == pytest.approx(paid * 2.0)
    assert found.energy == pytest.approx(paid * 2.0, abs=1e-3)
    assert found.first.ravel()[bound:].all()
    assert not found.first.ravel()[:bound].any()


def test_the_pull_of_many_points_outweighs_a_narrow_border() -> None:
    """A long bar, costs too small to count: each half falls to the label along which less of it is hidden."""
    shape = (40, 2, 2)
    core, free = np.zeros(shape, bool), np.ones(shape, bool)
    first, second = np.zeros(shape, np.float32), np.zeros(shape, np.float32)
    first[:20], second[20:] = 1.0, 1.0
    up = np.array([[0.0, 0.0, 1.0], [0.0, 0.0, 1.0]])
    found = two_way_cut(core, free, up, (first, second), 1e-9, 0.0)
    assert found.first[20:].all()
    assert not found.first[:20].any()


@pytest.mark.parametrize("at", [0, 2])
def test_single_points_are_pulled_too(at: int) -> None:
    """Two points apart from each other, each hidden along another draw: the one is the first's, the other not."""
    one, other, free = (np.zeros((3, 1, 1), np.float32) for _ in range(3))
    free[0] = free[2] = 1.0
    other[at] = one[2 - at] = 1.0
    found = two_way_cut(free > 1, free > 0, ALONG_X, (one, other), 1e-9, 0.0)
    assert np.flatnonzero(found.first).tolist() == [at]


def test_only_free_points_are_labeled() -> None:
    core, free, hidden = walled()
    found = two_way_cut(core, free, ALONG_X, hidden, 1.0, 0.01)
    assert not (found.first & core).any()


@pytest.mark.parametrize("seed", range(4))
def test_a_move_of_some_points_only_is_the_best_of_all_such_moves(seed: int) -> None:
    """Against every choice of eight open points tried one by one, three labels; what stays keeps its rays."""
    some = np.random.default_rng(seed)
    core, free = np.zeros((4, 3, 2), bool), np.ones((4, 3, 2), bool)
    core[1, 1, :], free[1, 1, :] = True, False
    points = Labeling(core, free, 1.0, 0.4)
    draws = np.array([[1.0, 0.0, 0.0], [-1.0, 0.0, 0.0], [0.0, 1.0, 0.0]])
    ways = [points.way(draw, some.uniform(0, 1, free.shape).astype(np.float32)) for draw in draws]
    labels = points.moved(np.ones(points.count, np.int8), ways, 0)
    open_ = np.zeros(points.count, bool)
    open_[some.choice(points.count, 8, replace=False)] = True
    found = points.moved(labels, ways, 2, open_=open_)
    assert (found[~open_] == labels[~open_]).all()
    best = min(points.energy(each, ways) for each in tried(labels, open_) if whole_rays(each, ways))
    assert points.energy(found, ways) == pytest.approx(best, abs=1e-3)


def tried(labels: np.ndarray, open_: np.ndarray) -> Iterator[np.ndarray]:
    """Labels of which any open points went over to the third."""
    at = np.flatnonzero(open_)
    for choice in product((False, True), repeat=len(at)):
        each = labels.copy()
        each[at[list(choice)]] = 2
        yield each


def whole_rays(labels: np.ndarray, ways: list[WayOff]) -> bool:
    """Whether every point that sees out along its label's draw has the next one in its label too."""
    own = ((way.tails[labels[way.tails] == n], way.heads[labels[way.tails] == n], n) for n, way in enumerate(ways))
    return all((labels[heads] == n).all() for _, heads, n in own)
