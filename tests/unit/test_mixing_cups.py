"""Cups: arithmetic by hand."""

from math import inf

import pytest

from moldwright.cure.lasting import refuse_unless_it_lasts
from moldwright.errors import ComputationFailed, InputRefused, NoSafePlan
from moldwright.mixing.cup import CupClock, cup_count, cup_limit
from moldwright.mixing.cups import cups_of
from moldwright.mixing.recipe import Recipe, liquid
from moldwright.mixing.scale_steps import apportion, steps_of
from moldwright.plan.mixes import SKIN, PartKind, TaskKind
from moldwright.ranges import Range


def laid(life_s: float, mixing_s: float, g_per_min: float, stated_g: float = inf) -> CupClock:
    return CupClock(life_s, mixing_s, TaskKind.LAY, 60.0 / g_per_min, stated_g)


def test_the_pot_life_limits_the_cup() -> None:
    """18 min less 3 min of mixing, at 25 g/min: 375 g; the cup itself takes 0.75 x 500 x 1.08 = 405 g."""
    limit = cup_limit(laid(1080, 180, 25), 500, 1.08)
    assert (limit.max_g, limit.clock.work_by_s(375)) == (pytest.approx(375), 1080)


def test_the_cup_limits_the_cup() -> None:
    """0.75 x 200 x 1.08 = 162 g, which are on the work long before the 57 min for 1425 g are over."""
    limit = cup_limit(laid(3600, 180, 25), 200, 1.08)
    assert (limit.max_g, limit.clock.work_by_s(162)) == (pytest.approx(162), 3600)


def test_a_mix_that_heats_itself_has_less_time_in_a_heavier_cup() -> None:
    """Surface per mass of a cup of one shape falls as m^(-1/3): eight times the stated mass, half the pot life."""
    limit = cup_limit(laid(800, 0, 1e6, 100), 2000 / 1.5, 0.8)
    assert limit.max_g == pytest.approx(800)
    assert limit.clock.work_by_s(limit.max_g) == pytest.approx(400)
    assert limit.clock.work_by_s(100) == limit.clock.work_by_s(20) == pytest.approx(800)


def test_the_heaviest_cup_that_is_still_in_time() -> None:
    """Laid at 100 g/min after 60 s: its last gram goes on exactly when the pot life of that very mass is over."""
    limit = cup_limit(laid(600, 60, 100, 100), 1e5, 1.0)
    assert 60 + limit.max_g * 60 / 100 == pytest.approx(600 * (100 / limit.max_g) ** (1 / 3), rel=1e-9)
    assert limit.clock.work_by_s(limit.max_g) == pytest.approx(60 + limit.max_g * 60 / 100)


def test_rubber_that_gels_while_it_is_mixed_has_no_safe_plan() -> None:
    with pytest.raises(NoSafePlan) as refused:
        refuse_unless_it_lasts("fast rubber", Range(150.0, 200.0, 260.0), 180.0, 22.0)
    assert (refused.value.code, refused.value.actual, refused.value.limit) == ("pot-life-too-short", 150, 240)
    assert "slower" in refused.value.remedy
    assert "cool" in refused.value.remedy
    refuse_unless_it_lasts("rubber", Range(240.0, 250.0, 260.0), 180.0, 22.0)
    with pytest.raises(ComputationFailed, match="cup-without-time"):
        cup_limit(laid(150, 180, 25), 500, 1.08)


def test_the_fewest_cups_that_hold_it() -> None:
    assert [cup_count(total_g, 260.0, 0.1) for total_g in (0.3, 260.0, 260.1, 410.0)] == [1, 1, 2, 2]


def test_a_cup_below_the_scales_step_is_refused() -> None:
    with pytest.raises(NoSafePlan) as refused:
        cup_count(10.0, 0.5, 1.0)
    assert refused.value.code == "cup-below-scale"


def test_hundreds_of_cups_are_no_plan() -> None:
    with pytest.raises(NoSafePlan) as refused:
        cup_count(100_000.0, 100.0, 1.0)
    assert (refused.value.code, refused.value.actual) == ("too-many-cups", 1000)


def test_running_totals_are_what_the_scale_can_show() -> None:
    mix = Recipe((liquid(PartKind.A, 100, 1.05), liquid(PartKind.B, 33.3, 1.1)), tolerance=0.05)
    cup = cups_of(SKIN, 50.0, mix, cup_limit(laid(3600, 0, 100), 500, 1.0), 0.5)[0]
    reads = [part.scale_reads_g for part in cup.parts]
    assert reads == [37.5, 50.0]
    assert [part.mass_g for part in cup.parts] == [37.5, 12.5]
    assert cup.parts[0].volume_ml == pytest.approx(37.5 / 1.05, abs=0.005)


def test_a_cups_tolerance_is_that_of_what_is_weighed_in_it() -> None:
    """Shares on any scale: 2 : 0.4 : 2 in a cup of 22 g is 10 g, 2 g and 10 g. A step of 0.1 g at k = 2, by JCGM
    100:2008, F.2.2.1 (from memory): 2 sqrt(2 (0.1 / sqrt 6)^2 / 10^2 + 0.1^2 / (6 x 10 x 10)) = 1.414 %."""
    mix = Recipe((liquid(PartKind.A, 2, 1.0), liquid(PartKind.TINT, 0.4, 1.0), liquid(PartKind.B, 2, 1.0)))
    cup = cups_of(SKIN, 22.0, mix, cup_limit(laid(3600, 0, 100), 500, 1.0), 0.1)[0]
    assert [part.mass_g for part in cup.parts] == pytest.approx([10.0, 2.0, 10.0])
    assert cup.tolerance_pct == pytest.approx(1.414, abs=0.001)


def test_the_smallest_batch_counts_its_ratio_and_its_other_parts() -> None:
    """4 : 1 at 0.1 g within 2 %, as a running total: 2 sqrt((1 / 0.64 + 1 / 0.04 + 1 / 0.16) / 6) 0.1 / 0.02 = 23.4 g
    of A and B, by JCGM 100:2008, F.2.2.1 (from memory), and B in whole steps 4.7 g, so 23.5 g; with a third of the cup
    powder, 1.5 times as much. 1 : 1 needs only 2 sqrt(8/6 + 4/6) 0.1 / 0.02 = 14.1 g, 14.2 in whole steps of both."""
    limit = cup_limit(laid(3600, 0, 100), 500, 1.0)
    four = Recipe((liquid(PartKind.A, 4, 1.0), liquid(PartKind.B, 1, 1.0)))
    filled = Recipe((liquid(PartKind.A, 4, 1.0), liquid(PartKind.POWDER, 2.5, 1.0), liquid(PartKind.B, 1, 1.0)))
    even = Recipe((liquid(PartKind.A, 1, 1.0), liquid(PartKind.B, 1, 1.0)))
    least = [cups_of(SKIN, 100.0, mix, limit, 0.1)[0].smallest_batch_g for mix in (four, filled, even)]
    assert least == pytest.approx([23.5, 35.25, 14.2], abs=0.06)


def test_mixture_density_in_the_cup() -> None:
    """2:1 by volume at 1.05 and 1.22 is 2.10 : 1.22 = 100 : 58.10 by weight, by hand: 3.32 g in 3 ml."""
    mix = Recipe((liquid(PartKind.A, 100, 1.05), liquid(PartKind.B, 58.0952, 1.22)))
    assert mix.density_g_ml == pytest.approx(3.32 / 3, rel=1e-5)


def test_unphysical_is_refused() -> None:
    with pytest.raises(InputRefused):
        apportion(10, (0.0, 0.0))
    with pytest.raises(InputRefused):
        steps_of(1.0, 0.0)
    with pytest.raises(InputRefused):
        cup_limit(laid(100, 10, 25), 0, 1)


def test_a_cup_tells_the_ratio_of_its_sheet_not_that_of_its_rounded_parts() -> None:
    """1.5 g of hardener on 100 g: 0.015, though 30 g on a scale of 1 g would take 0 or 1 g (0.033) of it."""
    recipe = Recipe((liquid(PartKind.A, 100.0, 1.1), liquid(PartKind.B, 1.5, 1.1)))
    limit = cup_limit(CupClock(3000.0, 60.0, TaskKind.POUR, 0.1), 500.0, 1.1)
    for total_g, step_g in ((30.0, 0.1), (400.0, 1.0), (400.0, 0.01)):
        assert {mix.ratio for mix in cups_of(SKIN, total_g, recipe, limit, step_g)} == {0.015}
    alone = Recipe((liquid(PartKind.A, 1.0, 1.0),))
    assert cups_of(SKIN, 50.0, alone, limit, 0.1)[0].ratio is None
