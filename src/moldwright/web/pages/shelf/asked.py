"""What an address asks of the shelf: which lots, which plans ahead, till when."""

from __future__ import annotations

from datetime import date
from typing import Annotated

from fastapi import Depends, Query

from moldwright.log.ids import PlanId
from moldwright.plan.plan import Plan
from moldwright.records.shop import Shop
from moldwright.records.stock.left import LotState
from moldwright.records.stock.listing import LotOrder, LotsAsked
from moldwright.records.told import day_told
from moldwright.web.at_hand import OpenShop

MOST_PLANS = 20


def _lots(
    q: Annotated[str, Query(max_length=200, description="Words that all stand in what is told of a lot.")] = "",
    kind: Annotated[str, Query(max_length=80, description="Of its material.")] = "",
    state: Annotated[str, Query(max_length=20, description="In which it is.")] = "",
    order: Annotated[LotOrder, Query(description="In which order.")] = LotOrder.MATERIAL,
    gone: Annotated[bool, Query(description="Those too that are discarded or used up.")] = False,
) -> LotsAsked:
    return LotsAsked(q, kind, LotState(state) if state in list(LotState) else None, order, gone)


LotsWanted = Annotated[LotsAsked, Depends(_lots)]
"""Which lots, of `q`, `kind`, `state`, `order` and `gone`."""


def _plans(
    shop: OpenShop,
    plan: Annotated[list[str] | None, Query(max_length=MOST_PLANS, description="Kept plans that are ahead.")] = None,
) -> tuple[Plan, ...]:
    return plans_named(shop, plan or [])


def plans_named(shop: Shop, ids: list[str]) -> tuple[Plan, ...]:
    """Kept plans.

    Parameters
    ----------
    shop : the store.
    ids : theirs.

    Raises InputRefused where one is not kept.
    """
    return tuple(shop.plan(PlanId(each)) for each in dict.fromkeys(ids))


PlansAhead = Annotated[tuple[Plan, ...], Depends(_plans)]
"""Kept plans that are named as ahead."""


def _until(
    until: Annotated[str, Query(max_length=40, description="The day to which it is to last, ISO 8601.")] = "",
) -> str:
    return day_told(until, date.today()) if until.strip() else ""


UntilDay = Annotated[str, Depends(_until)]
"""A day, "" for none."""
