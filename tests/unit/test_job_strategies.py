"""Kinds of mold side by side, on made-up measures: what is barred and why, what is cut, what a longer edition does."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest
from made_up_job import VOLUMES, commission, holes, volumes

from moldwright.commission.orders import MoldOrder
from moldwright.job.costs import cost_by, cost_of
from moldwright.job.formed import Formed, Halves
from moldwright.job.searched import Searched, Tried
from moldwright.job.strategies import hook_mm, strategies_of
from moldwright.materials import library
from moldwright.mold.kinds import Block, Locked, Slim
from moldwright.mold.measures import MoldMeasures
from moldwright.plan.peel import PeelFound, PeelPlan, PeelShape, PeelWay, SlitPlan, TightPlace
from moldwright.plan.seam import SeamPlan
from moldwright.plan.strategies import StrategiesPlan, Strategy, StrategyPlan
from moldwright.quantities.quantities import basis_of
from moldwright.ranges import Range

JACKET = Tried(tuple(Searched(n, n, Range.exactly(5.0), 0.0, 500.0, 12.0, False, VOLUMES) for n in (2,)))
FORMED = Formed(
    slim=Slim(0.0, 0.0),
    jacket_mm=9.0,
    jacket=JACKET,
    block=Block(15.0, False, 180.0, 150.0, 205.0, 3000.0),
    locked=Locked(0.0, 0.0),
    slender=1.0,
    halves=Halves(Block(20.0, False, 190.0, 160.0, 210.0, 3600.0), 0.0, 600.0),
)


def kinds(
    formed: Formed = FORMED,
    measures: MoldMeasures = VOLUMES,
    count: int = 24,
    stretch: float = 1.0,
    slit: bool = False,
    **mold: Any,
) -> StrategiesPlan:
    order, known = commission(count=count, mold=MoldOrder(**mold)), library()
    return strategies_of(order, known, basis_of(order, known), measures, formed, peeled(stretch, slit))


def peeled(stretch: float, slit: bool = False) -> PeelFound:
    """How a glove comes off that is stretched so far; slit, so that it is not."""
    tight = TightPlace((0.0, 0.0, 88.0), 96.0, 150.0, 0.0, 150.0 * stretch, stretch)
    plan = PeelPlan(PeelWay.SLIT if slit else PeelWay.ROLL, 3.27, PeelShape(stretch, 210.0, (tight,), 13.0, 0.1))
    return PeelFound(
        plan, SlitPlan(150.0, 150.0, 1.0, ((0.0, 0.0, 90.0),), SeamPlan((), (), 10.0, 40.0)) if slit else None
    )


def why(row: StrategyPlan) -> list[str]:
    return [each.line.say.removeprefix("mold-kind.") for each in row.barred]


def risks(row: StrategyPlan) -> list[str]:
    return [each.line.say.removeprefix("mold-kind.") for each in row.risks]


def test_every_kind_has_a_row_and_the_cheapest_that_can_be_made_is_recommended() -> None:
    found = kinds()
    assert [row.strategy for row in found.rows] == list(Strategy)
    assert all(row.possible for row in found.rows)
    assert found.cheapest.whole(found.hour) == min(row.whole(found.hour) for row in found.rows)
    assert found.recommended is found.cheapest.strategy is Strategy.BLOCK


def test_the_planned_kind_stays_where_another_is_cheaper_by_a_twentieth_or_less() -> None:
    """Rubber of the block is bought till it costs nearly as much as the glove."""
    dear = kinds(replace(FORMED, block=replace(FORMED.block, rubber_ml=4_000.0)), count=12)
    planned = dear.of(Strategy.GLOVE).whole(dear.hour)
    assert planned / 105 * 100 <= dear.cheapest.whole(dear.hour) < planned
    assert dear.recommended is Strategy.GLOVE


def test_the_more_rubber_a_block_takes_the_sooner_a_glove_is_cheaper() -> None:
    huge = replace(FORMED.block, rubber_ml=40_000.0)
    found = kinds(replace(FORMED, block=huge, halves=Halves(huge, 0.0, 600.0)))
    assert found.recommended is Strategy.GLOVE
    assert "heavy" in risks(found.of(Strategy.BLOCK))
    assert found.of(Strategy.BLOCK).rubber_ml == pytest.approx(40_000.0)


def test_rubber_that_dries_is_brushed_and_nothing_else() -> None:
    found = kinds(rubber="latex", release="none")
    assert found.recommended is Strategy.GLOVE
    assert [why(row)[:1] for row in found.rows] == [[], ["dries"], ["dries"], ["dries"]]


def test_a_block_is_cut_where_something_locks_or_it_is_slender() -> None:
    """190 mm of piece on 12 of plinth: all of it where it is slender, half at least where it locks low."""
    assert kinds().of(Strategy.BLOCK).cut_mm == 0.0
    assert kinds(replace(FORMED, slender=2.1)).of(Strategy.BLOCK).cut_mm == 202.0
    low, high = (kinds(replace(FORMED, locked=Locked(50.0, upto))).of(Strategy.BLOCK) for upto in (40.0, 150.0))
    assert (low.cut_mm, high.cut_mm) == (101.0, 150.0)
    assert kinds(stretch=1.3).of(Strategy.BLOCK).cut_mm == 101.0
    assert risks(low)[:1] == ["cut"]


def test_what_hooks_farther_than_rubber_gives_way_bars_both_blocks() -> None:
    """A fiftieth of 560 ml is 11.2."""
    hooked = replace(FORMED, locked=Locked(80.0, 150.0), halves=Halves(FORMED.block, 11.3, 600.0))
    found = kinds(hooked)
    assert [why(row) for row in found.rows] == [[], [], ["locked"], ["locked"]]
    none = kinds(replace(FORMED, halves=None))
    assert [why(row) for row in none.rows] == [[], [], [], ["no-parting"]]


def test_rings_are_cut_through_as_long_as_they_are_few() -> None:
    for widths, barred in (((30.0,), []), ((30.0, 30.0, 30.0), ["webs"])):
        found = kinds(replace(FORMED, slender=3.0), volumes(piece__holes=holes(*widths))).of(Strategy.BLOCK)
        assert why(found) == barred
        assert "web" in risks(found)


def test_glove_and_jacket_are_slit_as_the_peel_tells() -> None:
    """A slit leaves 0.8 of 35 casts, of a jacket's 45.5."""
    whole, slit = kinds(stretch=2.0), kinds(stretch=4.5, slit=True)
    for each in (Strategy.GLOVE, Strategy.JACKET):
        assert "slit" not in risks(whole.of(each))
        assert "slit" in risks(slit.of(each))
        assert slit.of(each).life.likely == pytest.approx(0.8 * whole.of(each).life.likely)


def test_a_slit_is_work_at_every_cast_of_glove_and_jacket_and_none_of_a_block() -> None:
    """150 mm of slit and line: a mold takes 15 + 7.5 minutes, each of 24 casts 1.5 (0.5 + 0.2 + 1.5) = 3.3 more."""
    whole, slit = kinds(stretch=2.0), kinds(stretch=2.0, slit=True)
    for each in (Strategy.GLOVE, Strategy.JACKET):
        more = slit.of(each).labor_min - whole.of(each).labor_min
        assert more == pytest.approx(22.5 + 24 * 3.3, abs=6.0)
    assert slit.of(Strategy.BLOCK).labor_min == whole.of(Strategy.BLOCK).labor_min


def test_a_jacket_thicker_than_its_rubber_peels_is_barred() -> None:
    assert why(kinds(replace(FORMED, jacket_mm=13.5)).of(Strategy.JACKET)) == ["stiff"]


def test_what_pieces_cost_counts_every_glove_of_the_edition() -> None:
    """Of a glove come 35 casts: the 36th asks for another one, so for a whole mold more than any other cast does."""
    known = library()
    labor_min, molds_min = {}, {}
    for count in (34, 35, 36):
        order = commission(count=count)
        basis = basis_of(order, known)
        labor_min[count] = cost_by(order, known, basis)(VOLUMES).labor_min
        molds_min[count] = cost_of(order, known, basis, VOLUMES).mold.labor_min
    usual_min, next_min = labor_min[35] - labor_min[34], labor_min[36] - labor_min[35]
    assert molds_min[36] > 60.0
    assert next_min - usual_min == pytest.approx(molds_min[36], abs=10.0)


def test_an_edition_that_outlives_a_mold_pays_for_the_next() -> None:
    """A glove gives 35 casts, a poured jacket 45.5: of 40 the glove is made twice."""
    few, many = kinds(count=34), kinds(count=40)
    assert [few.of(each).molds for each in (Strategy.GLOVE, Strategy.JACKET)] == [1, 1]
    assert [many.of(each).molds for each in (Strategy.GLOVE, Strategy.JACKET)] == [2, 1]
    assert many.of(Strategy.GLOVE).whole(many.hour) > many.of(Strategy.JACKET).whole(many.hour)


def test_soft_rubber_gives_way_farther() -> None:
    """In proportion to softness: 0.4127 MPa at Shore A 10, 0.7319 at 20 (Gent)."""
    soft, firm = (hook_mm(library().rubber(f"addition-cure-a{shore}-slow")) for shore in (10, 20))
    assert soft == pytest.approx(5.0)
    assert firm == pytest.approx(5.0 * 0.4127 / 0.7319, rel=1e-3)
