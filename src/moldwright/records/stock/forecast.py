"""How long each material lasts, what work ahead takes of it, and what will expire unused."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta
from math import fsum

from moldwright.log.event import Event, order_of
from moldwright.log.ids import LotId
from moldwright.log.lot_events import LotUsed, Stuff
from moldwright.log.standing import standing
from moldwright.plan.mixes import StuffKey
from moldwright.plan.needs import NeedUnit
from moldwright.ranges import Range
from moldwright.records.stock.choose import LATEST, in_turn
from moldwright.records.stock.demand import StillNeeded
from moldwright.records.stock.left import FINE, LotState
from moldwright.records.stock.lot import Lot
from moldwright.records.stock.rate import YEAR_WEEKS, Lasts, WeeklyUse, lasting, use_of
from moldwright.records.stock.shelf import OnShelf
from moldwright.records.stock.weighed import Step, Sums

WEEK_DAYS = 7
WEEK_MS = WEEK_DAYS * 86_400_000
Row = tuple[StuffKey, NeedUnit]
"""A material and what it is counted in."""


@dataclass(frozen=True, slots=True)
class Unused:
    """So much of a lot that will be there still when it expires, at the rate of now."""

    lot: LotId
    expires: str
    amount: float


@dataclass(frozen=True, slots=True)
class Outlook:
    """One material on the shelf.

    `left`: what may be used; `held`: what is expired or recalled and stands there still. `use`: of a week, None where
    the log is too short. `lasts`: weeks, None where nothing is used. `ahead`: what open runs and the plans that were
    named take, part of what the rate foretells and not on top of it; `short`: by how much that is more than is left.
    """

    stuff: Stuff
    unit: NeedUnit
    left: float
    held: float
    lots: tuple[LotId, ...]
    use: WeeklyUse | None
    lasts: Lasts | None
    ahead: Range | None
    unused: tuple[Unused, ...]

    @property
    def short(self) -> Range:
        """What is missing for the work ahead."""
        ahead = self.ahead or Range.exactly(0.0)
        return Range(*(round(max(each - self.left, 0.0), FINE) for each in (ahead.low, ahead.likely, ahead.high)))


def measure(lot: Lot) -> tuple[NeedUnit, float]:
    """What a material is told in, and how much of it one unit of the lot is: milliliters whose density is known are
    told in grams, as they are weighed.

    Parameters
    ----------
    lot : the lot.
    """
    return (lot.unit, 1.0) if lot.grams is None else (NeedUnit.GRAM, lot.grams)


def year_back(today: str) -> Step:
    """The spans of a year's weeks up to and with a day, the first one first.

    Parameters
    ----------
    today : the shop's date, ISO 8601.
    """
    end = datetime.combine(date.fromisoformat(today) + timedelta(days=1), datetime.min.time(), UTC)
    return int(end.timestamp() * 1000) - YEAR_WEEKS * WEEK_MS, WEEK_MS


def outlooks(
    shelves: Iterable[OnShelf],
    events: Iterable[Event],
    sums: Sums,
    needs: Mapping[Row, StillNeeded],
    today: str,
) -> tuple[Outlook, ...]:
    """Every material that is on the shelf, was used in a year, or is needed.

    Parameters
    ----------
    shelves : all lots.
    events : of the lots, for what was used outside of runs.
    sums : grams that runs weighed, by lot and week of `year_back`.
    needs : what work ahead takes.
    today : the shop's date, ISO 8601.
    """
    groups: dict[Row, list[OnShelf]] = {}
    for shelf in shelves:
        groups.setdefault((shelf.lot.stuff.key, measure(shelf.lot)[0]), []).append(shelf)
    spans = _in_units(groups, events, sums, year_back(today))
    rows = dict.fromkeys((*groups, *needs))
    found = [_outlook(row, groups.get(row, []), spans.get(row), needs.get(row), today) for row in rows]
    return tuple(sorted(found, key=lambda each: (each.stuff.kind, each.stuff.id, each.unit)))


def _in_units(
    groups: Mapping[Row, Sequence[OnShelf]], events: Iterable[Event], sums: Sums, step: Step
) -> dict[Row, list[float]]:
    """The use of each week by material, in what it is told in, from the week in which its first lot came in."""
    used = _used_beside(events, step)
    weekly: dict[Row, list[float]] = {}
    for row, shelves in groups.items():
        weeks = [0.0] * YEAR_WEEKS
        for shelf in shelves:
            factor = measure(shelf.lot)[1]
            for week, grams in sums.get(shelf.lot.id, {}).items():
                weeks[min(week, YEAR_WEEKS - 1)] += grams if shelf.lot.grams is not None else 0.0
            for week, amount in used.get(shelf.lot.id, []):
                weeks[min(week, YEAR_WEEKS - 1)] += amount * factor
        weekly[row] = [round(each, FINE) for each in weeks[_first_week(shelves, weeks, step) :]]
    return weekly


def _used_beside(events: Iterable[Event], step: Step) -> dict[LotId, list[tuple[int, float]]]:
    found: dict[LotId, list[tuple[int, float]]] = {}
    for event in sorted(standing(events), key=order_of):
        if isinstance(event.body, LotUsed) and event.at_ms >= step[0]:
            week = (event.at_ms - step[0]) // step[1]
            found.setdefault(LotId(event.subject), []).append((week, event.body.amount))
    return found


def _first_week(shelves: Sequence[OnShelf], weeks: Sequence[float], step: Step) -> int:
    """The week from which on there is a log of a material: of its first receipt, or its first use if that is before."""
    first = min(shelf.lot.received.on for shelf in shelves)
    came = (datetime.combine(date.fromisoformat(first), datetime.min.time(), UTC).timestamp() * 1000) if first else 0
    used = next((week for week, amount in enumerate(weeks) if amount), YEAR_WEEKS)
    return min(max(int(came - step[0]) // step[1], 0), used, YEAR_WEEKS - 1)


def _outlook(
    row: Row, shelves: Sequence[OnShelf], weekly: Sequence[float] | None, need: StillNeeded | None, today: str
) -> Outlook:
    key, unit = row
    ready = in_turn(shelves)
    amounts = {shelf.lot.id: shelf.left.amount * measure(shelf.lot)[1] for shelf in shelves}
    left = fsum(amounts[shelf.lot.id] for shelf in ready)
    held = fsum(amounts[s.lot.id] for s in shelves if s.state in (LotState.EXPIRED, LotState.RECALLED))
    use = use_of(weekly) if weekly is not None else None
    name = next((shelf.lot.stuff.name for shelf in reversed(shelves)), need.name if need else "")
    return Outlook(
        Stuff(key.kind, key.id, name),
        unit,
        round(left, FINE),
        round(held, FINE),
        tuple(shelf.lot.id for shelf in ready),
        use,
        lasting(use, left) if use is not None else None,
        need.amount if need is not None else None,
        _unused(ready, amounts, use, today),
    )


def _unused(
    ready: Sequence[OnShelf], amounts: Mapping[LotId, float], use: WeeklyUse | None, today: str
) -> tuple[Unused, ...]:
    """What will be there still when it expires, first expiring first used at the mean rate:
    `used_i = min(used_(i-1) + left_i, rate t_i)`."""
    if use is None:
        return ()
    used, found = 0.0, []
    for shelf in ready:
        amount = amounts[shelf.lot.id]
        if not shelf.expires or shelf.expires == LATEST:
            continue
        days = (date.fromisoformat(shelf.expires) - date.fromisoformat(today)).days + 1
        by_then = max(used, min(used + amount, use.mean * days / WEEK_DAYS))
        rest = round(amount - (by_then - used), FINE)
        used = by_then
        found += [Unused(shelf.lot.id, shelf.expires, rest)] if rest > 0.0 else []
    return tuple(found)
