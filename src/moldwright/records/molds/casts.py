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
    return tuple(
        DrawnCast(RunId(first[turn].subject), turn, first[turn].at_ms, *measured_of(stand, turn))
        for turn in sorted(first)
    )


def measured_of(events: Iterable[Event], turn: int) -> tuple[float | None, float | None]:
    """Mass [g] and height [mm] of a cast as they were last written down.

    Parameters
    ----------
    events : of its run, those that stand, in their order.
    turn : the cast's number in the run.
    """
    told = [each.body for each in events if isinstance(each.body, CastMeasured) and each.body.turn == turn]
    mass = next((each.mass_g for each in reversed(told) if each.mass_g is not None), None)
    return mass, next((each.height_mm for each in reversed(told) if each.height_mm is not None), None)
