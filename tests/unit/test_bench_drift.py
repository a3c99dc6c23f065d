"""A scale that drifted: true masses by the known weight, reckoned beside each check."""

from __future__ import annotations

from dataclasses import replace

import pytest
from tests.bench_plans import MIXES, POWDER, A, B, Book, at, bench_plan, coat_cup, part, skin_cup

from moldwright.bench.findings import Found
from moldwright.bench.run import run_state
from moldwright.bench.scale_drift import RatioNow, ScaleDrift, scale_drifts
from moldwright.log.run_events import CupRef, ScaleChecked, Weighed
from moldwright.plan.mixes import MeasuredBy, PartKind


def weigh(book: Book, minute: float, ref: CupRef, kind: PartKind, mass_g: float, scale: str = "bench") -> None:
    book.write(minute, Weighed(ref, kind, mass_g, mass_g, scale=scale))


def drifts(book: Book) -> tuple[ScaleDrift, ...]:
    return scale_drifts(bench_plan(), book.events)


def test_a_scale_that_reads_low_has_weighed_too_much_and_kept_the_ratio() -> None:
    """500 g read 494: 1.2 % low, each gram shown is 500 / 494 g. 100 told are 101.2 g of either part."""
    book = Book()
    book.write(0.0, ScaleChecked("bench", 500.0, 500.0))
    weigh(book, 1.0, coat_cup(), B, 100.0)
    weigh(book, 2.0, coat_cup(), A, 100.0)
    book.write(60.0, ScaleChecked("bench", 500.0, 494.0))
    (drift,) = drifts(book)
    assert (drift.scale, drift.after_ms, drift.found_ms) == ("bench", at(0.0), at(60.0))
    assert drift.factor == pytest.approx(500.0 / 494.0)
    (cup,) = drift.cups
    assert [part.true_g for part in cup.parts] == pytest.approx([101.2146, 101.2146], abs=1e-4)
    assert (cup.ratio, cup.off_pct) == (RatioNow.KEPT, pytest.approx(0.0))
    assert cup.true_g - cup.told_g == pytest.approx(2.4291, abs=1e-4)


def test_parts_of_two_scales_keep_no_common_factor() -> None:
    """B on a scale 5 % low: 105.3 g for 100 of A; 5.3 % off, and 2 % are borne. At 1.2 % it is borne."""
    for reads, state in ((475.0, RatioNow.OFF), (494.0, RatioNow.WITHIN)):
        book = Book(casts=1)
        weigh(book, 1.0, skin_cup(1), A, 50.0, scale="fine")
        weigh(book, 2.0, skin_cup(1), POWDER, 150.0)
        weigh(book, 3.0, skin_cup(1), B, 50.0)
        book.write(60.0, ScaleChecked("bench", 500.0, reads))
        (drift,) = drifts(book)
        (cup,) = drift.cups
        assert drift.after_ms is None
        assert cup.ratio is state
        assert cup.off_pct == pytest.approx(100.0 * (500.0 / reads - 1.0))
        assert [each.true_g for each in cup.parts] == pytest.approx([50.0, 150.0 * 500.0 / reads, 50.0 * 500.0 / reads])


def test_what_a_syringe_measured_has_no_share_in_it() -> None:
    """A by syringe, B on a scale 5 % low."""
    plan = bench_plan()
    syringe = replace(MIXES[0], parts=(part(B, 100.0, 100.0), part(A, 100.0, 200.0, MeasuredBy.SYRINGE)))
    book = Book()
    weigh(book, 1.0, coat_cup(), B, 100.0)
    weigh(book, 2.0, coat_cup(), A, 100.0)
    book.write(60.0, ScaleChecked("bench", 500.0, 475.0))
    (drift,) = scale_drifts(replace(plan, mixes=(syringe, *MIXES[1:])), book.events)
    assert drift.cups[0].ratio is RatioNow.OFF


def test_a_weighing_counts_by_the_next_check_and_after_the_last_by_that() -> None:
    """Right at 0, low at 60, right again at 120, low at 200: cups of minute 1 and 150 were wrong, that of 90 was not;
    that of 210 is as wrong as the last check said."""
    book = Book(casts=4)
    for minute, reads in ((0.0, 500.0), (60.0, 490.0), (120.0, 500.0), (200.0, 490.0)):
        book.write(minute, ScaleChecked("bench", 500.0, reads))
    for turn, minute in ((1, 1.0), (2, 90.0), (3, 150.0), (4, 210.0)):
        weigh(book, minute, skin_cup(turn), A, 50.0)
    first, second = drifts(book)
    assert [cup.cup.turn for cup in first.cups] == [1]
    assert [cup.cup.turn for cup in second.cups] == [3, 4]
    assert (first.after_ms, second.after_ms) == (at(0.0), at(120.0))
    assert second.cups[0].ratio is RatioNow.NONE


def test_a_step_of_the_scale_is_no_drift() -> None:
    """10 g read 10.1 at a step of 0.1 g; 500 g read 502.4, 0.48 %; 502.6 are 0.52 %."""
    for weight, reads, found in ((10.0, 10.1, 0), (500.0, 502.4, 0), (500.0, 502.6, 1)):
        book = Book()
        book.write(0.0, ScaleChecked("bench", weight, reads))
        assert len(drifts(book)) == found
        state = run_state(bench_plan(), book.events, at(1.0))
        assert [each.code for each in state.findings] == [Found.SCALE_OFF] * found
