"""Where pot lives begin to refuse, and with which figures: each bound from both sides, by hand."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from moldwright.cure.lasting import refuse_unless_it_lasts
from moldwright.cure.potlife import mass_factor, rate_ratio, shop_life
from moldwright.errors import InputRefused, NoSafePlan
from moldwright.materials import library
from moldwright.ranges import Range


@pytest.mark.parametrize(
    ("asked", "code", "actual"),
    [
        (lambda: rate_ratio(-0.5, 20, 30), "activation-not-possible", -0.5),
        (lambda: rate_ratio(1000.0, 20, 30), "activation-not-possible", 1000.0),
        (lambda: rate_ratio(50.0, -0.5, 30), "temperature-out-of-range", -0.5),
        (lambda: rate_ratio(50.0, 20, 60.5), "temperature-out-of-range", 60.5),
        (lambda: mass_factor(0.0, 100.0), "mass-not-possible", 0.0),
        (lambda: mass_factor(-0.5, 100.0), "mass-not-possible", -0.5),
        (lambda: mass_factor(100.0, 0.0), "mass-not-possible", 0.0),
        (lambda: mass_factor(100.0, -0.5), "mass-not-possible", -0.5),
    ],
)
def test_refused_with_its_figures(asked: Callable[[], object], code: str, actual: float) -> None:
    with pytest.raises(InputRefused) as refused:
        asked()
    assert (refused.value.code, refused.value.actual) == (code, actual)


def test_at_the_bound_is_taken() -> None:
    """Without activation no temperature matters; exp(E / R (1/273.15 - 1/333.15)) by hand, E = 8.314462618 J/mol."""
    assert rate_ratio(0.0, 0.0, 60.0) == 1.0
    assert rate_ratio(8.314462618, 0.0, 60.0) == pytest.approx(1.9335, abs=1e-3)
    assert rate_ratio(999.0, 20.0, 20.0) == 1.0


def test_a_lighter_cup_is_not_given_longer() -> None:
    """(m_stated / m)^(1/3) and never above 1: half a gram in half a gram, a gram in eight."""
    assert mass_factor(1.0, 100.0) == 1.0
    assert mass_factor(100.0, 100.0) == 1.0
    assert mass_factor(4.0, 0.5) == pytest.approx(0.5)
    assert mass_factor(2700.0, 100.0) == pytest.approx(1 / 3)


def test_all_of_a_materials_times_follow_its_likely_energy() -> None:
    """1 at the sheet's temperature; 60 kJ/mol from 33 to 23 degC: exp(60000 / R (1/296.15 - 1/306.15)) = 2.2165."""
    sheet = library().resin("urethane-fast")
    assert shop_life(sheet, 23.0).time_factor == 1.0
    assert shop_life(sheet, 33.0).time_factor == pytest.approx(1 / 2.2165, rel=1e-3)
    assert shop_life(sheet, 33.0).pot_life_s.likely == pytest.approx(180 / 2.2165, rel=1e-3)


def test_a_mix_must_outlast_its_stirring() -> None:
    """Both to the second, with a minute for the hand; classes that last are named where there are any."""
    life = Range(209.6, 260.0, 320.0)
    refuse_unless_it_lasts("rubber", life, 149.6, 22.0)
    for slower, said in ((("slow", "slower-yet"), "(slow, slower-yet)"), ((), "Choose a slower class, or cool")):
        with pytest.raises(NoSafePlan) as refused:
            refuse_unless_it_lasts("rubber", life, 149.7, 22.0, slower)
        assert (refused.value.actual, refused.value.limit, refused.value.unit) == (210, 210, "s")
        assert said in refused.value.remedy
