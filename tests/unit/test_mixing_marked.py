"""Cups without a scale. Readings by JCGM 100:2008, F.2.2.1 (from memory), held against readings drawn at random; what
is met to a quarter of a mark's step, and 5 % of a ratio taken: common practice, no source."""

from __future__ import annotations

import random
from math import ceil, fsum, inf

import pytest

from moldwright.errors import NoSafePlan
from moldwright.mixing.cup import CupClock, CupLimit
from moldwright.mixing.marked import allowed, in_volumes, marked_cups_of, smallest_marked_g
from moldwright.mixing.recipe import Ingredient, Recipe, liquid
from moldwright.plan.mixes import SKIN, MeasuredBy, MixPlan, PartKind, TaskKind

EVEN = Recipe((liquid(PartKind.A, 1.02, 1.02), liquid(PartKind.B, 1.1, 1.1)))
HARDENED = Recipe((liquid(PartKind.A, 100.0, 1.17), liquid(PartKind.B, 10.0, 1.0)), 0.05)
POWDERED = Recipe(
    (
        liquid(PartKind.A, 1.05, 1.05),
        liquid(PartKind.TINT, 0.002, 1.1, "brown"),
        Ingredient(PartKind.POWDER, 3.0, 3.0, 8.8, "bronze"),
        liquid(PartKind.B, 1.05, 1.05),
    )
)
ALONE = Recipe((liquid(PartKind.A, 0.95, 0.95), liquid(PartKind.PIGMENT, 0.001, 1.15, "red")))
ROOMY = CupLimit(5000.0, 5000.0, CupClock(3000.0, 60.0, TaskKind.LAY, 0.1))


def cups(recipe: Recipe, total_g: float, marks_ml: float, limit: CupLimit = ROOMY) -> tuple[MixPlan, ...]:
    return marked_cups_of(SKIN, total_g, recipe, limit, marks_ml)


@pytest.mark.parametrize("recipe", [EVEN, HARDENED, POWDERED, ALONE], ids=["even", "hardened", "powdered", "alone"])
@pytest.mark.parametrize("marks_ml", [1.0, 2.0, 5.0])
@pytest.mark.parametrize("total_g", [300.0, 777.0, 2345.0])
def test_every_part_is_to_a_mark(recipe: Recipe, marks_ml: float, total_g: float) -> None:
    made = cups(recipe, total_g, marks_ml)
    assert total_g - 1e-6 <= fsum(mix.mass_g for mix in made) <= total_g * 1.25 + 100.0
    for part in (part for mix in made for part in mix.parts if part.by is MeasuredBy.MARKS):
        assert part.volume_ml / marks_ml == pytest.approx(round(part.volume_ml / marks_ml), abs=1e-6)
    for mix in made:
        risen = [part.reads_ml for part in mix.parts]
        assert risen == sorted(risen)
        assert mix.tolerance_pct <= 100.0 * allowed(recipe)
        assert mix.work_by_s is not None
        assert fsum(task.duration_s for task in mix.tasks) <= mix.work_by_s


def test_equal_volumes_are_equal_volumes() -> None:
    """100 g of 1 : 1 at 1.02 and 1.1 g/ml: 47.2 ml each, so 48 ml; the cup stands at 48, then at 96."""
    (mix,) = cups(EVEN, 100.0, 2.0)
    assert [part.volume_ml for part in mix.parts] == [48.0, 48.0]
    assert [part.reads_ml for part in mix.parts] == [48.0, 96.0]
    assert [part.by for part in mix.parts] == [MeasuredBy.MARKS] * 2
    assert mix.mass_g == pytest.approx(48 * 1.02 + 48 * 1.1)
    assert mix.ratio == 1.0


def test_a_hardener_is_drawn_by_syringe_and_powder_is_loose() -> None:
    """10 % of 1.0 g/ml on 1.17 g/ml is 11.7 % by volume; equal volumes of loose powder stay equal, and rise the mix by
    their grains alone."""
    (mix,) = cups(HARDENED, 200.0, 5.0)
    base, hardener = mix.parts
    assert (base.by, hardener.by) == (MeasuredBy.MARKS, MeasuredBy.SYRINGE)
    assert hardener.volume_ml / base.volume_ml == pytest.approx(0.117, rel=0.02)
    assert hardener.syringe_ml is not None
    assert hardener.syringe_ml >= hardener.volume_ml
    (filled,) = cups(POWDERED, 300.0, 2.0)
    a, tint, powder, b = filled.parts
    assert a.volume_ml == powder.volume_ml == b.volume_ml
    assert tint.by is MeasuredBy.STICK
    assert powder.reads_ml - tint.reads_ml == pytest.approx(powder.volume_ml * 3.0 / 8.8, abs=0.02)


@pytest.mark.parametrize("volume_ml", [30.0, 100.0])
def test_the_tolerance_covers_readings_drawn_at_random(volume_ml: float) -> None:
    """Each mark met within a quarter of its step either way: 95 of 100 ratios are within the tolerance, not all of them
    within half of it."""
    (mix,) = cups(EVEN, volume_ml * 2.12, 2.0)
    assert mix.parts[0].volume_ml == volume_ml
    chance = random.Random(7)
    off = []
    for _ in range(20_000):
        first, last = (chance.uniform(-0.5, 0.5) for _ in range(2))
        a, whole = volume_ml + first, 2 * volume_ml + last
        off.append(abs((whole - a) / a - 1.0))
    held = mix.tolerance_pct / 100.0
    assert sum(each <= held for each in off) >= 0.95 * len(off)
    assert sum(each <= held / 2 for each in off) < 0.95 * len(off)


def test_the_sheets_ratio_by_volume_is_kept() -> None:
    """100 : 87 by volume of parts at 1.05 and 1.2 g/ml, as heavy together as before."""
    recipe = Recipe((liquid(PartKind.A, 3.0, 1.05), liquid(PartKind.POWDER, 1.0, 2.0), liquid(PartKind.B, 2.0, 1.2)))
    made = in_volumes(recipe, (100.0, 87.0))
    a, powder, b = made.ingredients
    assert (b.share / 1.2) / (a.share / 1.05) == pytest.approx(0.87)
    assert a.share + b.share == pytest.approx(5.0)
    assert powder.share == 1.0
    assert in_volumes(ALONE, (1.0, 0.0)) == ALONE


def test_marks_too_coarse_are_refused_with_those_that_do() -> None:
    with pytest.raises(NoSafePlan, match="ratio-not-held") as refused:
        cups(EVEN, 250.0, 25.0)
    assert refused.value.limit == 5.0
    assert "every 10 ml (shop.marks)" in refused.value.remedy
    assert len(cups(EVEN, 250.0, 10.0)) == 1


def test_a_small_cup_is_drawn_in_two_syringes() -> None:
    """20 g of 1 : 1 is 9.4 ml each: two syringes of 10 ml, where marks of 2 ml ask for 64 g; 70 g goes to the marks."""
    (small,) = cups(EVEN, 20.0, 2.0)
    assert [part.by for part in small.parts] == [MeasuredBy.SYRINGE] * 2
    assert [part.volume_ml for part in small.parts] == pytest.approx([9.6, 9.6], abs=0.21)
    assert small.marked
    assert 20.0 <= small.mass_g <= 21.0
    assert small.tolerance_pct <= 5.0
    (trace,) = cups(EVEN, 0.1, 2.0)
    assert trace.mass_g < 1.0
    assert trace.tolerance_pct <= 5.0
    (large,) = cups(EVEN, 70.0, 2.0)
    assert [part.by for part in large.parts] == [MeasuredBy.MARKS] * 2


def test_the_smallest_cup_is_the_least_that_holds() -> None:
    """1 : 1 to marks of 2 ml at 5 %: sqrt(2) d / v with d half the step, from 28.3 ml of each on, so 30 ml."""
    assert smallest_marked_g(EVEN, 2.0) == pytest.approx(30 * (1.02 + 1.1))
    assert smallest_marked_g(EVEN, 10.0) == pytest.approx(150 * (1.02 + 1.1))
    assert cups(EVEN, 0.0, 2.0) == ()


def test_cups_are_as_many_as_fit_their_clock() -> None:
    """A clock that leaves 100 s at 1 g/s: cups of at most 100 g."""
    limit = CupLimit(100.0, 375.0, CupClock(160.0, 60.0, TaskKind.LAY, 1.0, inf))
    made = cups(EVEN, 450.0, 1.0, limit)
    assert len(made) == ceil(450 / 100)
    assert all(mix.work_by_s == 160.0 for mix in made)
