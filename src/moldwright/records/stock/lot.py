"""A lot as its events tell it: a pure fold."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from moldwright.log.any_events import Attached, Noted
from moldwright.log.event import Event, order_of
from moldwright.log.ids import FileHash, LotId
from moldwright.log.lot_events import (
    LotCounted,
    LotDiscarded,
    LotMoved,
    LotOpened,
    LotPapers,
    LotRecalled,
    LotReceived,
    LotUsed,
    Stuff,
)
from moldwright.log.standing import standing
from moldwright.plan.needs import NeedUnit

Moment = tuple[int, str]
"""When an event was, and its id: its place among all others."""
EVER: Moment = (-1, "")
"""Before all events: what came in counts against all that was weighed, however late it was written down."""


@dataclass(frozen=True, slots=True)
class Counted:
    """From where a lot's amount counts on: it came in (`at` is `EVER`), or was counted. `used`: what was used of it
    outside of runs from there to the next one. Both in the lot's unit."""

    at: Moment
    amount: float
    used: float


@dataclass(frozen=True, slots=True)
class Lot:
    """A lot. `counts`: the receipt, then every count in its order; `opened`: an ISO 8601 date, "" while it is sealed;
    `certificate`, `sheet`: the newest that was kept with it; `discarded`, `recalled`: why, None: it is not."""

    id: LotId
    received: LotReceived
    counts: tuple[Counted, ...]
    opened: str
    stored: str
    certificate: FileHash | None
    sheet: FileHash | None
    discarded: str | None
    recalled: str | None
    notes: tuple[str, ...]
    files: tuple[Attached, ...]

    @property
    def stuff(self) -> Stuff:
        """What it is a lot of."""
        return self.received.stuff

    @property
    def unit(self) -> NeedUnit:
        """What it is counted in."""
        return self.received.unit

    @property
    def number(self) -> str:
        """The supplier's number, "" for none."""
        return self.received.number

    @property
    def grams(self) -> float | None:
        """Grams of one of its units; None where no weighing can count against it."""
        if self.unit is NeedUnit.GRAM:
            return 1.0
        return self.received.density_g_ml if self.unit is NeedUnit.MILLILITER else None


def fold_lot(events: Iterable[Event]) -> Lot | None:
    """A lot by its events; None where none that stands says that it came in. Of two that say so the later one holds.

    Parameters
    ----------
    events : of one lot, in any order, some perhaps twice.
    """
    kept = standing(events)
    receipts = [event for event in kept if isinstance(event.body, LotReceived)]
    if not receipts:
        return None
    received = receipts[-1].body
    assert isinstance(received, LotReceived)
    bodies = [event.body for event in kept]
    papers = [body for body in reversed(bodies) if isinstance(body, LotPapers)]
    return Lot(
        id=LotId(receipts[-1].subject),
        received=received,
        counts=_counts(received, kept),
        opened=min((body.on for body in bodies if isinstance(body, LotOpened)), default=""),
        stored=next((body.stored for body in reversed(bodies) if isinstance(body, LotMoved)), received.stored),
        certificate=next((each.certificate for each in papers if each.certificate), received.certificate),
        sheet=next((each.sheet for each in papers if each.sheet), received.sheet),
        discarded=next((body.why for body in bodies if isinstance(body, LotDiscarded)), None),
        recalled=next((body.why for body in bodies if isinstance(body, LotRecalled)), None),
        notes=tuple(body.text for body in bodies if isinstance(body, Noted)),
        files=tuple(body for body in bodies if isinstance(body, Attached)),
    )


def _counts(received: LotReceived, kept: Sequence[Event]) -> tuple[Counted, ...]:
    found = [Counted(EVER, received.amount, 0.0)]
    for event in kept:
        if isinstance(event.body, LotCounted):
            found.append(Counted(order_of(event), event.body.amount, 0.0))
        elif isinstance(event.body, LotUsed):
            last = found[-1]
            found[-1] = Counted(last.at, last.amount, last.used + event.body.amount)
    return tuple(found)


def fold_lots(events: Iterable[Event]) -> tuple[Lot, ...]:
    """Every lot of a shop by all of their events, in the order of their ids, which is that in which they were entered.

    Parameters
    ----------
    events : about lots, in any order.
    """
    by_lot: dict[str, list[Event]] = {}
    for event in events:
        by_lot.setdefault(event.subject, []).append(event)
    folded = (fold_lot(by_lot[subject]) for subject in sorted(by_lot))
    return tuple(lot for lot in folded if lot is not None)
