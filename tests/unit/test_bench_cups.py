"""Cups at the bench: masses, totals and clocks, reckoned beside each check."""

from __future__ import annotations

import pytest
from tests.bench_plans import COAT_CUP, PIGMENT, POWDER, A, B, Book, at, bench_plan, coat_cup, skin_cup

from moldwright.bench.cup_now import ClockStage, CupNow, CupState, PartState
from moldwright.bench.findings import Found
from moldwright.bench.run import run_state
from moldwright.log.ids import LotId
from moldwright.log.run_events import CupRef, CupTemperature, Divided, Done, Ended, Gelled, Poured, Weighed
from moldwright.plan.ids import MixId, StepId
from moldwright.plan.mixes import PartKind


def weigh(book: Book, minute: float, ref: CupRef, kind: PartKind, mass_g: float, **more: object) -> None:
    book.write(minute, Weighed(ref, kind, mass_g, mass_g, **more))  # type: ignore[arg-type]


def cup(book: Book, minute: float, ref: CupRef) -> CupNow:
    found = run_state(bench_plan(), book.events, at(minute)).cup(ref)
    assert found is not None
    return found


def found(book: Book, minute: float) -> list[Found]:
    """What is found of cups; acts are written only as far as a test needs them."""
    return [each.code for each in run_state(bench_plan(), book.events, at(minute)).findings if each.cup]


def reads(told: CupNow) -> dict[PartKind, float]:
    return {part.kind: part.reads_g for part in told.parts}


def states(told: CupNow) -> list[PartState]:
    return [part.state for part in told.parts]


def test_every_planned_cup_is_told_with_the_totals_of_its_card() -> None:
    state = run_state(bench_plan(), Book(casts=2).events, at(0.0))
    planned = [(cup.ref.mix, cup.ref.turn) for cup in state.cups]
    assert planned[0] == (COAT_CUP, 0)
    assert planned[1:] == [("skin.cup-1", 1), ("back-fill.cup-1", 1), ("skin.cup-1", 2), ("back-fill.cup-1", 2)]
    first = state.cups[0]
    assert (first.state, first.clock, first.share) == (CupState.TO_WEIGH, None, 1.0)
    assert reads(first) == {B: 100.0, PIGMENT: 100.2, A: 200.2}
    assert first.next == first.parts[0]


def test_the_next_total_goes_on_from_what_is_in() -> None:
    """100.3 g of B are within 0.8 % of 100: A follows to 100.3 + 0.2 (pigment) + 100 = 200.5 g."""
    book = Book()
    weigh(book, 1.0, coat_cup(), B, 100.3)
    told = cup(book, 2.0, coat_cup())
    assert states(told) == [PartState.RIGHT, PartState.TO_COME, PartState.TO_COME]
    assert reads(told)[A] == 200.5
    assert (told.state, told.next.kind) == (CupState.FILLING, PIGMENT)  # type: ignore[union-attr]
    weigh(book, 3.0, coat_cup(), A, 100.0)
    told = cup(book, 4.0, coat_cup())
    assert states(told) == [PartState.RIGHT] * 3
    assert (told.state, told.next) == (CupState.RIGHT, None)


def test_the_next_total_goes_on_from_what_the_scale_showed() -> None:
    """The scale showed 112.0 with 100.0 in: the cup was not zeroed by 12.0; A to 12 + 100 + 0.2 + 100 = 212.2 g."""
    book = Book()
    weigh(book, 1.0, coat_cup(), B, 100.0, reads_g=112.0)
    assert reads(cup(book, 2.0, coat_cup()))[A] == 212.2
    weigh(book, 2.0, coat_cup(), PIGMENT, 0.2, reads_g=0.2)
    assert reads(cup(book, 2.0, coat_cup()))[A] == 100.2


def test_a_part_that_is_too_little_is_short_and_topped_up() -> None:
    """97 of 100 g: short by 3, to a total of 100."""
    book = Book()
    weigh(book, 1.0, coat_cup(), B, 97.0)
    told = cup(book, 2.0, coat_cup())
    assert (told.next.kind, told.next.state, told.next.reads_g) == (B, PartState.SHORT, 100.0)  # type: ignore[union-attr]
    assert told.next.add_g == pytest.approx(3.0)  # type: ignore[union-attr]
    weigh(book, 3.0, coat_cup(), B, 3.0, lot=LotId("x"))  # type: ignore[arg-type]
    assert cup(book, 4.0, coat_cup()).parts[0].in_g == pytest.approx(100.0)
    assert cup(book, 4.0, coat_cup()).parts[0].lots == ("x",)


def test_more_of_the_first_part_raises_the_targets_of_the_others() -> None:
    """60 g of A instead of 50: 1.2 times; powder within 5 % of 180 at the least, B 60."""
    book = Book(casts=1)
    weigh(book, 1.0, skin_cup(1), A, 60.0)
    told = cup(book, 2.0, skin_cup(1))
    assert [part.target_g for part in told.parts] == pytest.approx([60.0, 180.0, 60.0])
    assert reads(told) == {A: 60.0, POWDER: 240.0, B: 300.0}
    assert told.state is CupState.FILLING
    assert told.parts[0].over_g == pytest.approx(10.0)
    assert found(book, 2.0) == [Found.PART_OVER]


def test_more_of_the_last_part_asks_for_the_first_again() -> None:
    """55 g of B for 50 of A: over; 5 g of A and 15 of powder put it right, to totals of 255 + 5, then + 15."""
    book = Book(casts=1)
    for minute, kind, mass in ((1.0, A, 50.0), (2.0, POWDER, 150.0), (3.0, B, 55.0)):
        weigh(book, minute, skin_cup(1), kind, mass)
    told = cup(book, 3.5, skin_cup(1))
    assert told.state is CupState.OVER
    assert states(told) == [PartState.SHORT, PartState.SHORT, PartState.OVER]
    assert (told.next.kind, told.next.reads_g) == (A, 260.0)  # type: ignore[union-attr]
    weigh(book, 3.6, skin_cup(1), A, 5.0)
    weigh(book, 3.7, skin_cup(1), POWDER, 15.0)
    assert cup(book, 3.8, skin_cup(1)).state is CupState.RIGHT


def test_what_no_cup_holds_is_told_to_be_divided_and_is_two_cups_then() -> None:
    """210 g of A for 100 make 420 g with B, and a cup holds 400: two cups of 105 and 105 g."""
    book = Book()
    weigh(book, 1.0, coat_cup(), B, 210.0)
    told = cup(book, 2.0, coat_cup())
    assert told.put_right is not None
    assert (len(told.put_right.cups), told.put_right.move_g, told.state) == (2, 105.0, CupState.OVER)
    book.write(3.0, Divided(coat_cup(), (2,)))
    for ref in (coat_cup(), coat_cup(2)):
        half = cup(book, 4.0, ref)
        assert (half.share, half.state) == (0.5, CupState.FILLING)
        assert half.parts[-1].target_g == pytest.approx(105.0)


def test_what_reacts_already_and_is_too_much_is_refused() -> None:
    book = Book()
    weigh(book, 1.0, coat_cup(), B, 100.0)
    weigh(book, 2.0, coat_cup(), A, 250.0)
    told = cup(book, 3.0, coat_cup())
    assert told.refused is not None
    assert (told.refused.code, told.state, told.next) == ("cup-overfull", CupState.OVER, None)


def test_a_gelled_cup_is_replaced_by_a_filling_for_the_rest_of_its_work() -> None:
    """Gelled with 40 % of it on the work: 60 % of the masses, 60.0 of B and of A, are mixed anew."""
    book = Book()
    for kind in (B, A):
        weigh(book, 1.0, coat_cup(), kind, 100.0)
    book.write(30.0, Gelled(coat_cup(), 0.4))
    assert cup(book, 31.0, coat_cup()).state is CupState.GELLED
    again = cup(book, 31.0, coat_cup(2))
    assert (again.state, again.share) == (CupState.TO_WEIGH, 0.6)
    assert {part.kind: part.target_g for part in again.parts} == pytest.approx({B: 60.0, PIGMENT: 0.12, A: 60.0})
    assert reads(again) == {B: 60.0, PIGMENT: 60.1, A: 120.1}


def test_a_gelled_cup_needs_no_other_where_its_work_was_done_after_it() -> None:
    book = Book()
    book.write(29.0, Done(StepId("coat-1-mix")))
    book.write(30.0, Gelled(coat_cup(), 0.95))
    book.write(35.0, Done(StepId("coat-1")))
    assert [cup.ref for cup in run_state(bench_plan(), book.events, at(40.0)).cups][:2] == [coat_cup(), skin_cup(1)]


def test_a_clock_runs_out() -> None:
    """A coat's cup is out by 1800 s; its last fifth begins 360 s before: at 24 min."""
    book = Book()
    for kind in (B, A):
        weigh(book, 0.0, coat_cup(), kind, 100.0)
    stages = [cup(book, minute, coat_cup()).clock.stage for minute in (23.9, 24.0, 29.9, 30.0)]  # type: ignore[union-attr]
    assert stages == [ClockStage.RUNNING, ClockStage.LAST_FIFTH, ClockStage.LAST_FIFTH, ClockStage.PAST]
    assert Found.CUP_PAST in found(book, 30.0)
    book.write(29.0, Poured(coat_cup()))
    assert cup(book, 99.0, coat_cup()).clock.stage is ClockStage.LAST_FIFTH  # type: ignore[union-attr]
    assert found(book, 99.0) == []


def test_no_clock_runs_in_a_run_that_ended() -> None:
    book = Book()
    for kind in (B, A):
        weigh(book, 0.0, coat_cup(), kind, 100.0)
    book.write(5.0, Ended())
    assert run_state(bench_plan(), book.events, at(99.0)).running == ()
    assert Found.CUP_PAST not in found(book, 99.0)


def test_a_heavier_cup_lasts_less() -> None:
    """280 g instead of 200.2: (200.2 / 280)^(1/3) = 0.8942 of 1800 s are 1609 s."""
    book = Book()
    for kind in (B, A):
        weigh(book, 0.0, coat_cup(), kind, 140.0)
    clock = cup(book, 1.0, coat_cup()).clock
    assert clock is not None
    assert (clock.work_by_ms - clock.from_ms) / 1000.0 == pytest.approx(1609.5, abs=1.0)


def test_a_cup_that_is_poured_late_is_found_with_both_times() -> None:
    book = Book()
    for kind in (B, A):
        weigh(book, 0.0, coat_cup(), kind, 100.0)
    book.write(40.0, Poured(coat_cup()))
    (late,) = (each for each in run_state(bench_plan(), book.events, at(50.0)).findings if each.cup)
    assert late.code is Found.POURED_LATE
    assert {each.name: each.value for each in late.quantities} == {"poured.after": 2400.0, "cup.out_by": 1800.0}


def test_parts_that_are_missing_short_or_in_the_wrong_order_are_found() -> None:
    """Skin: powder after B, B by 10 g short, so that the ratio is 20 % off; the coat's cup was never weighed."""
    book = Book(casts=1)
    book.write(0.0, Done(StepId("receive")))
    book.write(0.0, Done(StepId("release")))
    book.write(20.0, Done(StepId("coat-1-mix")))
    for minute, kind, mass in ((30.0, A, 50.0), (31.0, B, 40.0), (32.0, POWDER, 150.0)):
        weigh(book, minute, skin_cup(1), kind, mass)
    book.write(33.0, Poured(skin_cup(1)))
    weigh(book, 34.0, skin_cup(1), A, 0.1)
    told = [(each.code, each.part) for each in run_state(bench_plan(), book.events, at(40.0)).findings if each.cup]
    assert told == [
        (Found.PART_MISSING, None),
        (Found.PART_ORDER, B),
        (Found.PART_SHORT, B),
        (Found.RATIO_OFF, None),
        (Found.AFTER_POURING, A),
    ]


def test_a_part_that_the_cup_has_not_is_kept_apart() -> None:
    book = Book()
    weigh(book, 0.0, coat_cup(), PartKind.WATER, 5.0)
    weigh(book, 0.0, CupRef(MixId("coat-9.cup-1")), B, 5.0)
    assert cup(book, 1.0, coat_cup()).in_g == 0.0
    assert Found.UNKNOWN_PART in found(book, 1.0)
    assert Found.UNKNOWN_CUP in found(book, 1.0)


def test_the_last_temperature_of_a_mix_is_told() -> None:
    book = Book()
    book.write(1.0, CupTemperature(coat_cup(), 24.0))
    book.write(2.0, CupTemperature(coat_cup(), 25.5))
    assert cup(book, 3.0, coat_cup()).temperature_c == 25.5


def test_what_is_weighed_into_a_gelled_cups_place_goes_by_what_is_left_of_its_work() -> None:
    """Of the 60 g for the 60 % that is left, 30 are in."""
    book = Book()
    weigh(book, 1.0, coat_cup(), B, 100.0)
    book.write(30.0, Gelled(coat_cup(), 0.4))
    weigh(book, 31.0, coat_cup(2), B, 30.0)
    again = cup(book, 32.0, coat_cup(2))
    assert again.share == 0.6
    assert again.parts[0].add_g == pytest.approx(30.0)


def test_a_trace_that_nobody_wrote_down_is_counted_once_in_the_total() -> None:
    """100 of B, 0.2 of pigment not written, 50 of A: the scale showed 150.2, the whole A brings it to 200.2 g."""
    book = Book()
    weigh(book, 1.0, coat_cup(), B, 100.0, reads_g=100.0)
    weigh(book, 2.0, coat_cup(), A, 50.0, reads_g=150.2)
    assert reads(cup(book, 3.0, coat_cup()))[A] == 200.2
