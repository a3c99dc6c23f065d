"""What a job costs: every part that is bought has its price, by weight or by volume; the mold apart from its casts."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest
from made_up_job import VOLUMES, commission, volumes

from moldwright.commission.orders import Commission, Measure, MoldOrder, ShopOrder
from moldwright.job.costs import Cost, JobCost, MoldKind, cost_of
from moldwright.job.planning import shell_settings
from moldwright.job.rough_measures import likely_measures
from moldwright.materials import library
from moldwright.mold.measures import MoldMeasures
from moldwright.original.evidence.only_volume import only_volume
from moldwright.plan.mixes import PartKind
from moldwright.plan.needs import NeedGroup
from moldwright.plan.strategies import Strategy
from moldwright.quantities.quantities import basis_of
from moldwright.ranges import Range
from moldwright.steps.other_molds import Lengths

RUBBER_PER_G = 240.0 / 7200.0
"""Of the slow addition-cure silicone: its largest pack."""
POURED = volumes(
    glove__coat_ml=(500.0,), glove__flange_ml=0.0, glove__fill_ml=0.0, glove__spots=(), glove__crevice_ml=0.0
)


def cost(order: Commission, measures: MoldMeasures = VOLUMES, kind: MoldKind | None = None) -> JobCost:
    known = library()
    basis = basis_of(order, known)
    return cost_of(order, known, basis, measures, kind) if kind else cost_of(order, known, basis, measures)


def test_both_parts_of_the_rubber_are_paid_for() -> None:
    found = cost(commission())
    parts = [need for need in found.job.needs if need.for_ is NeedGroup.RUBBER and need.kind == "rubber"]
    assert {need.part for need in parts} == {PartKind.A, PartKind.B}
    assert float(found.rubber) == pytest.approx(sum(n.amount.likely for n in parts) * RUBBER_PER_G, rel=1e-6)


def test_an_own_price_is_that_of_its_sheet() -> None:
    dear = replace(commission(), prices=(("addition-cure-a10-slow", Decimal("480.00")),))
    assert float(cost(dear).rubber) == pytest.approx(2.0 * float(cost(commission()).rubber))


def test_without_a_scale_it_costs_about_as_much() -> None:
    """Marks of 2 ml round up; the rubber's density turns volume into the weight that is sold."""
    by_marks = cost(commission(shop=ShopOrder(measure=Measure.VOLUME)))
    assert float(by_marks.rubber) == pytest.approx(float(cost(commission()).rubber), rel=0.08)


def test_casts_cost_by_their_count_and_the_mold_once() -> None:
    few, many = cost(commission(count=6)), cost(commission(count=12))
    assert few.mold.labor_min == many.mold.labor_min
    once = 2.0 * few.casts.labor_min - many.casts.labor_min
    assert 0.0 <= once <= 60.0, "what is done once at the edition's end"
    assert many.of(2) == many.mold + many.mold + many.casts
    assert Cost(60.0, Decimal("5.00")).whole(Decimal("30.00")) == Decimal("35.00")


def test_a_block_has_no_shell_and_what_it_has_instead() -> None:
    """A meter of cut more: an hour more on the mold, 5 minutes to close it and 15 to dress each cast."""
    order = commission(count=10)
    glove = cost(order)
    short, long = (cost(order, POURED, MoldKind(Strategy.BLOCK, 10.0, Lengths(80_000.0, mm))) for mm in (0.0, 1000.0))
    assert long.mold.labor_min - short.mold.labor_min == pytest.approx(60.0)
    assert long.casts.labor_min - short.casts.labor_min == pytest.approx(10 * 20.0)
    assert short.mold.labor_min < glove.mold.labor_min
    assert float(short.mold.material - short.rubber) < float(glove.mold.material - glove.rubber), "no bandage"
    assert short.mold_days <= glove.mold_days


def test_halves_wait_twice_for_their_rubber() -> None:
    order = commission(count=10)
    kinds = (MoldKind(kind, 10.0, Lengths(80_000.0)) for kind in (Strategy.BLOCK, Strategy.HALVES))
    block, halves = (cost(order, POURED, kind) for kind in kinds)
    assert halves.mold_days > block.mold_days
    assert halves.rubber == block.rubber


def test_rubber_of_a_pour_is_what_was_measured() -> None:
    found = cost(commission(), POURED, MoldKind(Strategy.JACKET, 10.0, Lengths()))
    density = 1.08
    assert found.job.rubber.coats[0].net_g == pytest.approx(500.0 * density, rel=0.01)
    assert not found.job.rubber.fill.net_g


@pytest.mark.parametrize("wall_mm", [3.0, 6.0])
@pytest.mark.parametrize("kind", Strategy)
def test_filament_is_paid_for_by_the_weight_of_the_wall(kind: Strategy, wall_mm: float) -> None:
    """`m = V rho` at the sheet's likely 1.24 g/ml, under a glove and a jacket; no block has a shell. A kilogram that
    costs 22 more makes a mold so much dearer. The rough shell of one original is as heavy as its wall is thick."""
    order = commission(mold=MoldOrder(shell="printed", printed_wall_mm=wall_mm))
    dear = replace(order, prices=(("printed", Decimal("44.00")),))
    glove = kind is Strategy.GLOVE
    coats_mm = (1.0, 1.5, 1.5) if glove else (8.0,)
    measures = _rough(order, coats_mm)
    made = None if glove else MoldKind(kind, 8.0, Lengths(80_000.0))
    more = cost(dear, measures, made).mold.material - cost(order, measures, made).mold.material
    filament_g = 1.24 * measures.shell.volume_ml if kind in (Strategy.GLOVE, Strategy.JACKET) else 0.0
    assert float(more) == pytest.approx(filament_g * 22.0 / 1000.0, abs=0.002), "needs are whole 0.1 g"
    thin = commission(mold=MoldOrder(shell="printed", printed_wall_mm=3.0))
    thin_ml = _rough(thin, coats_mm).shell.volume_ml
    assert measures.shell.volume_ml / wall_mm == pytest.approx(thin_ml / 3.0)


def _rough(order: Commission, coats_mm: tuple[float, ...]) -> MoldMeasures:
    shell = shell_settings(basis_of(order, library()).chosen.shell, order.mold)
    return likely_measures(only_volume(Range.exactly(500.0)), order.mold, 4.0, coats_mm, shell)
