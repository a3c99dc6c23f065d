"""Times at the temperatures that were logged: Arrhenius' law written out here, with its own constants."""

from __future__ import annotations

from dataclasses import replace
from math import exp

import pytest
from made_up_job import VOLUMES, commission
from reckoned import reckoned
from tests.bench_plans import A, B, Book, at, bench_plan, coat_cup, skin_cup

from moldwright.bench.acts import Act
from moldwright.bench.find_air import DAMP_RULES
from moldwright.bench.findings import Found, RunFinding
from moldwright.bench.now import ActState
from moldwright.bench.run import RunState, run_state
from moldwright.log.run_events import CupTemperature, Done, LeftOut, ShopAir, Weighed
from moldwright.materials import library
from moldwright.plan.cautions import Severity, caution
from moldwright.plan.ids import StepId
from moldwright.plan.mixes import PartKind

SECOND = 1000


def faster(to_c: float, from_c: float = 22.0, energy_j_mol: float = 60_000.0) -> float:
    """k2 / k1 = exp(E / R (1 / T1 - 1 / T2)); R = 8.314462618 J / mol K (CODATA 2018)."""
    return exp(energy_j_mol / 8.314462618 * (1.0 / (from_c + 273.15) - 1.0 / (to_c + 273.15)))


def told(book: Book, minute: float) -> RunState:
    return run_state(bench_plan(), book.events, at(minute))


def ends(book: Book, minute: float) -> tuple[float, float, float]:
    """The ends of the only wait, in minutes after the start."""
    (wait,) = told(book, minute).waits
    return tuple((end - at(0.0)) / 60_000 for end in (wait.ends.low_ms, wait.ends.likely_ms, wait.ends.high_ms))  # type: ignore[return-value]


def weigh(book: Book, minute: float, kind: PartKind, mass_g: float = 100.0) -> None:
    book.write(minute, Weighed(coat_cup(), kind, mass_g, mass_g))


def test_at_the_plans_temperature_times_are_the_plans() -> None:
    book = Book()
    book.write(0.0, ShopAir(22.0))
    book.write(100.0, Done(StepId("coat-1-look")))
    assert ends(book, 101.0) == pytest.approx((160.0, 190.0, 220.0))


def test_a_warm_room_shortens_what_cures() -> None:
    """At 32 degC a cure of 60 kJ/mol runs 2.23 times as fast: 60, 90, 120 min become 26.9, 40.4, 53.8."""
    book = Book()
    book.write(0.0, ShopAir(32.0))
    book.write(100.0, Done(StepId("coat-1-look")))
    k = faster(32.0)
    assert k == pytest.approx(2.228, abs=0.001)
    assert ends(book, 101.0) == pytest.approx((100.0 + 60.0 / k, 100.0 + 90.0 / k, 100.0 + 120.0 / k), abs=1e-4)


def test_what_is_written_later_counts_from_when_it_was_read() -> None:
    """30 min at the plan's 22 degC, then 32: of 60, 90, 120 min 30 are over by then."""
    book = Book()
    book.write(100.0, Done(StepId("coat-1-look")))
    book.write(130.0, ShopAir(32.0))
    k = faster(32.0)
    assert ends(book, 131.0) == pytest.approx((130.0 + 30.0 / k, 130.0 + 60.0 / k, 130.0 + 90.0 / k), abs=1e-4)


def test_between_two_readings_the_rate_lay_between_theirs() -> None:
    """From 22 (rate 1) to 32 (k) in 40 min: 40 k at the most, 20 (1 + k) likely, 40 at the least are over by then."""
    book = Book()
    book.write(0.0, ShopAir(22.0))
    book.write(100.0, ShopAir(22.0))
    book.write(100.0, Done(StepId("cure")))
    book.write(140.0, ShopAir(32.0))
    k = faster(32.0)
    over = (40.0 * k, 20.0 * (1.0 + k), 40.0)
    left = tuple((planned - done) / k for planned, done in zip((600.0, 900.0, 1200.0), over, strict=True))
    state = told(book, 141.0)
    wait = next(each for each in state.waits if each.of.step == "cure")
    found = [(end - at(140.0)) / 60_000 for end in (wait.ends.low_ms, wait.ends.likely_ms, wait.ends.high_ms)]
    assert found == pytest.approx(left, abs=1e-4)


def test_an_uncertain_energy_widens_a_wait_both_ways() -> None:
    """The skin's 40 to 80 kJ/mol: warm, the soonest by 80, the latest by 40; its window closes by the same."""
    book = Book()
    book.write(0.0, ShopAir(30.0))
    book.write(100.0, Done(StepId("skin"), 1))
    least, likely, most = (faster(30.0, energy_j_mol=energy) for energy in (40e3, 60e3, 80e3))
    (window,) = told(book, 101.0).windows
    opens = (window.opens.low_ms, window.opens.likely_ms, window.opens.high_ms)
    wanted = (8.0 / most, 20.0 / likely, 32.0 / least)
    assert [(end - at(100.0)) / 60_000 for end in opens] == pytest.approx(wanted, abs=1e-4)
    assert (window.closes.likely_ms - at(100.0)) / 60_000 == pytest.approx(32.0 / likely, abs=1e-4)


def test_what_dries_does_not_change() -> None:
    book = Book()
    book.write(0.0, ShopAir(32.0))
    book.write(10.0, Done(StepId("release")))
    assert ends(book, 11.0) == pytest.approx((20.0, 30.0, 70.0))


def test_what_is_to_come_is_told_for_the_room_as_it_is() -> None:
    book = Book()
    book.write(0.0, ShopAir(12.0))
    state = told(book, 1.0)
    slower = 1.0 / faster(12.0)
    look, release = (state.act(Act(StepId(step))) for step in ("coat-1-look", "release"))
    assert look is not None
    assert release is not None
    assert look.wait_min is not None
    assert look.wait_min.low == pytest.approx(60.0 * slower)
    assert look.wait_min.high == pytest.approx(120.0 * slower)
    assert release.wait_min == release.step.wait_min
    cup = state.cup(coat_cup())
    assert cup is not None
    assert cup.lasts_s == pytest.approx(1800.0 * slower)
    assert state.air is not None
    assert state.air.temperature_c == 12.0


def test_a_cup_lasts_by_its_own_temperature_once_that_is_read() -> None:
    """Parts meet at 0; after 10 min at 22 degC the mix is found at 35: of 30 min 20 are left, at k less."""
    book = Book()
    weigh(book, 0.0, B)
    weigh(book, 0.0, A)
    book.write(10.0, CupTemperature(coat_cup(), 35.0))
    cup = told(book, 11.0).cup(coat_cup())
    assert cup is not None
    assert cup.clock is not None
    assert (cup.clock.work_by_ms - at(10.0)) / SECOND == pytest.approx(1200.0 / faster(35.0), abs=0.002)


def test_a_cup_that_gels_before_hands_have_it_on_the_work_is_told_to_be_split() -> None:
    """At 35 degC 1800 s become 642. Mixing takes 180, laying 600: 780 s. 462 are left for laying 600: two cups."""
    book = Book()
    for done in ("receive", "release"):
        book.write(0.0, Done(StepId(done)))
    book.write(0.0, ShopAir(35.0))
    k = faster(35.0)
    assert 600.0 / 2 < 1800.0 / k - 180.0 < 600.0
    (large,) = (each for each in told(book, 30.0).findings if each.code is Found.CUP_TOO_LARGE)
    figures = {each.name: each.value for each in large.quantities}
    assert figures["cup.out_in"] == pytest.approx(1800.0 / k)
    assert (large.cup, figures["cup.takes"], figures["cup.cups"]) == (coat_cup(), 780.0, 2)


def test_in_the_warm_a_poured_over_cup_may_grow_less() -> None:
    """At 30 degC (k 1.91) hands lay (1800 / k - 180) / 600 = 1.27 of the cup; 140 g of B ask for 1.4: two cups."""
    cold, warm = Book(), Book()
    warm.write(0.0, ShopAir(30.0))
    for book in (cold, warm):
        weigh(book, 1.0, B, 140.0)
    assert 1.2 < (1800.0 / faster(30.0) - 180.0) / 600.0 < 1.4
    counts = [len(told(book, 2.0).cup(coat_cup()).put_right.cups) for book in (cold, warm)]  # type: ignore[union-attr]
    assert counts == [1, 2]


def findings(book: Book, code: Found) -> list[RunFinding]:
    return [each for each in told(book, 500.0).findings if each.code is code]


def test_what_is_colder_or_hotter_than_any_time_is_told_for_is_found_and_counts_as_the_end() -> None:
    book = Book()
    book.write(0.0, ShopAir(-4.0))
    book.write(0.0, CupTemperature(skin_cup(1), 75.0))
    book.write(100.0, Done(StepId("coat-1-look")))
    assert [each.quantities[0].value for each in findings(book, Found.OUT_OF_RANGE)] == [-4.0]
    assert [each.quantities[0].value for each in findings(book, Found.MIX_OUT_OF_RANGE)] == [75.0]
    assert ends(book, 101.0)[0] == pytest.approx(100.0 + 60.0 / faster(0.0), abs=1e-3)


def test_damp_air_quotes_the_plans_own_cautions_while_their_step_is_ahead() -> None:
    powder = caution(StepId("powder-dry"), "damp-powder", Severity.HEED, (), "")
    other = caution(StepId("skin"), "settles", Severity.HEED, (), "")
    plan = replace(bench_plan(), cautions=(powder, other))
    book = Book(casts=1)
    book.write(0.0, ShopAir(22.0, 55.0))
    assert run_state(plan, book.events, at(1.0)).findings == ()
    book.write(2.0, ShopAir(22.0, 71.0))
    (damp,) = run_state(plan, book.events, at(3.0)).findings
    assert (damp.code, damp.caution, damp.quantities[0].value) == (Found.DAMP_AIR, powder.id, 71.0)
    book.write(4.0, LeftOut(StepId("powder-dry"), "none goes in", 1))
    assert run_state(plan, book.events, at(5.0)).findings == ()
    assert told(book, 5.0).act(Act(StepId("powder-dry"), 1)).state is ActState.LEFT_OUT  # type: ignore[union-attr]


def test_the_cautions_about_damp_are_the_shipped_ones() -> None:
    """A rule that were renamed would be quoted by nobody any more."""
    assert {each.rule for each in reckoned(commission(), library(), VOLUMES).cautions} >= DAMP_RULES
