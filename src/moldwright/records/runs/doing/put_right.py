"""A cup that was poured over: whether a choice is open, between what, and what is done."""

from __future__ import annotations

from moldwright.bench.cup_now import CupNow
from moldwright.errors import InputRefused
from moldwright.log.event import Event
from moldwright.log.run_events import CupRef, CupTemperature, Divided, Gelled, Poured, Weighed, WentOn
from moldwright.log.standing import standing
from moldwright.mixing.correct import part_within_g
from moldwright.records.runs.doing.weigh import NOTHING_G, PouredOver
from moldwright.records.runs.next_act import NextAct, Press
from moldwright.records.runs.opened import OpenRun
from moldwright.records.runs.remedies import CupRemedy, over_part, remedies


def ways(run: OpenRun, next_: NextAct, asked: PouredOver | None) -> tuple[CupRemedy, ...]:
    """The remedies between which is to be chosen now; none where nothing is to be chosen.

    Parameters
    ----------
    run : as it stands.
    next_ : what is next.
    asked : what was poured over, where somebody has to choose though the cup's totals could just go on.
    """
    cup = next_.cup
    if cup is None:
        return ()
    if asked is not None and asked.cup == cup.ref:
        return remedies(cup, run.state, (asked.part, asked.target_g))
    return remedies(cup, run.state) if next_.press is Press.PUT_RIGHT else ()


def asked_by_plan(next_: NextAct) -> PouredOver:
    """The part that is over by the plan, for who wants to choose once more.

    Parameters
    ----------
    next_ : what is next.

    Raises InputRefused ("nothing-over").
    """
    cup = next_.cup
    over = over_part(cup) if cup is not None else None
    if cup is None or over is None:
        raise InputRefused("nothing-over", "no part is over", "a cup that was poured over", "", "Go on: see Enter.")
    return PouredOver(cup.ref, over.kind, over.planned_g)


def just_poured_over(run: OpenRun, cup: CupNow) -> PouredOver | None:
    """What the last entry about a cup poured over; None where it did not: somebody may have gone on from there.

    Parameters
    ----------
    run : as it stands.
    cup : which.
    """
    last = last_about(run, cup.ref)
    if last is None or not isinstance(last.body, Weighed) or cup.settled:
        return None
    body = last.body
    more_g = body.mass_g - body.target_g
    in_g = next((part.in_g for part in cup.parts if part.kind == body.part), 0.0)
    planned = next((part for part in cup.mix.parts if part.kind == body.part), None)
    if planned is None or more_g <= part_within_g(cup.mix, planned, in_g - more_g, run.plan.scale_g) + NOTHING_G:
        return None
    return PouredOver(cup.ref, body.part, in_g - more_g)


def last_about(run: OpenRun, ref: CupRef) -> Event | None:
    """The last entry about a cup that stands.

    Parameters
    ----------
    run : as it stands.
    ref : which cup.
    """
    told = (e for e in reversed(standing(run.events)) if isinstance(e.body, _OF_CUPS) and e.body.cup == ref)
    return next(told, None)


_OF_CUPS = (Weighed, WentOn, Poured, Divided, Gelled, CupTemperature)
