"""How many casts a mold gives: the class's times each factor, reckoned by hand; the bounds' shares add as squares."""

from __future__ import annotations

from dataclasses import replace
from math import hypot, sqrt

import pytest
from made_up_job import commission, job_of

from moldwright.commission.orders import CastOrder, MoldOrder
from moldwright.plan.life import LifePlan, Wears
from moldwright.quantities.life import Strain, life_of
from moldwright.quantities.quantities import Quantities
from moldwright.ranges import Range

USUAL = Strain()


def job(count: int = 24, **mold: str) -> Quantities:
    return job_of(commission(count=count, mold=MoldOrder(**mold)))  # type: ignore[arg-type]


def life(strain: Strain, count: int = 24) -> LifePlan:
    return life_of(job(count), strain)


def test_a_usual_glove_lasts_as_its_class_but_for_what_its_tear_strength_leaves_open() -> None:
    """Silicone of 12 to 23 kN/m, usual 18: the root of two thirds below, of 23 / 18 above; class 15, 35, 80."""
    found = life(USUAL)
    assert found.of_class == Range(15.0, 35.0, 80.0)
    assert [each.of for each in found.factors] == [Wears.TEAR]
    assert found.casts.likely == 35.0
    assert found.casts.low == pytest.approx(35.0 * (1.0 - hypot(20 / 35, 1.0 - sqrt(12 / 18))))
    assert found.casts.high == pytest.approx(35.0 * (1.0 + hypot(45 / 35, sqrt(23 / 18) - 1.0)))
    assert (found.molds, found.look_after_days) == (1, 730)


@pytest.mark.parametrize(
    ("strain", "factor"),
    [
        (Strain(slit=True), 0.8),
        (Strain(thickness_mm=2.9), 0.75),
        (Strain(thickness_mm=3.0), 1.0),
        (Strain(fins=True), 0.75),
        (Strain(poured=True), 1.3),
        (Strain(slit=True, poured=True, fins=True), 0.8 * 1.3 * 0.75),
    ],
)
def test_each_thing_that_wears_it_is_a_factor(strain: Strain, factor: float) -> None:
    assert life(strain).casts.likely == pytest.approx(35.0 * factor)


def test_stretch_costs_casts_only_where_it_uses_up_the_elongation() -> None:
    """900 % at break: 4.5 times uses 350 of it, 0.389; of 0.25 to 0.75 that is 0.278 of the way to 0.4."""
    assert life(Strain(stretch=3.0)).casts.likely == 35.0
    way = (350.0 / 900.0 - 0.25) / 0.5
    assert life(Strain(stretch=4.5)).casts.likely == pytest.approx(35.0 * (1.0 - 0.6 * way))
    assert life(Strain(stretch=20.0)).casts.likely == pytest.approx(35.0 * 0.4)


def test_an_edition_takes_as_many_molds_as_its_likely_casts_ask_for() -> None:
    assert [life(USUAL, count).molds for count in (35, 36, 70, 71)] == [1, 2, 2, 3]


def test_what_is_cast_decides_first() -> None:
    """Gypsum hardly wears silicone: 40, 100, 300."""
    job = job_of(commission(cast=CastOrder(resin="modified-gypsum", powder="none", backfill="none", solid=True)))
    found = life_of(job, USUAL)
    assert found.of_class == Range(40.0, 100.0, 300.0)


def test_a_hot_thick_cast_wears_it_and_a_warm_shop_counts() -> None:
    usual = job()
    cold = life_of(usual, USUAL).heat_c
    warm = life_of(
        replace(usual, commission=replace(usual.commission, shop=replace(usual.commission.shop, temperature_c=32.0))),
        USUAL,
    ).heat_c
    assert warm.likely == pytest.approx(cold.likely + 10.0)
    dear = replace(usual.measures.cavity, volume_ml=usual.measures.cavity.volume_ml * 2.0)
    hot = life_of(replace(usual, measures=replace(usual.measures, cavity=dear)), USUAL)
    assert hot.heat_c.likely > 100.0 > cold.likely
    assert (hot.factors[-1].of, hot.casts.likely) == (Wears.HEAT, pytest.approx(28.0))
