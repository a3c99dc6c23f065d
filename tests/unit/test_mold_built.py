"""A whole shell about a block with two pits, split in the plane x = 1.5: what is packed, on which side, how long."""

from __future__ import annotations

from functools import cache
from types import SimpleNamespace

import geometry_bodies as bodies
import manifold3d as m3
import numpy as np
import pytest
from mold_splits import outline_of, parted

from moldwright.errors import NoSafePlan
from moldwright.mold import shell as module
from moldwright.mold.removal import Met, Removal
from moldwright.mold.shell import BuiltShell, build_shell
from moldwright.mold.shell_settings import ShellSettings
from moldwright.mold.space import coarse_grid
from moldwright.progress import silent

WIDE, DEEP, TALL, STEP_MM = 36.0, 24.0, 40.0, 1.25
SHELL = ShellSettings()


@cache
def shell() -> BuiltShell:
    """Square pits of 6 x 6 mm in the side toward +y: at x = 10 mm 6 mm deep, at x = -10 mm 9 mm deep."""
    block = bodies.box(WIDE, DEEP, TALL)
    for x, deep in ((10.0, 6.0), (-10.0, 9.0)):
        block -= m3.Manifold.cube((6, deep, 6)).translate((x - 3, DEEP / 2 - deep, 17))
    core = bodies.mesh(block)
    grid = coarse_grid(core, SHELL.seam_flange_mm, 0.0, 3.0)
    return build_shell(core, outline_of(core), 0.0, parted(grid), STEP_MM, SHELL)


def test_each_pit_is_packed_on_its_side_of_the_seam() -> None:
    """6 x 6 x 6 and 6 x 6 x 9 mm; the polytope about the block lets rubber stand out of a pit by up to 3 mm."""
    deep, flat = shell().spots
    assert flat.volume_ml == pytest.approx(0.216, abs=0.12)
    assert deep.volume_ml == pytest.approx(0.324, abs=0.12)
    assert [piece.fill_ml for piece in shell().pieces] == [flat.volume_ml, deep.volume_ml]
    rubber_ml = shell().gloved.volume_ml - (WIDE * DEEP * TALL - 216 - 324) / 1000
    assert rubber_ml == pytest.approx(flat.volume_ml + deep.volume_ml, abs=0.02)


def test_it_comes_off_with_the_least_clearance_that_does() -> None:
    """Half a millimeter, or half a step where that is more."""
    assert shell().removal.free
    assert shell().clearance_mm == pytest.approx(0.5 * STEP_MM)
    assert [piece.draw for piece in shell().pieces] == [(1.0, 0.0, 0.0), (-1.0, 0.0, 0.0)]


def test_its_seam_runs_up_over_and_down() -> None:
    """2 h + b + pi w / 2 with a flange w = 25 mm wide, within 3 %; on the rubber it lies at x = 1.5 mm."""
    assert shell().seam_mm == pytest.approx(2 * TALL + DEEP + np.pi * 25 / 2, rel=0.03)
    (line,) = shell().seam.wall
    assert np.abs(line.points[:, 0] - 1.5).max() <= 1.0
    assert line.points[:, 2].max() == pytest.approx(TALL, abs=1.0)


def test_nearly_all_of_the_rubber_is_held() -> None:
    assert 0.0 <= shell().uncovered_share < 0.02


MET = Met(2, (3.0, 0.0, 12.0), 1.5)
TOUCHES, COMES_OFF = Removal(0.5, 14, 10, 0, 9.0, MET), Removal(0.0, 14, 10, 0, 9.0)


@pytest.mark.parametrize("apart", [True, False])
@pytest.mark.parametrize("rounds", [1, 2, 3, 4])
def test_where_it_touches_it_is_cut_again_with_more_clearance(
    monkeypatch: pytest.MonkeyPatch, rounds: int, apart: bool
) -> None:
    """Each round asks for more than the one before, the last for no more than three times the least."""
    tried: list[float] = []

    def cut(blank: object, rooms: object, clearance_mm: float, s: object) -> tuple[tuple[()], float]:
        tried.append(clearance_mm)
        return (), 0.0

    monkeypatch.setattr(module, "room_for", lambda blank, number: number)
    monkeypatch.setattr(module, "_apart_from", cut)
    monkeypatch.setattr(module, "_held_at_rest", lambda *given: None if apart or len(tried) == rounds else MET)
    to_the_end: list[bool] = []

    def proof(*given: object, whole_way: bool, in_order: bool) -> Removal:
        to_the_end.append(whole_way)
        return COMES_OFF if len(tried) == rounds else TOUCHES

    monkeypatch.setattr(module, "check_removal", proof)
    found = module._cut_free(SimpleNamespace(draws=2.0 * np.eye(2, 3), gloved=None, in_order=False), SHELL, 0.5, silent)
    assert len(tried) == rounds
    assert to_the_end[-1] == (rounds == 4), "only the last round is checked to its end"
    assert tried == sorted(set(tried))
    assert (tried[0], found.clearance_mm) == (0.5, tried[-1])
    assert tried[-1] <= 1.5
    assert found.draws == ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0))


@pytest.mark.parametrize("at_rest", [True, False])
def test_what_never_comes_off_is_refused_where_it_is_held(monkeypatch: pytest.MonkeyPatch, at_rest: bool) -> None:
    monkeypatch.setattr(module, "room_for", lambda blank, number: number)
    monkeypatch.setattr(module, "_apart_from", lambda *given: ((), 0.0))
    monkeypatch.setattr(module, "_held_at_rest", lambda *given: MET if at_rest else None)
    monkeypatch.setattr(module, "check_removal", lambda *given, **more: TOUCHES)
    gloved = bodies.mesh(bodies.box(30, 30, 40))
    with pytest.raises(NoSafePlan) as refused:
        module._cut_free(SimpleNamespace(draws=np.eye(2, 3), gloved=gloved, in_order=False), SHELL, 0.5, silent)
    place = refused.value.place
    assert (refused.value.code, refused.value.actual, refused.value.limit) == ("shell-locked", 1.5, 0)
    assert "Shell piece 2" in refused.value.remedy
    assert place is not None
    assert (place.at_mm, place.side, place.body) == ((3.0, 0.0, 12.0), "right", gloved)
