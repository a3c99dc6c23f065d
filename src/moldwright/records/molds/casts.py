"""Casts drawn from a mold, by the events of one run: pure."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from moldwright.log.event import Event
from moldwright.log.ids import RunId
from moldwright.log.run_events import CastMeasured, Done
from moldwright.log.standing import standing
from moldwright.plan.ids import StepId


@dataclass(frozen=True, slots=True)
class DrawnCast:
    """A cast that came out of the mold, good or not: when [ms], and what was measured on it."""

    run: RunId
    turn: int
    at_ms: int
    mass_g: float | None = None
    height_mm: float | None = None


def drawn_casts(events: Iterable[Event], out: frozenset[StepId]) -> tuple[DrawnCast, ...]:
    """The casts that a run drew, in the order of their numbers: once each, whatever became of them afterwards.

    Parameters
    ----------
    events : of one run, in any order, some perhaps twice.
    out : the steps after which a cast is out of the mold.
    """
    stand = standing(events)
    first: dict[int, Event] = {}
    for event in stand:
        match event.body:
            case Done(step, turn) if step in out and turn >= 1:
                first.setdefault(turn, event)
    measured = [event.body for event in stand if isinstance(event.body, CastMeasured)]
    mass = {each.turn: each.mass_g for each in measured if each.mass_g is not None}
    height = {each.turn: each.height_mm for each in measured if each.height_mm is not None}
    return tuple(
        DrawnCast(RunId(first[turn].subject), turn, first[turn].at_ms, mass.get(turn), height.get(turn))
        for turn in sorted(first)
    )
