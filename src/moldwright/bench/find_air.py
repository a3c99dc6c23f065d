"""What the shop's air, as it was read, does to the work."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from math import ceil

from moldwright.bench.acts import Act
from moldwright.bench.cup_now import CupNow
from moldwright.bench.cups import by_hand_s, mixing_s
from moldwright.bench.findings import Found, RunFinding
from moldwright.bench.now import AirNow
from moldwright.bench.standing_acts import Progress
from moldwright.cure.lasting import HAND_S
from moldwright.cure.potlife import COLDEST_C, HOTTEST_C
from moldwright.plan.cautions import Caution
from moldwright.plan.ids import NOWHERE
from moldwright.plan.plan import Plan
from moldwright.plan.quantity import Dimension, Quantity

DAMP_FROM_PCT = 60.0
"""From this humidity on powder takes up water as it stands, and an open can of isocyanate: common practice, no
source."""
ROUNDING_S = 0.05
DAMP_RULES = frozenset(("damp-powder", "damp-powder-gas", "open-can"))
"""Cautions that damp air makes graver."""


def find_air(plan: Plan, air: Sequence[AirNow], at: Progress) -> Iterator[RunFinding]:
    """Temperatures at which no time can be told, and damp air while there is something that it spoils.

    Parameters
    ----------
    plan : its cautions.
    air : as it was read, in order.
    at : how far the run has come.
    """
    for each in air:
        if not COLDEST_C <= each.temperature_c <= HOTTEST_C:
            told = (Quantity("air.temperature", Dimension.TEMPERATURE, each.temperature_c),)
            yield RunFinding(Found.OUT_OF_RANGE, quantities=told)
    last = air[-1] if air and not at.ended else None
    if last is not None and last.humidity_pct is not None and last.humidity_pct >= DAMP_FROM_PCT:
        told = (Quantity("air.humidity", Dimension.PERCENT, last.humidity_pct),)
        yield from (RunFinding(Found.DAMP_AIR, caution=each.id, quantities=told) for each in _ahead(plan, at))


def find_warm(cups: Iterable[CupNow], at: Progress) -> Iterator[RunFinding]:
    """Cups that come next and gel, in the air as it was last read, before hands have them on the work.

    Parameters
    ----------
    cups : of the run.
    at : how far it has come.
    """
    for cup in cups:
        if cup.clock is not None or cup.out_in_s is None or cup.settled:
            continue
        needs_s = mixing_s(cup.mix) + by_hand_s(cup.mix) * cup.share
        if needs_s > cup.out_in_s + ROUNDING_S and _next(cup.act, at):
            told = {"cup.out_in": cup.out_in_s, "cup.takes": needs_s}
            cups_ = (Quantity("cup.cups", Dimension.COUNT, count),) if (count := cups_that_do(cup)) else ()
            times = tuple(Quantity(name, Dimension.DURATION, value) for name, value in told.items())
            yield RunFinding(Found.CUP_TOO_LARGE, cup.act, cup=cup.ref, quantities=(*times, *cups_))


def cups_that_do(cup: CupNow) -> int:
    """Into how many equal cups a cup is split so that each is on the work in time; 0 where none of them is.

    Parameters
    ----------
    cup : that gels too soon in this air. Each is mixed for as long; `n >= hand / (out_by - mixing)`.
    """
    left_s = (cup.out_in_s or 0.0) - mixing_s(cup.mix)
    return ceil(by_hand_s(cup.mix) * cup.share / left_s - 1e-9) if left_s >= HAND_S else 0


def _next(act: Act, at: Progress) -> bool:
    """Whether an act is in hand or nothing but time holds it."""
    done = all(at.written[need].done_ms is not None for need in at.needs(act))
    return at.written[act].done_ms is None and not at.written[act].left_out and done


def _ahead(plan: Plan, at: Progress) -> Iterator[Caution]:
    """The cautions about damp on steps that are not all done."""
    open_ = {act.step for act in at.acts if at.written[act].done_ms is None and not at.written[act].left_out}
    return (each for each in plan.cautions if each.rule in DAMP_RULES and each.step in (NOWHERE, *open_))
