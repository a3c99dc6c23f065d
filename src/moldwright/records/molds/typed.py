"""A mold as a person tells it, put into the register: materials by what the library calls them."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from moldwright.errors import InputRefused
from moldwright.log.ids import MoldId, PlanId
from moldwright.materials import Sheet, library
from moldwright.records.clock import BenchClock
from moldwright.records.molds.read import MoldKnown
from moldwright.records.molds.write import register_older
from moldwright.records.shop import Shop


@dataclass(frozen=True, slots=True)
class OlderMold:
    """A mold that is older than the records, as it was told.

    Parameters
    ----------
    name, stored : what it is called, where it stands.
    rubber, cast : ids of the library, or words of the maker's own.
    plan : the text of the plan.json that it was made by, "" where there is none.
    drawn : casts drawn so far.
    lasts : casts that it gives in all, None: by its rubber.
    """

    name: str
    rubber: str = ""
    cast: str = ""
    stored: str = ""
    plan: str = ""
    drawn: int = 0
    lasts: int | None = None


def register_told(shop: Shop, clock: BenchClock, told: OlderMold) -> MoldId:
    """Put it into the register.

    Parameters
    ----------
    shop : the store.
    clock : of the bench that writes.
    told : the mold.

    Raises as `register_older`.
    """
    kept = shop.keep_plan(told.plan) if told.plan else None
    of, what = _name(library().rubber, told.rubber), _name(library().resin, told.cast)
    return register_older(shop, clock, told.name, of, kept, told.drawn, told.lasts, told.stored, what)


def cast_plan(known: MoldKnown) -> PlanId:
    """The plan by which it is cast from: that of its last run, else that which made it.

    Parameters
    ----------
    known : the mold.

    Raises InputRefused ("mold-without-plan").
    """
    plan = known.runs[-1].plan if known.runs else known.mold.plan
    if plan is None:
        remedy = "Take the piece in and plan it; its first run then says that it casts from this mold."
        raise InputRefused("mold-without-plan", known.mold.name, "a mold with a plan", "", remedy)
    return plan


def _name(named: Callable[[str], Sheet], written: str) -> str:
    """The name of the sheet that is meant; words of the maker's own, of which there is no sheet, as they are."""
    try:
        return named(written).name if written.strip() else ""
    except InputRefused as refused:
        if refused.code != "unknown-material":
            raise
        return written
