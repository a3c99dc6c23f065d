"""Cups: arithmetic by hand."""

import pytest

from moldwright.errors import InputRefused, NoSafePlan
from moldwright.mixing.cup import cup_limit, equal_cups
from moldwright.mixing.cups import cups_of
from moldwright.mixing.recipe import Recipe, liquid, rubber_recipe
from moldwright.mixing.scale_steps import apportion, steps_of


def test_the_pot_life_limits_the_cup() -> None:
    """18 min less 3 min of mixing, at 25 g/min: 375 g; the cup itself takes 0.75 x 500 x 1.08 = 405 g."""
    limit = cup_limit("rubber", 1080, 180, 25, 500, 1.08)
    assert (limit.max_g, limit.set_by) == (pytest.approx(375), "pot life")


def test_the_cup_limits_the_cup() -> None:
    limit = cup_limit("rubber", 3600, 180, 25, 200, 1.08)
    assert (limit.max_g, limit.set_by) == (pytest.approx(162), "cup")


def test_a_mix_that_heats_itself_has_less_time_in_a_heavier_cup() -> None:
    """Surface per mass of a cup of one shape falls as m^(-1/3): eight times the stated mass, half the pot life."""
    limit = cup_limit("resin", 800, 0, 1e6, 2000 / 1.5, 0.8, stated_g=100)
    assert (limit.max_g, limit.set_by) == (pytest.approx(800), "cup")
    assert limit.work_by_s == pytest.approx(400)
    assert limit.work_by_of(100) == limit.work_by_of(20) == pytest.approx(800)


def test_the_heaviest_cup_that_is_still_in_time() -> None:
    """Laid at 100 g/min after 60 s: its last gram goes on exactly when the pot life of that very mass is over."""
    limit = cup_limit("resin", 600, 60, 100, 1e5, 1.0, stated_g=100)
    assert limit.set_by == "pot life"
    assert 60 + limit.max_g * 60 / 100 == pytest.approx(600 * (100 / limit.max_g) ** (1 / 3), rel=1e-9)
    assert limit.work_by_s == pytest.approx(60 + limit.max_g * 60 / 100)


def test_rubber_that_gels_while_it_is_mixed_has_no_safe_plan() -> None:
    with pytest.raises(NoSafePlan) as refused:
        cup_limit("fast rubber", 150, 180, 25, 500, 1.08)
    assert (refused.value.code, refused.value.actual, refused.value.limit) == ("pot-life-too-short", 150, 180)
    assert "slower" in refused.value.remedy
    assert "cool" in refused.value.remedy


def test_equal_cups_sum_exactly() -> None:
    assert equal_cups(410.0, 260.0, 0.1) == (205.0, 205.0)
    assert equal_cups(0.3, 0.2, 0.1) == (0.2, 0.1)
    assert equal_cups(0.0, 260.0, 0.1) == ()


def test_a_cup_below_the_scales_step_is_refused() -> None:
    with pytest.raises(NoSafePlan) as refused:
        equal_cups(10.0, 0.5, 1.0)
    assert refused.value.code == "cup-below-scale"


def test_hundreds_of_cups_are_no_plan() -> None:
    with pytest.raises(NoSafePlan) as refused:
        equal_cups(100_000.0, 100.0, 1.0)
    assert (refused.value.code, refused.value.actual) == ("too-many-cups", 1000)


def test_order_of_the_parts() -> None:
    """Pigment into one part (B is usual) before the parts meet: common practice, no source."""
    a, b, color, thick = (liquid(n, s, 1.1) for n, s in (("A", 0.49), ("B", 0.49), ("pigment", 0.01), ("thix", 0.01)))
    assert [p.name for p in rubber_recipe(a, b, color, thick).ingredients] == ["B", "pigment", "A", "thix"]
    assert [p.name for p in rubber_recipe(a, b, color, thick, "A").ingredients] == ["A", "pigment", "B", "thix"]
    assert [p.name for p in rubber_recipe(a, None, color, None).ingredients] == ["A", "pigment"]


def test_running_totals_are_what_the_scale_can_show() -> None:
    mix = Recipe((liquid("A", 100, 1.05), liquid("B", 33.3, 1.1)), ("A", "B"))
    cup = cups_of(50.0, mix, cup_limit("x", 3600, 0, 100, 500, 1.0), 0.5)[0]
    reads = [part.scale_reads_g for part in cup.parts]
    assert reads == [37.5, 50.0]
    assert [part.mass_g for part in cup.parts] == [37.5, 12.5]
    assert cup.parts[0].volume_ml == pytest.approx(37.5 / 1.05, abs=0.005)


def test_a_cups_tolerance_is_that_of_what_is_weighed_in_it() -> None:
    """Shares on any scale: 2 : 0.4 : 2 in a cup of 22 g is 10 g, 2 g and 10 g. A step of 0.1 g at k = 2, by JCGM
    100:2008, F.2.2.1 (from memory): 2 sqrt(2 (0.1 / sqrt 6)^2 / 10^2 + 0.1^2 / (6 x 10 x 10)) = 1.414 %."""
    mix = Recipe((liquid("A", 2, 1.0), liquid("tint", 0.4, 1.0), liquid("B", 2, 1.0)), ("A", "B"))
    cup = cups_of(22.0, mix, cup_limit("x", 3600, 0, 100, 500, 1.0), 0.1)[0]
    assert [part.mass_g for part in cup.parts] == pytest.approx([10.0, 2.0, 10.0])
    assert cup.tolerance_pct == pytest.approx(1.414, abs=0.001)


def test_the_smallest_batch_counts_its_ratio_and_its_other_parts() -> None:
    """10 : 1 at 0.1 g within 2 %, as a running total: 47.3 g of A and B, by JCGM 100:2008, F.2.2.1 (from memory); with
    a third of the cup powder, 47.3 x 1.5 = 71.0 g. 1 : 1 needs only 2 sqrt(8/6 + 4/6) 0.1 / 0.02 = 14.1 g."""
    limit = cup_limit("x", 3600, 0, 100, 500, 1.0)
    ten = Recipe((liquid("A", 10, 1.0), liquid("B", 1, 1.0)), ("A", "B"))
    filled = Recipe((liquid("A", 10, 1.0), liquid("powder", 5.5, 1.0), liquid("B", 1, 1.0)), ("A", "B"))
    even = Recipe((liquid("A", 1, 1.0), liquid("B", 1, 1.0)), ("A", "B"))
    least = [cups_of(100.0, mix, limit, 0.1)[0].smallest_batch_g for mix in (ten, filled, even)]
    assert least == pytest.approx([47.3, 71.0, 14.14], abs=0.05)


def test_mixture_density_in_the_cup() -> None:
    """2:1 by volume at 1.05 and 1.22 is 2.10 : 1.22 = 100 : 58.10 by weight, by hand: 3.32 g in 3 ml."""
    mix = Recipe((liquid("A", 100, 1.05), liquid("B", 58.0952, 1.22)), ("A", "B"))
    assert mix.density_g_ml == pytest.approx(3.32 / 3, rel=1e-5)


def test_unphysical_is_refused() -> None:
    with pytest.raises(InputRefused):
        apportion(10, (0.0, 0.0))
    with pytest.raises(InputRefused):
        steps_of(1.0, 0.0)
    with pytest.raises(InputRefused):
        cup_limit("x", 100, 10, 0, 500, 1)
