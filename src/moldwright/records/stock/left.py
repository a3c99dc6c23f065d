"""What is left of a lot, and in which state it is: arithmetic on what its events and the weighings say."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from enum import StrEnum
from math import fsum

from moldwright.records.stock.lot import Lot, Moment

FINE = 6
"""Decimals that are kept of a difference: far finer than any scale, coarser than binary dust."""


class LotState(StrEnum):
    """How a lot stands on the shelf."""

    SEALED = "sealed"
    OPEN = "open"
    EXPIRED = "expired"
    USED_UP = "used up"
    DISCARDED = "discarded"
    RECALLED = "recalled"


USABLE = frozenset((LotState.SEALED, LotState.OPEN))
"""What may go into a cup."""


@dataclass(frozen=True, slots=True)
class Left:
    """What there is of a lot, in its unit.

    `amount` is never below nothing: `over` is by how much the log used more than there was. `weighed`: what runs took
    since it came in or was counted last. `aside_g`: grams that runs weighed and that do not count, because the lot is
    counted in another unit and its density is not known.
    """

    amount: float
    over: float
    weighed: float
    aside_g: float


def left_of(lot: Lot, weighed_g: float) -> Left:
    """What is left of a lot: what there was last, less what was used and weighed since.

    Parameters
    ----------
    lot : the lot.
    weighed_g : what runs weighed of it since its last count [g].

    Source: arithmetic.
    """
    last = lot.counts[-1]
    weighed = 0.0 if lot.grams is None else weighed_g / lot.grams
    rest = round(last.amount - last.used - weighed, FINE)
    there = 0.0 if lot.discarded is not None else max(rest, 0.0)
    aside = weighed_g if lot.grams is None else 0.0
    return Left(there, max(-rest, 0.0), round(weighed, FINE), round(aside, FINE))


def expires(lot: Lot) -> str:
    """The day to which a lot keeps: the earlier of the printed one and of so many days after it was opened; "" for
    one of which neither is known.

    Parameters
    ----------
    lot : the lot.
    """
    life = lot.received.life_days
    days = [lot.received.expires] if lot.received.expires else []
    if lot.opened and life is not None:
        days.append((date.fromisoformat(lot.opened) + timedelta(days=life)).isoformat())
    return min(days, default="")


def state_of(lot: Lot, left: Left, today: str) -> LotState:
    """How a lot stands.

    Parameters
    ----------
    lot : the lot.
    left : of it.
    today : the shop's date, ISO 8601; a lot may be used on the day itself to which it keeps.
    """
    if lot.discarded is not None:
        return LotState.DISCARDED
    if lot.recalled is not None:
        return LotState.RECALLED
    if left.amount <= 0.0:
        return LotState.USED_UP
    if "" < expires(lot) < today:
        return LotState.EXPIRED
    return LotState.OPEN if lot.opened else LotState.SEALED


@dataclass(frozen=True, slots=True)
class Deviation:
    """What a count found, and what the log said there should be, in the lot's unit."""

    at: Moment
    said: float
    found: float

    @property
    def more(self) -> float:
        """By how much more there was than the log said; negative: less."""
        return round(self.found - self.said, FINE)


def deviations(lot: Lot, weighings: Sequence[tuple[Moment, float]]) -> tuple[Deviation, ...]:
    """Every count of a lot against what the log said at that moment.

    Parameters
    ----------
    lot : the lot.
    weighings : when, and how much [g], in any order; those that a line goes through left out.

    Source: arithmetic.
    """
    found = []
    for before, count in zip(lot.counts, lot.counts[1:], strict=False):
        between = fsum(mass for at, mass in weighings if before.at < at < count.at)
        said = before.amount - before.used - (0.0 if lot.grams is None else between / lot.grams)
        found.append(Deviation(count.at, round(said, FINE), count.amount))
    return tuple(found)
