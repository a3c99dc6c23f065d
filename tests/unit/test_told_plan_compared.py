"""Two plans beside each other: compared by their values, told in the reader's words."""

from __future__ import annotations

from dataclasses import replace

import pytest
from conftest import Job

from moldwright.job.planning import make_plan
from moldwright.materials import library
from moldwright.plan.cast import CastWay
from moldwright.plan.plan import Plan
from moldwright.progress import silent
from moldwright.ranges import Range
from moldwright.told.plan_compared import FigurePair, plans_compared
from moldwright.told.plan_figures import FigureGroup, plan_figures
from moldwright.units.system import UnitSystem


@pytest.fixture
def plan(small_job: Job) -> Plan:
    return small_job.planned.plan


def changes(before: Plan, after: Plan) -> dict[str, tuple[str | None, str | None]]:
    return {pair.name: (pair.before, pair.after) for pair in plans_compared(before, after).changes}


def test_one_plan_has_nothing_to_tell_of_itself(plan: Plan) -> None:
    both = plans_compared(plan, plan)
    assert both.nothing
    assert len(both.pairs) == len(plan_figures(plan))


def test_a_figure_that_is_another_is_told_before_and_after(plan: Plan) -> None:
    told = changes(plan, replace(plan, temperature_c=28.0, count=3))
    assert told == {"Shop's temperature": ("22 °C", "28 °C"), "Casts": (str(plan.count), "3")}


def test_it_is_told_in_the_reader_s_units(plan: Plan) -> None:
    one = replace(plan, units=UnitSystem.US)
    assert changes(one, replace(one, temperature_c=28.0)) == {"Shop's temperature": ("72 °F", "82 °F")}


def test_what_no_scale_shows_is_no_change(plan: Plan) -> None:
    cast = replace(plan.cast, mass_g=plan.cast.mass_g * (1.0 + 1e-9))
    assert plans_compared(plan, replace(plan, cast=cast)).nothing


def test_what_reads_the_same_is_no_change(plan: Plan) -> None:
    """A hundredth of a millimeter of seam is in no printed figure."""
    shell = replace(plan.shell, seam_mm=round(plan.shell.seam_mm) + 0.01)
    assert plans_compared(
        replace(plan, shell=replace(shell, seam_mm=round(shell.seam_mm))), replace(plan, shell=shell)
    ).nothing


def test_a_wider_range_is_a_change_though_its_likely_value_stays(plan: Plan) -> None:
    mass = plan.cast.mass_g
    wider = replace(plan.cast, mass_g=Range(mass.low * 0.5, mass.likely, mass.high))
    assert set(changes(plan, replace(plan, cast=wider))) == {"Finished piece"}


def test_a_coat_more_changes_what_hangs_on_it_alone(plan: Plan) -> None:
    """One coat is left out: it is gone, the sum and the thickness are less; nothing is told of cast and shell."""
    first, *rest = plan.glove.coats
    told = plans_compared(plan, replace(plan, glove=replace(plan.glove, coats=tuple(rest))))
    gone = [pair for pair in told.changes if pair.after is None]
    assert [pair.name for pair in gone] == [f"Coat 1, {first.name}"]
    assert {pair.group for pair in told.changes} == {FigureGroup.ASKED, FigureGroup.RUBBER}


def test_steps_that_go_are_told_by_their_titles(plan: Plan) -> None:
    fewer = replace(plan, steps=plan.steps[:-1])
    told = plans_compared(plan, fewer)
    assert len(told.steps_gone) == 1
    assert plans_compared(fewer, plan).steps_new == told.steps_gone


def test_what_a_plan_has_no_more_is_told_as_gone(plan: Plan) -> None:
    filled, solid = (replace(plan, cast=replace(plan.cast, way=way)) for way in (CastWay.FILLED, CastWay.SOLID))
    found = next(pair for pair in plans_compared(filled, solid).changes if pair.name == "Back-fill")
    assert isinstance(found, FigurePair)
    assert found.before is not None
    assert found.after is None


def test_a_warmer_shop_leaves_less_time_and_the_solids_alone(small_job: Job, plan: Plan) -> None:
    """Rubber cures faster when it is warmer (Arrhenius 1889): less time at each cup. Solids stay."""
    order = replace(small_job.order, shop=replace(small_job.order.shop, temperature_c=24.0))
    warm = make_plan(order, small_job.scan, library(), small_job.store, silent).plan
    told = plans_compared(plan, warm)
    before, after = (next(each.value for each in plan_figures(one) if each.key == ("work-by",)) for one in (plan, warm))
    assert isinstance(before, float)
    assert isinstance(after, float)
    assert after < before
    assert not {pair.name for pair in told.changes} & {"Seam", "Packed into undercuts", "Wall", "Thickness"}
