"""The shopping list of a plan of quantities: every row from how little to how much the form may ask of it."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace

from moldwright.plan.needs import NeedPlan
from moldwright.quantities.need_rows import WHOLE, shown_amount
from moldwright.ranges import Range

Key = tuple[object, ...]


def rough_needs(likely: Iterable[NeedPlan], corners: Sequence[Iterable[NeedPlan]]) -> tuple[NeedPlan, ...]:
    """The likely rows with the bounds of all corners, and what only a corner asks for.

    Parameters
    ----------
    likely : the rows of the likely measures, with the bounds that a hand gives them.
    corners : the rows of every corner.

    Source: doubts of hand and form are independent, so their shares add as squares.
    """
    rows = [{_key(need): need for need in each} for each in corners]
    known = {_key(need): need for need in likely}
    new = {key: need for each in rows for key, need in each.items() if key not in known and need.unit not in WHOLE}
    told = [_spread(need, [_amount(each.get(key)) for each in rows]) for key, need in known.items()]
    told += [_only(need, [_amount(each.get(key)) for each in rows]) for key, need in new.items()]
    return tuple(told)


def widened(hand: Range, ends: Sequence[float]) -> Range:
    """An amount with the bounds that a hand gives it and, independent of them, those that corners give its middle.

    Parameters
    ----------
    hand : by the likely measures.
    ends : its middle at every corner.

    >>> widened(Range(97.0, 100.0, 104.0), [97.0, 96.0, 103.0])
    Range(low=95.0, likely=100.0, high=105.0)
    """
    if not hand.likely:
        return Range(0.0, 0.0, max(ends, default=0.0))
    low, high = min(*ends, hand.likely), max(*ends, hand.likely)
    both = hand.doubted(Range(low / hand.likely, 1.0, high / hand.likely))
    return Range(max(both.low, 0.0), both.likely, both.high)


def _spread(need: NeedPlan, ends: Sequence[float]) -> NeedPlan:
    return replace(need, amount=shown_amount(widened(need.amount, ends), need.unit), together=())


def _only(need: NeedPlan, ends: Sequence[float]) -> NeedPlan:
    return replace(need, amount=shown_amount(Range(0.0, 0.0, max(ends)), need.unit), together=())


def _amount(need: NeedPlan | None) -> float:
    return 0.0 if need is None else need.amount.likely


def _key(need: NeedPlan) -> Key:
    return need.kind, need.id, need.for_, need.size_ml, need.cups_for
