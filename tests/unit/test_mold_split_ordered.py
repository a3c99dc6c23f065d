"""Splits whose pieces come off in their order only: by counting every labeling of a few points, and on two holes whose
ways cross, the smaller of which is a closed form. The proof on the solids is manifold3d's; no other source."""

from __future__ import annotations

from itertools import product
from types import SimpleNamespace

import geometry_bodies as bodies
import manifold3d as m3
import numpy as np
import pytest

from moldwright.geometry.cut import Labeling
from moldwright.geometry.mesh import Mesh
from moldwright.mold import shell as module
from moldwright.mold.removal import Removal, check_removal
from moldwright.mold.shell import build_shell
from moldwright.mold.shell_settings import ShellSettings
from moldwright.mold.space import space_about
from moldwright.mold.split import CoarseSplit, SpaceCut, SplitSettings
from moldwright.mold.split_ordered import reordered
from moldwright.mold.split_search import splits_about
from moldwright.mold.split_whole import in_one_body_each
from moldwright.progress import silent

ACROSS, UP = np.array([1.0, 0.0, 0.0]), np.array([0.0, 0.0, 1.0])
WIDE, DEEP = 24.0, 40.0
HOLE_ML = WIDE**2 * DEEP / 1000
SHELL = ShellSettings()
Step = tuple[int, int, int]


def crossing() -> Mesh:
    """A step with a square hole down into its lower tread and one of the same size into its riser, over the first."""
    step = bodies.box(110, 44, 50) + m3.Manifold.cube((55, 44, 50)).translate((-55, -22, 40))
    down = m3.Manifold.cube((WIDE, WIDE, DEEP + 1)).translate((12, -WIDE / 2, 50 - DEEP))
    aside = m3.Manifold.cube((DEEP + 1, WIDE, WIDE)).translate((-DEEP, -WIDE / 2, 52))
    return bodies.mesh(step - down - aside)


@pytest.fixture(scope="module")
def found() -> CoarseSplit:
    splits = splits_about(crossing(), SHELL.seam_flange_mm, 0.0, 3.0, SplitSettings(tilts_deg=(0, 36)), 2)
    in_any, best = splits.without_order(2), splits.of(2)
    assert in_any is not None
    assert not in_any.in_order
    assert in_any.fill_ml > 0.5 * HOLE_ML
    return best


def test_holes_whose_ways_cross_need_an_order_or_one_of_them_packed(found: CoarseSplit) -> None:
    """In any order one way bars the other: most of a hole is packed, the less the more aslant. In an order none is."""
    assert found.in_order
    assert found.fill_ml < 0.02 * HOLE_ML
    assert found.least_share >= SplitSettings().least_share


def test_the_pieces_of_such_a_shell_come_off(found: CoarseSplit) -> None:
    """On the finished solids. They are thin: their spaces leave in an order only, they may leave in any."""
    outline = np.array([[-60.0, -27.0], [60.0, -27.0], [60.0, 27.0], [-60.0, 27.0]])
    shell = build_shell(crossing(), outline, 2.0, found, 2.0, SHELL)
    meshes, draws = (tuple(getattr(piece, name) for piece in shell.pieces) for name in ("mesh", "draw"))
    assert check_removal(meshes, draws, shell.gloved, in_order=shell.in_order).free
    assert shell.uncovered_share < 0.01
    assert sum(piece.fill_ml for piece in shell.pieces) < 0.02 * HOLE_ML


def test_an_order_is_told_where_the_solids_need_it_only(monkeypatch: pytest.MonkeyPatch) -> None:
    """By what the proof says of them in any order."""
    asked: list[bool] = []

    def proof(*given: object, whole_way: bool = True, in_order: bool = False) -> Removal:
        asked.append(in_order)
        return Removal(0.0 if in_order or frees else 5.0, 14, 100, 0, 1.0)

    monkeypatch.setattr(module, "check_removal", proof)
    monkeypatch.setattr(module, "room_for", lambda *given: None)
    monkeypatch.setattr(module, "_apart_from", lambda *given: ((), 0.0))
    blank = SimpleNamespace(draws=np.eye(2, 3), gloved=None, in_order=True)
    for frees in (False, True):
        assert module._cut_free(blank, SHELL, 0.5, silent).in_order is not frees
    assert asked == [True, False, True, False]


def test_what_lies_apart_is_joined_over_the_rubber() -> None:
    """The plug in the side hole, cut off from its piece by the way of the other."""
    cut = SpaceCut(space_about(crossing(), SHELL.seam_flange_mm, 0.0, 5.0), SplitSettings())
    split = cut.two(np.stack([UP, ACROSS]), in_order=True)
    whole = in_one_body_each(cut, split)
    assert whole is not None
    assert whole.in_order
    assert whole.fill_ml == pytest.approx(split.fill_ml, abs=0.01 * HOLE_ML)
    assert in_one_body_each(cut, whole) is whole


def test_an_order_is_another_name_of_each_piece() -> None:
    cut = SpaceCut(space_about(crossing(), 8.0, 0.0, 8.0), SplitSettings())
    split = cut.two(np.stack([UP, ACROSS]))
    turned = reordered(split, (1, 0))
    assert np.array_equal(turned.directions, split.directions[::-1])
    assert np.array_equal(turned.labels == 0, split.labels == 1)
    assert (turned.energy_ml, turned.in_order) == (split.energy_ml, True)


def comes_off(
    labels: np.ndarray, core: np.ndarray, draws: list[tuple[int, int, int]], hidden: list[np.ndarray]
) -> bool:
    """Walked point by point: a point that sees out passes only its own piece's, and what an earlier one has left."""
    for at in np.argwhere(labels >= 0):
        own = int(labels[tuple(at)])
        to = at + draws[own]
        if hidden[own][tuple(at)]:
            continue
        while all(0 <= t < n for t, n in zip(to, labels.shape, strict=True)):
            other = int(labels[tuple(to)])
            if core[tuple(to)] or other > own or (other < own and hidden[other][tuple(to)]):
                return False
            to = to + draws[own]
    return True


def hidden_along(core: np.ndarray, draw: Step) -> np.ndarray:
    """Points from which the core is met along a draw of the grid."""
    out = np.zeros(core.shape, bool)
    for at in np.ndindex(core.shape):
        to = np.add(at, draw)
        while all(0 <= t < n for t, n in zip(to, core.shape, strict=True)):
            out[at] |= core[tuple(to)]
            to = to + draw
    return out


@pytest.mark.parametrize("seed", range(12))
def test_two_in_order_cost_least_of_all_that_come_off_so(seed: int) -> None:
    """Every labeling of a plate of 4 x 4 points, of which some are core."""
    core = np.random.default_rng(seed).random((4, 1, 4)) < 0.3
    steps = [(1, 0, 0), (0, 0, 1)]
    hidden = [hidden_along(core, step) for step in steps]
    points = Labeling(core, ~core, 1.0, 0.02)
    pairs = zip(steps, hidden, strict=True)
    ways = [points.way(np.array(step, float), each.astype(np.float32)) for step, each in pairs]
    every = (np.array(labels, np.int8) for labels in product((0, 1), repeat=points.count))
    best = min(points.energy(each, ways) for each in every if comes_off(points.on_grid(each), core, steps, hidden))
    labels = points.moved(np.ones(points.count, np.int8), ways, 0, in_order=True)
    assert comes_off(points.on_grid(labels), core, steps, hidden)
    assert points.energy(labels, ways) == pytest.approx(best, abs=1e-3)
