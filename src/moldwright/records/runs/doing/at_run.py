"""Where something is done: the store, the bench's clock, the run as it was last looked at."""

from __future__ import annotations

from dataclasses import dataclass

from moldwright.bench.acts import Act
from moldwright.errors import InputRefused
from moldwright.log.event import Body
from moldwright.plan.ids import NOWHERE, StepId
from moldwright.records.clock import BenchClock
from moldwright.records.runs.next_act import NextAct
from moldwright.records.runs.opened import OpenRun
from moldwright.records.runs.write import Logged, log_all
from moldwright.records.shop import Shop


@dataclass(frozen=True, slots=True)
class AtRun:
    """A bench at a run."""

    shop: Shop
    clock: BenchClock
    run: OpenRun

    def write(self, *bodies: Body, at_ms: int | None = None) -> Logged:
        """Write down what happened; it is on the disk when this returns.

        Parameters
        ----------
        bodies : what.
        at_ms : when, None: now.

        Raises as `records.runs.write.log_all`.
        """
        return log_all(self.shop, self.clock, self.run, bodies, at_ms)


def act_in_hand(next_: NextAct) -> Act:
    """The act that is asked for; one that is nowhere where none is.

    Parameters
    ----------
    next_ : what is next.
    """
    return next_.act.act if next_.act is not None else Act(StepId(NOWHERE))


def act_needed(next_: NextAct) -> Act:
    """The act that is asked for.

    Parameters
    ----------
    next_ : what is next.

    Raises InputRefused ("no-step") where none is.
    """
    if next_.act is None:
        raise InputRefused("no-step", "no step in hand", "a step's number", "", "Write it in front, as it is printed.")
    return next_.act.act
