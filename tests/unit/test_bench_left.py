"""What a rest of a material still covers, reckoned by hand: a coat takes 100 g of each part, a skin 50, a fill 80."""

from __future__ import annotations

from dataclasses import replace

import pytest
from tests.bench_plans import COAT_CUP, PIGMENT, POWDER, A, B, Book, at, bench_plan, coat_cup, skin_cup

from moldwright.bench.left import Lacking, WorkCover, still_covers
from moldwright.bench.run import run_state
from moldwright.log.run_events import Done, Gelled, Poured, Weighed
from moldwright.plan.ids import MixId, StepId
from moldwright.plan.mixes import MixKind, StuffKey
from moldwright.ways import as_keys

RUBBER_B, RESIN_B, METAL = StuffKey("rubber", "B"), StuffKey("resin", "B"), StuffKey("powder", "powder")


def covers(book: Book, left_g: dict[StuffKey, float]) -> tuple[WorkCover, ...]:
    plan = bench_plan()
    return still_covers(plan, run_state(plan, book.events, at(100.0)), left_g)


def test_what_does_not_run_out_covers_all() -> None:
    told = covers(Book(casts=2), {})
    assert [(each.for_.kind, each.turn) for each in told] == [
        (MixKind.COAT, 0), (MixKind.SKIN, 1), (MixKind.BACK_FILL, 1), (MixKind.SKIN, 2), (MixKind.BACK_FILL, 2),
    ]  # fmt: skip
    assert all(each.whole and each.share == 1.0 for each in told)


def test_a_coat_that_cannot_be_mixed_whole_gets_so_much_thinner() -> None:
    """60 g of B for 100: six tenths of 2 mm, 40 g lacking; A 60, pigment 0.12, to totals of 60, 60.1, 120.1."""
    coat, *_ = covers(Book(casts=0), {RUBBER_B: 60.0})
    assert not coat.whole
    assert coat.share == pytest.approx(0.6)
    assert (coat.planned_mm, coat.covered_mm) == (2.0, pytest.approx(1.2))
    assert coat.lacking == (Lacking(RUBBER_B, B, 40.0),)
    (cup,) = coat.cups
    assert cup.targets is not None
    assert {part.kind: part.mass_g for part in cup.targets.cups[0].parts} == pytest.approx(
        {B: 60.0, PIGMENT: 0.12, A: 60.0}
    )


def test_a_rest_goes_to_the_work_in_its_order() -> None:
    """180 g of the resin's B: skin 50, fill 80, skin 50 of cast 2 whole; nothing for its fill, nor for cast 3."""
    told = covers(Book(casts=3), {RESIN_B: 180.0})[1:]
    assert [each.whole for each in told] == [True, True, True, False, False, False]
    assert [each.share for each in told] == pytest.approx([1.0, 1.0, 1.0, 0.0, 0.0, 0.0])
    assert [each.lacking[0].mass_g for each in told[3:]] == [80.0, 50.0, 80.0]
    assert told[3].cups[0].refused is not None


def test_what_is_in_a_cup_or_on_the_work_needs_no_more() -> None:
    """The coat is laid, the first skin has its A and powder: its B takes 50 of 90, the fill gets 40 of 80."""
    book = Book(casts=1)
    for kind in (B, A):
        book.write(1.0, Weighed(coat_cup(), kind, 100.0, 100.0))
    book.write(2.0, Poured(coat_cup()))
    book.write(3.0, Weighed(skin_cup(1), A, 50.0, 50.0))
    book.write(4.0, Weighed(skin_cup(1), POWDER, 150.0, 150.0))
    coat, skin, fill = covers(book, {RUBBER_B: 0.0, RESIN_B: 90.0, METAL: 0.0})
    assert (coat.whole, coat.cups[0].needs_g) == (True, 0.0)
    assert (skin.whole, skin.cups[0].needs_g) == (True, 50.0)
    assert (fill.whole, fill.lacking) == (False, (Lacking(RESIN_B, B, 40.0),))
    assert fill.share == pytest.approx(0.5)


def test_a_cup_that_gelled_half_used_wants_the_other_half() -> None:
    """50 g of B are there for the 50 that the second filling takes."""
    book = Book(casts=0)
    for kind in (B, A):
        book.write(1.0, Weighed(coat_cup(), kind, 100.0, 100.0))
    book.write(50.0, Gelled(coat_cup(), 0.5))
    (coat,) = covers(book, {RUBBER_B: 50.0})
    assert [(each.cup.filling, each.planned, each.whole) for each in coat.cups] == [(1, 0.5, True), (2, 0.5, True)]
    assert coat.share == 1.0
    (short,) = covers(book, {RUBBER_B: 20.0})
    assert short.share == pytest.approx(0.5 + 0.2)
    assert short.covered_mm == pytest.approx(1.4)


def test_what_was_done_without_a_weighing_counts_as_done() -> None:
    book = Book(casts=0)
    book.write(1.0, Done(StepId("coat-1-mix")))
    (coat,) = covers(book, {RUBBER_B: 0.0})
    assert (coat.whole, coat.cups[0].cup.mix) == (True, COAT_CUP)


def test_too_much_of_the_first_part_for_the_rest_of_the_second_is_refused_with_what_to_take_out() -> None:
    """100 g of B are in; of A 80 are left: 20 of B are too much, and nothing reacts yet."""
    book = Book(casts=0)
    book.write(1.0, Weighed(coat_cup(), B, 100.0, 100.0))
    (coat,) = covers(book, {StuffKey("rubber", "A"): 80.0})
    (cup,) = coat.cups
    assert cup.refused is not None
    assert cup.refused.code == "too-little-left"
    assert "20 g of B" in as_keys(cup.refused.remedy)


def test_a_coat_of_two_cups_of_which_one_can_be_mixed_is_half_as_thick() -> None:
    """100 g of B for two cups of 100: one whole, of the other nothing; 1 of 2 mm."""
    plan = bench_plan()
    second = replace(plan.mixes[0], id=MixId("coat-1.cup-2"), cup=2)
    step = next(each for each in plan.steps if COAT_CUP in each.mixes)
    steps = tuple(replace(s, mixes=(COAT_CUP, second.id)) if s is step else s for s in plan.steps)
    two = replace(plan, mixes=(plan.mixes[0], second, *plan.mixes[1:]), steps=steps)
    (coat,) = still_covers(two, run_state(two, Book(casts=0).events, at(1.0)), {RUBBER_B: 100.0})
    assert [each.whole for each in coat.cups] == [True, False]
    assert (coat.share, coat.covered_mm) == (0.5, 1.0)
