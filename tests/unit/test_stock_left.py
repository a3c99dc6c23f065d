"""What is left of a lot: masses by hand, on both engines."""

from __future__ import annotations

import pytest
from lots_by_hand import TODAY, about_lot, bench, ms, receipt, received, weighed

from moldwright.errors import InputRefused
from moldwright.log.any_events import Noted, Undone
from moldwright.log.event import About
from moldwright.log.ids import LotId, SubjectId
from moldwright.log.lot_events import LotCounted, LotDiscarded, LotMoved, LotOpened, LotRecalled, LotUsed
from moldwright.plan.needs import NeedUnit
from moldwright.records.shop import Shop
from moldwright.records.stock.keep import receive, write
from moldwright.records.stock.left import LotState
from moldwright.records.stock.shelf import lot_on_shelf, on_shelf
from moldwright.records.strike import strike_out


def test_what_was_weighed_and_used_is_gone(shop: Shop) -> None:
    """1000 g less 120.5 g and 79.5 g in cups and 100 g beside: 700 g."""
    clock = bench()
    lot = received(shop, clock)
    shop.append([weighed(clock, lot, 120.5, ms("2026-02-01")), weighed(clock, lot, 79.5, ms("2026-02-02"))])
    shelf = write(shop, clock, lot, LotUsed(100.0, "patch test"), TODAY).shelf
    assert (shelf.left.amount, shelf.left.weighed, shelf.left.over) == (700.0, 200.0, 0.0)
    assert on_shelf(shop, TODAY) == (shelf,)


def test_a_count_is_what_counts_on_and_tells_what_the_log_said(shop: Shop) -> None:
    """1000 - 200 = 800 g by the log, 770 g on the shelf: 30 g less. Then 70 g more: 700 g. What is written down late of
    before the count is in the count already."""
    clock = bench()
    lot = received(shop, clock)
    shop.append([weighed(clock, lot, 200.0, ms("2026-02-01"))])
    counted = write(shop, clock, lot, LotCounted(770.0), TODAY, ms("2026-03-01")).counted
    assert counted is not None
    assert (counted.said, counted.found, counted.more) == (800.0, 770.0, -30.0)
    late = weighed(clock, lot, 25.0, ms("2026-02-20"))
    shop.append([weighed(clock, lot, 70.0, ms("2026-03-02")), late])
    assert lot_on_shelf(shop, lot, TODAY).left.amount == 700.0


def test_a_weighing_before_the_receipt_was_typed_counts(shop: Shop) -> None:
    clock = bench(day="2026-06-01")
    lot = received(shop, clock)
    shop.append([weighed(clock, lot, 300.0, ms("2026-05-01"))])
    assert lot_on_shelf(shop, lot, TODAY).left.amount == 700.0


def test_more_used_than_there_was_is_told_and_is_never_less_than_nothing(shop: Shop) -> None:
    """1000 - 1040 = 40 g more than there was."""
    clock = bench()
    lot = received(shop, clock)
    shop.append([weighed(clock, lot, 1040.0, ms("2026-02-01"))])
    shelf = lot_on_shelf(shop, lot, TODAY)
    assert (shelf.left.amount, shelf.left.over, shelf.state) == (0.0, 40.0, LotState.USED_UP)


def test_what_is_struck_out_counts_in_nothing_however_often(shop: Shop) -> None:
    clock = bench()
    lot = received(shop, clock)
    wrong, right = weighed(clock, lot, 500.0, ms("2026-02-01")), weighed(clock, lot, 50.0, ms("2026-02-01"))
    lines = [clock.event(About.RUN, wrong.subject, Undone(wrong.id)) for _ in range(2)]
    used = about_lot(clock, lot, LotUsed(10.0), ms("2026-02-03"))
    shop.append([wrong, right, *lines, used])
    assert lot_on_shelf(shop, lot, TODAY).left.amount == 940.0
    assert strike_out(shop, clock, About.LOT, used.id[-8:].upper()) == used
    assert lot_on_shelf(shop, lot, TODAY).left.amount == 950.0
    with pytest.raises(InputRefused, match="event-not-kept"):
        strike_out(shop, clock, About.LOT, right.id)


def test_milliliters_count_by_their_density_or_not_at_all(shop: Shop) -> None:
    """500 ml at 1.25 g/ml, 100 g weighed: 80 ml gone, 420 ml left. Without the density: 500 ml, and 100 g beside."""
    clock = bench()
    known = received(shop, clock, receipt(amount=500.0, unit=NeedUnit.MILLILITER, density_g_ml=1.25))
    unknown = received(shop, clock, receipt(amount=500.0, unit=NeedUnit.MILLILITER))
    shop.append([weighed(clock, lot, 100.0, ms("2026-02-01")) for lot in (known, unknown)])
    left = {shelf.lot.id: shelf.left for shelf in on_shelf(shop, TODAY)}
    assert (left[known].amount, left[known].aside_g) == (420.0, 0.0)
    assert (left[unknown].amount, left[unknown].aside_g) == (500.0, 100.0)


def test_a_lot_keeps_to_the_earlier_of_two_days(shop: Shop) -> None:
    """Opened on 1 October with 30 days of life: to 31 October, though 31 December is printed on it."""
    clock = bench()
    lot = received(shop, clock, receipt(expires="2026-12-31", life_days=30))
    assert lot_on_shelf(shop, lot, "2026-12-31").state is LotState.SEALED
    assert lot_on_shelf(shop, lot, "2027-01-01").state is LotState.EXPIRED
    write(shop, clock, lot, LotOpened("2026-10-01"), TODAY)
    assert lot_on_shelf(shop, lot, "2026-10-31").state is LotState.OPEN
    shelf = lot_on_shelf(shop, lot, "2026-11-01")
    assert (shelf.state, shelf.expires) == (LotState.EXPIRED, "2026-10-31")


def test_moved_noted_recalled_discarded(shop: Shop) -> None:
    clock = bench()
    lot = received(shop, clock, receipt(stored="shelf 1"))
    write(shop, clock, lot, LotMoved("cold cupboard"), TODAY)
    write(shop, clock, lot, Noted("lid bent"), TODAY)
    recalled = write(shop, clock, lot, LotRecalled("supplier's letter"), TODAY).shelf
    assert (recalled.lot.stored, recalled.lot.notes, recalled.state) == (
        "cold cupboard",
        ("lid bent",),
        LotState.RECALLED,
    )
    gone = write(shop, clock, lot, LotDiscarded("to the dealer"), TODAY).shelf
    assert (gone.state, gone.left.amount, gone.lot.recalled) == (LotState.DISCARDED, 0.0, "supplier's letter")


def test_a_lot_whose_receipt_is_struck_out_is_on_no_shelf(shop: Shop) -> None:
    clock = bench()
    lot = received(shop, clock)
    strike_out(shop, clock, About.LOT, shop.events_of(lot)[0].id)
    assert on_shelf(shop, TODAY) == ()
    with pytest.raises(InputRefused, match="lot-struck-out"):
        write(shop, clock, lot, LotUsed(1.0), TODAY)


@pytest.mark.parametrize("amount", [-1.0, 0.0, float("nan"), float("inf"), 1e12])
def test_no_lot_of_an_impossible_amount(shop: Shop, amount: float) -> None:
    with pytest.raises(InputRefused, match="amount-out-of-range"):
        receive(shop, bench(), receipt(amount=amount), TODAY)
    assert on_shelf(shop, TODAY) == ()


@pytest.mark.parametrize("day", ["tomorrow", "2026-02-30", "2026-11-27T10:00"])
def test_a_day_is_a_day(shop: Shop, day: str) -> None:
    with pytest.raises(InputRefused, match="day-unclear"):
        receive(shop, bench(), receipt(expires=day), TODAY)


def test_what_is_unknown_is_refused(shop: Shop) -> None:
    with pytest.raises(InputRefused, match="lot-struck-out"):
        write(shop, bench(), LotId(SubjectId("nothing")), LotUsed(1.0), TODAY)


def test_words_of_a_receipt_are_lines_and_a_day_is_kept_as_iso(shop: Shop) -> None:
    shelf = receive(shop, bench(), receipt(number=" 4711 ", expires="20270131"), TODAY).shelf
    assert (shelf.lot.number, shelf.expires) == ("4711", "2027-01-31")
    with pytest.raises(InputRefused, match="text-unusable"):
        receive(shop, bench(), receipt(supplier="two\nlines"), TODAY)
