"""Which packed places have a number, and what is told of the others: sums by hand."""

from __future__ import annotations

from math import fsum

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from made_up_job import commission, job_of

from moldwright.mold.measures import FillSpot, GloveMeasures, SpotKind
from moldwright.plan.ids import CoatId, coat_id
from moldwright.plan.mold import PartPlan, SmallSpots, SpotPlan
from moldwright.quantities.spots import spot_plans
from moldwright.ranges import Range

DENSITY_G_ML = 1.08
SIZES_ML = (("crevice", 1.2), ("crevice", 0.3), ("crevice", 0.05), ("undercut", 5.0), ("undercut", 0.09))


Told = tuple[tuple[SpotPlan, ...], tuple[SmallSpots, ...]]
FILL = PartPlan(8.0, 8.0 * DENSITY_G_ML, Range.exactly(9.0))


def told(scale_g: float, crevices_after: int = 2) -> Told:
    """A fill of 8 ml, 2 of them in crevices: 1.55 and 5.09 ml in places, the rest in films."""
    spots = tuple(FillSpot((float(n), 0.0, 9.0), 2.0, ml, SpotKind(kind)) for n, (kind, ml) in enumerate(SIZES_ML))
    glove = GloveMeasures((24.5, 58.1, 84.0), 32.0, 8.0, spots, 2.0)
    return spot_plans(glove, FILL, after(crevices_after, 3), scale_g)


def after(crevices: int, undercuts: int) -> dict[SpotKind, CoatId]:
    return {SpotKind.CREVICE: coat_id(crevices), SpotKind.UNDERCUT: coat_id(undercuts)}


@pytest.mark.parametrize(("scale_g", "told_ml"), [(0.01, [1.2, 0.3, 5.0]), (0.1, [1.2, 0.3, 5.0]), (1.0, [1.2, 5.0])])
def test_what_the_scale_does_not_show_has_no_number(scale_g: float, told_ml: list[float]) -> None:
    """0.3 ml weigh 0.32 g; below a tenth of a milliliter nothing has one."""
    spots, _ = told(scale_g)
    assert [spot.volume_ml for spot in spots] == pytest.approx(told_ml)
    assert [spot.id for spot in spots] == [f"spot-{n}" for n in range(1, len(told_ml) + 1)]
    assert [spot.at[0] for spot in spots] == [[ml for _, ml in SIZES_ML].index(ml) for ml in told_ml]


@pytest.mark.parametrize("scale_g", [0.01, 0.1, 1.0, 20.0])
def test_spots_and_small_ones_are_the_fill(scale_g: float) -> None:
    every = [each for part in told(scale_g) for each in part]
    assert fsum(each.volume_ml for each in every) == pytest.approx(8.0, abs=1e-12)
    assert fsum(each.net_g for each in every) == pytest.approx(8.0 * DENSITY_G_ML, abs=1e-9)


def test_small_ones_are_told_by_the_coat_that_they_follow() -> None:
    """Crevices: 2 - 1.2 - 0.3 ml, one place among them; undercuts: 6 - 5 ml, one place."""
    crevices, undercuts = told(0.1)[1]
    assert (crevices.after, crevices.count, crevices.volume_ml) == ("coat-2", 1, pytest.approx(0.5))
    assert (undercuts.after, undercuts.count, undercuts.volume_ml) == ("coat-3", 1, pytest.approx(1.0))
    assert (crevices.net_g, undercuts.net_g) == (pytest.approx(0.54, abs=1e-3), pytest.approx(1.08, abs=1e-3))


def test_where_both_kinds_follow_one_coat_they_are_one_line() -> None:
    (small,) = told(0.1, crevices_after=3)[1]
    assert (small.after, small.count, small.volume_ml) == ("coat-3", 2, pytest.approx(1.5))


def test_what_a_job_packs_it_weighs() -> None:
    """The made-up mold's fill is 7 and 4 ml, all of it in two places."""
    made = job_of(commission()).rubber
    assert fsum(spot.net_g for spot in made.spots) == pytest.approx(made.fill.net_g)
    assert made.small_g(coat_id(2)) == made.small_g(coat_id(3)) == pytest.approx(0.0, abs=1e-3)


ML = st.floats(0.0, 50.0)


@settings(max_examples=200, deadline=None)
@given(crevices=st.lists(ML, max_size=4), undercuts=st.lists(ML, max_size=4), film=ML, share=st.floats(0, 1))
def test_no_place_has_more_than_there_is(
    crevices: list[float], undercuts: list[float], film: float, share: float
) -> None:
    """Solids may hold a little more than their fill: what is told never does."""
    kinds = ((SpotKind.CREVICE, crevices), (SpotKind.UNDERCUT, undercuts))
    spots = tuple(FillSpot((0.0, 0.0, 9.0), 2.0, ml, kind) for kind, every in kinds for ml in every)
    fill_ml = 0.98 * (sum(crevices) + sum(undercuts)) + film
    fill = PartPlan(fill_ml, round(DENSITY_G_ML * fill_ml, 4), Range.exactly(0.0))
    glove = GloveMeasures((1.0, 1.0), 1.0, fill_ml, spots, share * fill_ml)
    found = [each for part in spot_plans(glove, fill, after(1, 2), 0.1) for each in part]
    assert fsum(each.volume_ml for each in found) == pytest.approx(fill_ml, abs=1e-9)
    assert fsum(each.net_g for each in found) == pytest.approx(fill.net_g, abs=1e-3)  # rounded to 0.1 mg each
    assert all(each.net_g >= -2e-3 and each.volume_ml >= 0 for each in found)
