"""What a run is: how it was started, by which plan it goes on, whether it ended."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import groupby
from typing import TypeVar

from moldwright.log.event import Body, Event
from moldwright.log.ids import MoldId, PlanId
from moldwright.log.run_events import Ended, MoldRegistered, Replanned, Started
from moldwright.log.standing import standing

B = TypeVar("B", bound=Body)


@dataclass(frozen=True, slots=True)
class RunFrame:
    """A run as a whole.

    Parameters
    ----------
    started : how; None where that event has not come yet.
    started_ms : when.
    plans : by which plans it went, in order, the last one being that by which it goes on.
    mold : the mold that it casts from: of the shelf, or its own once that is registered.
    ended_ms : when nothing more was to be done; None: it is under way.
    why : it ended.
    replanned_ms : when it last went on by a new plan; None: never.
    """

    started: Started | None = None
    started_ms: int | None = None
    plans: tuple[PlanId, ...] = ()
    mold: MoldId | None = None
    ended_ms: int | None = None
    why: str = ""
    replanned_ms: int | None = None

    @property
    def plan(self) -> PlanId | None:
        """The plan by which it goes on."""
        return self.plans[-1] if self.plans else None


def frame_of(events: Iterable[Event]) -> RunFrame:
    """What a run is, by its events: the first start counts, then every new plan, the last end.

    Parameters
    ----------
    events : of the run, in any order, struck-out ones among them.
    """
    return frame_of_standing(standing(events))


def frame_of_standing(events: Sequence[Event]) -> RunFrame:
    """The same, of events that stand, in their order.

    Parameters
    ----------
    events : as `standing` gives them.
    """
    started, first_ms = next(bodies(events, Started), (None, None))
    *_, (registered, _) = (None, None), *bodies(events, MoldRegistered)
    *_, (ended, ended_ms) = (None, None), *bodies(events, Ended)
    plans = [*([started.plan] if started else []), *(body.plan for body, _ in bodies(events, Replanned))]
    shelf = started.mold if started else None
    return RunFrame(
        started,
        first_ms,
        tuple(plan for plan, _ in groupby(plans)),
        registered.mold if registered else shelf,
        ended_ms,
        ended.why if ended else "",
        max((at_ms for _, at_ms in bodies(events, Replanned)), default=None),
    )


def bodies(events: Iterable[Event], kind: type[B]) -> Iterator[tuple[B, int]]:
    """What happened of one kind, and when.

    Parameters
    ----------
    events : in their order.
    kind : of which kind.
    """
    return ((event.body, event.at_ms) for event in events if isinstance(event.body, kind))
