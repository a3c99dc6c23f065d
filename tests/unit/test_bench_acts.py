"""The acts of a run and what each needs, laid out by hand for the small plan."""

from __future__ import annotations

from tests.bench_plans import MOLD_STEPS, bench_plan

from moldwright.bench.acts import Act, PlannedAct, planned_acts
from moldwright.plan.ids import StepId

EACH = ("wash", "seat", "skin", "fill", "set", "demold", "flash", "wax")


def names(acts: tuple[PlannedAct, ...]) -> list[tuple[str, int]]:
    return [(each.act.step, each.act.turn) for each in acts]


def needs(acts: tuple[PlannedAct, ...]) -> dict[tuple[str, int], list[tuple[str, int]]]:
    return {(each.act.step, each.act.turn): [(need.step, need.turn) for need in each.needs] for each in acts}


def test_acts_come_in_the_order_of_the_work_and_the_first_cast_is_approved_within_its_own() -> None:
    mold = [(step, 0) for step in MOLD_STEPS]
    first = [("powder-dry", 1), *((step, 1) for step in EACH), ("approve", 0), ("pack", 1), ("rest", 1), ("clean", 1)]
    second = [("powder-dry", 2), *((step, 2) for step in EACH), ("pack", 2), ("rest", 2), ("clean", 2)]
    assert names(planned_acts(bench_plan(), 2)) == [*mold, *first, *second, ("store", 0)]


def test_what_is_done_once_a_batch_comes_with_its_first_cast_or_with_its_last() -> None:
    """Five casts in batches of two: 1 2, 3 4, 5."""
    told = names(planned_acts(bench_plan(), 5, batch=2))
    assert [turn for step, turn in told if step == "powder-dry"] == [1, 3, 5]
    assert [turn for step, turn in told if step == "rest"] == [2, 4, 5]


def test_a_run_from_a_mold_of_the_shelf_makes_none() -> None:
    told = names(planned_acts(bench_plan(), 1, mold_stands=True))
    assert told[0] == ("powder-dry", 1)
    assert not [step for step, _ in told if step in MOLD_STEPS]
    assert ("approve", 0) in told
    assert ("store", 0) in told


def test_a_run_without_casts_makes_the_mold_and_ends() -> None:
    assert names(planned_acts(bench_plan(), 0)) == [*((step, 0) for step in MOLD_STEPS), ("store", 0)]


def test_the_next_cast_needs_the_mold_and_not_the_dressing_of_the_one_before() -> None:
    told = needs(planned_acts(bench_plan(), 3))
    assert told["release", 0] == [("receive", 0)]
    assert told["wash", 1] == told["powder-dry", 1] == [("cure", 0)]
    assert told["skin", 1] == [("seat", 1), ("powder-dry", 1)]
    assert told["flash", 1] == told["rest", 1] == [("demold", 1)]
    assert told["clean", 1] == [("rest", 1)]
    assert told["wash", 2] == told["powder-dry", 2] == [("clean", 1)]
    assert told["flash", 2] == [("demold", 2)]
    assert told["pack", 2] == [("wax", 2)]


def test_no_second_cast_is_poured_before_the_first_is_approved() -> None:
    told = needs(planned_acts(bench_plan(), 3))
    assert told["approve", 0] == [("wax", 1)]
    assert told["pack", 1] == [("approve", 0)]
    assert told["skin", 2] == [("seat", 2), ("powder-dry", 2), ("approve", 0)]
    assert told["skin", 3] == [("seat", 3), ("powder-dry", 3)]


def test_within_a_batch_the_next_cast_needs_the_one_before_out_of_the_mold() -> None:
    told = needs(planned_acts(bench_plan(), 2, batch=2))
    assert told["wash", 2] == [("demold", 1)]
    assert told["skin", 2] == [("seat", 2), ("approve", 0)]


def test_what_is_done_at_the_end_needs_every_cast_dressed() -> None:
    told = needs(planned_acts(bench_plan(), 3))
    assert told["store", 0] == [("clean", 3), ("pack", 1), ("pack", 2), ("pack", 3)]


def test_an_act_is_known_by_step_and_cast() -> None:
    assert Act(StepId("skin"), 2) == Act(StepId("skin"), 2) != Act(StepId("skin"), 3)
