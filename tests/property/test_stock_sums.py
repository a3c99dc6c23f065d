"""What is left is what came in less what stands: in any order, sent twice, with lines through some of it."""

from __future__ import annotations

from hypothesis import given, settings
from hypothesis import strategies as st

from moldwright.log.any_events import Undone
from moldwright.log.event import About, Event
from moldwright.log.ids import EventId, LotId, SubjectId
from moldwright.log.lot_events import LotCounted, LotReceived, LotUsed, Stuff
from moldwright.plan.needs import NeedUnit
from moldwright.records.stock.left import deviations, left_of
from moldwright.records.stock.lot import fold_lot

LOT = LotId(SubjectId("lot"))
TENTHS = st.integers(0, 20_000).map(lambda tenths: tenths / 10)
HAPPENED = st.tuples(st.sampled_from(["use", "weigh", "count"]), st.integers(1, 50), TENTHS, st.booleans())


def event(number: int, at_ms: int, body: object) -> Event:
    return Event(EventId(f"{number:04}"), About.LOT, LOT, at_ms, "one", "", body)  # type: ignore[arg-type]


@settings(max_examples=300, deadline=None)
@given(st.lists(HAPPENED, max_size=30), TENTHS, st.randoms(use_true_random=False))
def test_left_is_received_less_what_stands(
    happened: list[tuple[str, int, float, bool]], came: float, chance: object
) -> None:
    """The check is a ledger that is walked in the order of time, tenth by tenth of a gram."""
    events = [event(0, 99, LotReceived(Stuff("rubber", "x"), came, NeedUnit.GRAM, "2026-01-01"))]
    weighed = []
    for number, (what, at_ms, grams, struck) in enumerate(happened, start=1):
        if what == "weigh":
            weighed += [] if struck else [((at_ms, f"{number:04}"), grams)]
            continue
        body = LotUsed(grams) if what == "use" else LotCounted(grams)
        events.append(event(number, at_ms, body))
        events += [event(1000 + number, at_ms, Undone(EventId(f"{number:04}")))] if struck else []
    ledger, found = came * 10, []
    standing = [(at, f"{n:04}", what, grams) for n, (what, at, grams, struck) in enumerate(happened, 1) if not struck]
    for _, _, what, grams in sorted(standing):
        found += [(ledger, grams * 10)] if what == "count" else []
        ledger = grams * 10 if what == "count" else ledger - grams * 10
    mixed = [*events, *events]
    chance.shuffle(mixed)  # type: ignore[attr-defined]
    lot = fold_lot(mixed)
    assert lot is not None
    last = lot.counts[-1].at
    left = left_of(lot, sum(grams for at, grams in weighed if at > last))
    assert round((left.amount - left.over) * 10) == round(ledger)
    assert left.amount >= 0.0 <= left.over
    counted = [(round(each.said * 10), round(each.found * 10)) for each in deviations(lot, weighed)]
    assert counted == [(round(said), round(real)) for said, real in found]
