"""What can be told of a cup at one moment: what is in it, what comes next, its clock."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from math import fsum

from moldwright.bench.acts import Act
from moldwright.errors import MoldwrightError, Value
from moldwright.log.ids import LotId
from moldwright.log.run_events import CupRef
from moldwright.mixing.correct import Correction
from moldwright.plan.mixes import REACTING, MeasuredBy, MixPlan, PartKind
from moldwright.ways import Way


class CupState(StrEnum):
    """Where a cup stands; the desk's words."""

    TO_WEIGH = "to weigh"
    FILLING = "filling"
    RIGHT = "right"
    OVER = "over"
    ON_THE_WORK = "on the work"
    GELLED = "gelled"


class PartState(StrEnum):
    """What a part's mass is against its target."""

    TO_COME = "to come"
    SHORT = "short"
    RIGHT = "right"
    OVER = "over"


class ClockStage(StrEnum):
    """How far a cup's clock is: running, in its last fifth, past the time by which it must be on the work."""

    RUNNING = "running"
    LAST_FIFTH = "last fifth"
    PAST = "past"


@dataclass(frozen=True, slots=True)
class Refusal:
    """Why nothing puts a cup right, as a value: the fields of the error, with its marks (`moldwright.ways`)."""

    code: str
    actual: Value
    limit: Value
    unit: str
    remedy: str
    way: Way | None = None


def refusal_of(error: MoldwrightError) -> Refusal:
    """An error as a value.

    Parameters
    ----------
    error : what was refused.
    """
    actual, limit, remedy = error.named
    return Refusal(error.code, actual, limit, error.unit, remedy, error.way)


@dataclass(frozen=True, slots=True)
class PartNow:
    """One part of a cup.

    Parameters
    ----------
    kind, name, by : as in the plan.
    planned_g : by the plan, of this filling.
    target_g : what is to be in, as the cup stands now.
    in_g : what is in.
    within_g : how far off it may be.
    reads_g : what the scale shows once it is in, going on from what it shows now.
    add_ml : what is still to come of it, as a syringe draws it.
    state : what is in against the target.
    last_ms : when some of it was last put in, None for never.
    lots : of which lots it was taken.
    """

    kind: PartKind
    name: str
    by: MeasuredBy
    planned_g: float
    target_g: float
    in_g: float
    within_g: float
    reads_g: float
    add_ml: float
    state: PartState
    last_ms: int | None = None
    lots: tuple[LotId, ...] = ()

    @property
    def add_g(self) -> float:
        """What is still to come of it [g]."""
        return max(0.0, self.target_g - self.in_g) if self.state in (PartState.TO_COME, PartState.SHORT) else 0.0

    @property
    def over_g(self) -> float:
        """How much more of it is in than was planned and may be [g], 0 for no more."""
        more = self.in_g - self.planned_g
        return more if more > self.within_g else 0.0


@dataclass(frozen=True, slots=True)
class CupClockNow:
    """A cup's clock, from the moment that its parts met.

    Parameters
    ----------
    from_ms : when they met.
    out_by_ms : when it must be on the work.
    work_by_ms : when all that is done with it must be over.
    stage : where it stands; of a cup that is on the work or gelled, when it came there.
    """

    from_ms: int
    out_by_ms: int
    work_by_ms: int
    stage: ClockStage


@dataclass(frozen=True, slots=True)
class CupNow:
    """One cup at one moment.

    Parameters
    ----------
    ref : which: the plan's, for which cast, the how-manyth that is mixed for it.
    mix : as it was planned.
    act : the act that mixes it.
    share : how much of the planned cup's work this filling does, as it was begun.
    state : where it stands.
    parts : in the order in which they go in.
    clock : None before its parts met, or where none runs.
    put_right : new targets where a part was poured over.
    refused : why no targets put it right.
    poured_ms, gelled_ms : when it came onto the work, when it was past use.
    used : of a gelled one, the share of it that is on the work.
    temperature_c : of the mix, as it was last measured.
    out_of_order : the first part that went in before one that goes in before it; None where none did.
    out_in_s, lasts_s : by when after its parts met it is to be on the work, and all done with it, in the air as it was
        last read and of the mass that it has or gets; None where no clock runs.
    most_g : the heaviest that it may become, for what is left of the time.
    settled : nothing more is done with it.
    """

    ref: CupRef
    mix: MixPlan
    act: Act
    share: float
    state: CupState
    parts: tuple[PartNow, ...]
    clock: CupClockNow | None = None
    put_right: Correction | None = None
    refused: Refusal | None = None
    poured_ms: int | None = None
    gelled_ms: int | None = None
    used: float = 0.0
    temperature_c: float | None = None
    out_of_order: PartKind | None = None
    out_in_s: float | None = None
    lasts_s: float | None = None
    most_g: float = 0.0
    settled: bool = False

    @property
    def in_g(self) -> float:
        """All that is in [g]."""
        return fsum(part.in_g for part in self.parts)

    @property
    def next(self) -> PartNow | None:
        """The part that goes in next, None where none does."""
        if self.settled or self.refused is not None:
            return None
        return next((part for part in self.parts if part.state in (PartState.TO_COME, PartState.SHORT)), None)

    @property
    def reacts(self) -> bool:
        """Whether both of the parts that react are in: it sets in its cup, and gets hot."""
        return self.ratio is not None

    @property
    def ratio(self) -> float | None:
        """Mass of the later of the parts that react for one gram of the earlier; None where not both are in."""
        pair = [part.in_g for part in self.parts if part.kind in REACTING]
        return pair[1] / pair[0] if len(pair) > 1 and all(mass > 0.0 for mass in pair) else None
