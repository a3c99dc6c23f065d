"""Where cups and scales begin to refuse, and with which figures: each bound from both sides, by hand."""

from __future__ import annotations

from collections.abc import Callable
from math import inf, nan, sqrt

import pytest

from moldwright.errors import MoldwrightError
from moldwright.mixing.cup import CupClock, cup_count, cup_limit
from moldwright.mixing.cups import cups_of
from moldwright.mixing.recipe import Recipe, liquid
from moldwright.mixing.scale_steps import apportion, grams, steps_of
from moldwright.mixing.weighing import mass_tolerance, part_uncertainty_g, ratio_tolerance, smallest_batch_g
from moldwright.plan.mixes import SKIN, PartKind, TaskKind


def clock(life_s: float, mixing_s: float, g_per_min: float, stated_g: float = inf, share: float = 1.0) -> CupClock:
    return CupClock(life_s, mixing_s, TaskKind.POUR, 60.0 / g_per_min, stated_g, share)


@pytest.mark.parametrize(
    ("asked", "code", "actual", "limit"),
    [
        (lambda: cup_limit(clock(100, 10, inf), 500, 1), "cup-not-usable", 0, "> 0"),
        (lambda: cup_limit(clock(100, 10, -0.5), 500, 1), "cup-not-usable", -120, "> 0"),
        (lambda: cup_limit(clock(100, 10, 25), 0, 1), "cup-not-usable", 0, "> 0"),
        (lambda: cup_limit(clock(100, 10, 25), -0.5, 1), "cup-not-usable", -0.5, "> 0"),
        (lambda: cup_limit(clock(100, 10, 25), 500, 0), "cup-not-usable", 0, "> 0"),
        (lambda: cup_limit(clock(100, 10, 25), 500, -0.5), "cup-not-usable", -0.5, "> 0"),
        (lambda: cup_limit(clock(100, 10, 25), 500, 1, fill=0.0), "cup-not-usable", 0.0, "> 0"),
        (lambda: cup_limit(clock(100, 10, 25), 500, 1, fill=-0.5), "cup-not-usable", -0.5, "> 0"),
        (lambda: cup_limit(clock(100, 10, 25), 500, 2, fill=1.1), "cup-not-usable", 1.1, "> 0"),
        (lambda: cup_limit(clock(10, 10, 25), 500, 1), "cup-without-time", 10, 10),
        (lambda: cup_count(10.0, 0.99999, 1.0), "cup-below-scale", 1.0, 1.0),
        (lambda: cup_count(10.0, 0.00034, 0.1), "cup-below-scale", 0.0003, 0.1),
        (lambda: cup_count(50.1, 0.1, 0.1), "too-many-cups", 501, 500),
        (lambda: steps_of(1.0, 0.0), "scale-step", 0.0, "> 0"),
        (lambda: steps_of(1.0, -0.5), "scale-step", -0.5, "> 0"),
        (lambda: part_uncertainty_g(0.0), "scale-step", 0.0, "> 0"),
        (lambda: part_uncertainty_g(-0.5), "scale-step", -0.5, "> 0"),
        (lambda: apportion(10, (0.0, 0.0)), "mix-not-physical", 0.0, "> 0"),
        (lambda: apportion(10, (2.0, -0.5)), "mix-not-physical", 1.5, "> 0"),
        (lambda: apportion(10, (1.0, nan)), "mix-not-physical", "nan", "> 0"),
        (lambda: ratio_tolerance(0.1, 0.0, 2.0), "part-too-small", 0.0, "> 0"),
        (lambda: ratio_tolerance(0.1, 2.0, -0.5), "part-too-small", -0.5, "> 0"),
        (lambda: mass_tolerance(0.1, 0.0), "part-too-small", 0.0, "> 0"),
        (lambda: mass_tolerance(0.1, -0.5), "part-too-small", -0.5, "> 0"),
        (lambda: smallest_batch_g(0.1, (1, 1), 0.0), "tolerance", 0.0, "> 0"),
        (lambda: smallest_batch_g(0.1, (1, 1), -0.5), "tolerance", -0.5, "> 0"),
    ],
)
def test_refused_with_its_figures(asked: Callable[[], object], code: str, actual: object, limit: object) -> None:
    with pytest.raises(MoldwrightError) as refused:
        asked()
    assert (refused.value.code, refused.value.actual, refused.value.limit) == (code, actual, limit)


def test_at_the_bound_is_taken() -> None:
    """A cup filled to its brim; one that holds half a milliliter; a cup of one step; five hundred cups."""
    assert cup_limit(clock(100, 10, 0.5), 500, 0.4, fill=1.0).max_g == pytest.approx(0.75)
    assert cup_limit(clock(1e6, 10, 25), 0.5, 0.4, fill=0.5).max_g == pytest.approx(0.1)
    assert [cup_count(total_g, 0.1, 0.1) for total_g in (0.2, 50.0)] == [2, 500]
    assert cup_count(0.6, 0.3, 0.1) == 2


def test_where_cup_and_pot_life_both_bind() -> None:
    """60 s at 100 g/min and a cup of 100 g: both 100 g; with a little less of either, less."""
    limits = [cup_limit(clock(70, 10, 100), 200, 1.0, fill=0.5), cup_limit(clock(69.4, 10, 100), 200, 1.0, fill=0.5),
              cup_limit(clock(70, 10, 100), 198, 1.0, fill=0.5)]  # fmt: skip
    assert [limit.max_g for limit in limits] == pytest.approx([100.0, 99.0, 99.0])


@pytest.mark.parametrize(
    ("share", "out_by_s", "most_g"), [(1.0, 100.0, 800.0), (0.5, 60.0, 400.0), (0.25, 40.0, 200.0)]
)
def test_pouring_takes_its_share_of_what_mixing_leaves(share: float, out_by_s: float, most_g: float) -> None:
    """100 s less 20 s of mixing at 10 g/s; the rest of the 100 s swirls it in the mold."""
    poured = clock(100, 20, 600, share=share)
    limit = cup_limit(poured, 1e5, 1.0)
    assert limit.max_g == pytest.approx(most_g)
    cup = cups_of(SKIN, most_g, Recipe((liquid(PartKind.A, 1, 1.0),)), limit, 0.1)[0]
    assert (cup.work_by_s, cup.out_by_s) == (100.0, pytest.approx(out_by_s))
    assert sum(task.duration_s for task in cup.tasks) == pytest.approx(100.0)


def test_a_cup_as_heavy_as_stated_keeps_its_whole_life() -> None:
    limit = cup_limit(clock(60, 0, 100, stated_g=100), 1e5, 1.0)
    assert (limit.max_g, limit.clock.work_by_s(100.0)) == (100.0, 60.0)


def test_a_part_is_off_by_half_a_step_at_most() -> None:
    """A running total rounds to the nearest step, a half up; each part within one step of exact."""
    assert apportion(10, (1.0, 3.0)) == (3, 7)
    assert apportion(7, (1.0, 0.0, 6.0)) == (1, 0, 6)
    assert [steps_of(mass_g, 0.5) for mass_g in (0.24, 0.25, 0.74, 0.75)] == [0, 1, 1, 2]
    assert grams(3, 0.1) == 0.3


def test_tolerance_of_one_part_alone() -> None:
    """2 d / (sqrt 6 m), d = 0.1 g (JCGM 100:2008, F.2.2.1, from memory): 0.816 % of 10 g; 4.08 g for 2 %."""
    alone = Recipe((liquid(PartKind.A, 3.0, 1.0),))
    cup = cups_of(SKIN, 10.0, alone, cup_limit(clock(3600, 0, 100), 500, 1.0), 0.1)[0]
    assert cup.tolerance_pct == pytest.approx(20 / (sqrt(6) * 10), abs=5e-4)
    assert cup.smallest_batch_g == pytest.approx(0.2 / sqrt(6) / 0.02, abs=0.1)


def test_cups_are_numbered_and_timed_by_their_own_mass() -> None:
    """Stated for 100 g and 400 s: a cup of 800 g has half of it, of 100 g all."""
    mix = Recipe((liquid(PartKind.A, 1, 1.0), liquid(PartKind.B, 1, 2.0)))
    limit = cup_limit(clock(400, 0, 1e6, stated_g=100), 2000, 1.0, fill=0.4)
    cups = cups_of(SKIN, 1600.0, mix, limit, 1.0)
    assert [(cup.cup, cup.work_by_s, cup.mass_g) for cup in cups] == [(1, 200.0, 800.0), (2, 200.0, 800.0)]
    assert [part.volume_ml for part in cups[0].parts] == [400.0, 200.0]
    assert cups_of(SKIN, 100.0, mix, limit, 0.1)[0].work_by_s == 400.0
