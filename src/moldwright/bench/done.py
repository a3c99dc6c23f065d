"""What is written of each act: when it was begun and done, or why it is left out."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from moldwright.bench.acts import Act
from moldwright.bench.findings import Found, RunFinding
from moldwright.bench.laid import Laid
from moldwright.log.any_events import Attached, Noted
from moldwright.log.event import Event
from moldwright.log.run_events import Begun, BoxWritten, CupRef, Done, LeftOut, Poured, Problem, Weighed
from moldwright.plan.ids import NOWHERE, MixId
from moldwright.plan.steps import Per, StepPlan


@dataclass(slots=True)
class ActEntry:
    """What stands in the log about one act, as far as it was read; `begun_timed`, `done_timed`: that time is told, else
    it only keeps the order."""

    begun_ms: int | None = None
    done_ms: int | None = None
    why: str | None = None
    begun_timed: bool = True
    done_timed: bool = True

    @property
    def left_out(self) -> bool:
        """Whether it is not to be done."""
        return self.why is not None

    @property
    def touched(self) -> bool:
        """Whether it is begun, done or left out."""
        return self.begun_ms is not None or self.done_ms is not None or self.left_out

    def begin(self, at_ms: int, timed: bool = True) -> None:
        """It is in hand, perhaps once more."""
        if self.begun_ms is None or self.done_ms is not None or self.left_out:
            self.begun_ms, self.done_ms, self.why, self.begun_timed = at_ms, None, None, timed

    def weigh(self, at_ms: int, timed: bool = True) -> None:
        """A cup of it is weighed: who did not write that it is begun has begun it."""
        if self.begun_ms is None and self.done_ms is None:
            self.begin(at_ms, timed)

    def finish(self, at_ms: int, timed: bool = True) -> None:
        """It is done; done twice, without having been begun again, is done once."""
        if self.done_ms is None or self.left_out:
            self.done_ms, self.why, self.done_timed = at_ms, None, timed

    def leave(self, why: str) -> None:
        """It is not done."""
        self.begun_ms, self.done_ms, self.why = None, None, why


class Acts(dict[Act, ActEntry]):
    """What is written of acts; of one that is not among them nothing is."""

    def __missing__(self, act: Act) -> ActEntry:
        return NOTHING_WRITTEN


NOTHING_WRITTEN = ActEntry()


def written(laid: Laid, events: Iterable[Event]) -> tuple[Acts, tuple[RunFinding, ...]]:
    """What is written of the acts of which something is, and which entries are about none of the run.

    Parameters
    ----------
    laid : the acts of the run.
    events : that stand, in their order.
    """
    found = Acts()
    strangers = [_write(found, laid, event) for event in events]
    return found, tuple(finding for finding in strangers if finding is not None)


def act_of(cup: CupRef, mixing: Mapping[MixId, StepPlan]) -> Act | None:
    """The act that mixes a cup; None for one that the plan has not.

    Parameters
    ----------
    cup : which.
    mixing : the step of every cup.
    """
    step = mixing.get(cup.mix)
    if step is None or (step.per is Per.MOLD) != (cup.turn == 0):
        return None
    return Act(step.id, cup.turn)


def _write(found: Acts, laid: Laid, event: Event) -> RunFinding | None:
    body = event.body
    match body:
        case Weighed() | Poured():
            mixed = act_of(body.cup, laid.mixing)
            if mixed is not None and mixed in laid.place:
                _entry(found, mixed).weigh(event.at_ms, body.timed if isinstance(body, Weighed) else True)
            return None
        case Begun() | Done() | LeftOut() | BoxWritten() | Noted() | Attached() | Problem():
            act = Act(body.step, body.turn)
            if act in laid.place:
                if isinstance(body, Begun | Done | LeftOut):
                    _enter(_entry(found, act), body, event.at_ms)
                return None
            return None if body.step == NOWHERE else RunFinding(Found.UNKNOWN_ACT, act, event=event.id)
        case _:
            return None


def _entry(found: Acts, act: Act) -> ActEntry:
    if act not in found:
        found[act] = ActEntry()
    return found[act]


def _enter(entry: ActEntry, body: object, at_ms: int) -> None:
    match body:
        case Begun():
            entry.begin(at_ms)
        case Done():
            entry.finish(at_ms, body.timed)
        case LeftOut():
            entry.leave(body.why)
