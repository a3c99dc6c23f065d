"""What to buy: what is wanted till a day, less what there is and will not expire before."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from math import ceil, fsum

from moldwright.log.lot_events import Stuff
from moldwright.plan.needs import NeedUnit
from moldwright.ranges import Range
from moldwright.records.stock.demand import COUNTED
from moldwright.records.stock.forecast import WEEK_DAYS, Outlook
from moldwright.records.stock.left import FINE
from moldwright.records.stock.rate import used_in


@dataclass(frozen=True, slots=True)
class ToBuy:
    """So much of a material to buy. `wanted`: till the day; `there`: what may be used till then; `for_work`: open runs
    and the plans that were named want it, not only the usual use."""

    stuff: Stuff
    unit: NeedUnit
    wanted: Range
    there: float
    buy: Range
    for_work: bool


def to_buy(outlooks: Iterable[Outlook], today: str, until: str = "") -> tuple[ToBuy, ...]:
    """What to buy of each material, what the work ahead wants first; what suffices is left out.

    What is wanted is the larger of what the usual use foretells till the day and of what the work ahead takes: that
    work is part of the usual use, not on top of it.

    Parameters
    ----------
    outlooks : of every material.
    today : the shop's date, ISO 8601.
    until : the day, "" for what the work ahead takes alone.

    Source: arithmetic.
    """
    weeks = max((date.fromisoformat(until) - date.fromisoformat(today)).days + 1, 0) / WEEK_DAYS if until else 0.0
    rows = (_row(outlook, weeks, until) for outlook in outlooks)
    return tuple(sorted((row for row in rows if row.buy.high > 0.0), key=lambda row: not row.for_work))


def _row(outlook: Outlook, weeks: float, until: str) -> ToBuy:
    ahead = outlook.ahead or Range.exactly(0.0)
    usual = used_in(outlook.use, weeks) if outlook.use is not None and until else Range.exactly(0.0)
    wanted = Range(max(ahead.low, usual.low), max(ahead.likely, usual.likely), max(ahead.high, usual.high))
    gone = fsum(each.amount for each in outlook.unused if each.expires < until)
    there = round(max(outlook.left - gone, 0.0), FINE)
    return ToBuy(
        outlook.stuff, outlook.unit, wanted, there, _missing(wanted, there, outlook.unit), ahead.likely > there
    )


def _missing(wanted: Range, there: float, unit: NeedUnit) -> Range:
    lacks = (max(each - there, 0.0) for each in (wanted.low, wanted.likely, wanted.high))
    return Range(*(float(ceil(each - 1e-9)) if unit in COUNTED else round(each, FINE) for each in lacks))
