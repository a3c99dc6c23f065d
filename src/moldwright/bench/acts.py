"""Which acts a run is made of, in order, and what each of them needs.

Two lanes lie side by side once the mold is ready: the mold's own (a cast is in it, or it rests) and, for each cast that
is out of it, the dressing's. What is made ready once a batch, before its first cast, is no work on the mold either.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field

from moldwright.plan.ids import StepId
from moldwright.plan.plan import Plan
from moldwright.plan.steps import EACH_CAST, Per, Phase, StepPlan

PHASES = tuple(Phase)
MOLD_READY = PHASES.index(Phase.MOLD_READY)
POURING = PHASES.index(Phase.SKIN)
DRESSING = PHASES.index(Phase.DRESSING)


@dataclass(frozen=True, slots=True)
class Act:
    """A step done once: `turn` is 0 for what is done once a mold or once at the end, else the cast's number."""

    step: StepId
    turn: int = 0


@dataclass(frozen=True, slots=True)
class PlannedAct:
    """An act with its step of the plan and the acts that must be done before it, their waits over."""

    act: Act
    step: StepPlan
    needs: tuple[Act, ...]


def planned_acts(plan: Plan, casts: int, batch: int = 1, mold_stands: bool = False) -> tuple[PlannedAct, ...]:
    """The acts of a run in the order of the work.

    Parameters
    ----------
    plan : by which it goes.
    casts : how many the run is for, >= 0.
    batch : so many of them in a row, >= 1: what is done once a batch before its casts comes with its first, what is
        done after them with its last.
    mold_stands : it casts from a mold that stands on the shelf; no step of before the mold is ready is done.
    """
    begins = next((n for n, step in enumerate(plan.steps) if step.per in EACH_CAST), len(plan.steps))
    lanes = _Lanes()
    acts = [lanes.mold(step) for step in plan.steps[:begins] if _of_mold(step, mold_stands)]
    for turn in range(1, casts + 1):
        acts += _cast(plan.steps[begins:], turn, _batch_of(turn, casts, batch), lanes)
    return (*acts, *(lanes.last(step) for step in plan.steps if step.per is Per.EDITION))


def _of_mold(step: StepPlan, mold_stands: bool) -> bool:
    return step.per is Per.MOLD and not (mold_stands and PHASES.index(step.phase) < MOLD_READY)


def _batch_of(turn: int, casts: int, batch: int) -> tuple[bool, bool]:
    """Whether a cast is the first, and the last, of its batch."""
    return (turn - 1) % batch == 0, turn % batch == 0 or turn == casts


def _cast(steps: Sequence[StepPlan], turn: int, batch: tuple[bool, bool], lanes: _Lanes) -> Iterator[PlannedAct]:
    """The acts of one cast; what is done once a mold stands among those of the first."""
    lanes.next_cast()
    pours = next((n for n, step in enumerate(steps) if step.mixes), len(steps))
    for n, step in enumerate(steps):
        match step.per:
            case Per.CAST:
                yield lanes.cast(step, turn)
            case Per.BATCH if n <= pours and batch[0]:
                yield lanes.ready(step, turn)
            case Per.BATCH if n > pours and batch[1]:
                yield lanes.after(step, turn)
            case Per.MOLD if turn == 1:
                yield lanes.gate(step)


@dataclass(slots=True)
class _Lanes:
    """How far each lane has come, as the acts are laid out."""

    in_mold: tuple[Act, ...] = ()
    made_ready: tuple[Act, ...] = ()
    dressed: tuple[Act, ...] = ()
    gates: tuple[Act, ...] = ()
    out: list[Act] = field(default_factory=list)

    def mold(self, step: StepPlan) -> PlannedAct:
        return self._in_mold(step, 0)

    def next_cast(self) -> None:
        self.out += self.dressed
        self.made_ready = self.dressed = ()

    def ready(self, step: StepPlan, turn: int) -> PlannedAct:
        made = PlannedAct(Act(step.id, turn), step, self.made_ready or self.in_mold)
        self.made_ready = (made.act,)
        return made

    def cast(self, step: StepPlan, turn: int) -> PlannedAct:
        phase = PHASES.index(step.phase)
        if phase >= DRESSING:
            return self._dressing(step, turn)
        if phase < POURING:
            return self._in_mold(step, turn)
        met, self.made_ready = self.made_ready, ()
        gates, self.gates = (self.gates if turn > 1 else ()), (() if turn > 1 else self.gates)
        return self._in_mold(step, turn, (*met, *gates))

    def gate(self, step: StepPlan) -> PlannedAct:
        made = self._dressing(step, 0) if PHASES.index(step.phase) >= DRESSING else self._in_mold(step, 0)
        self.gates = (*self.gates, made.act)
        return made

    def after(self, step: StepPlan, turn: int) -> PlannedAct:
        if not self.dressed:
            self.dressed = self.in_mold
        return self._in_mold(step, turn)

    def last(self, step: StepPlan) -> PlannedAct:
        needs = tuple(dict.fromkeys((*self.in_mold, *self.out, *self.dressed)))
        self.in_mold, self.dressed, self.out = (Act(step.id),), (), []
        return PlannedAct(Act(step.id), step, needs)

    def _in_mold(self, step: StepPlan, turn: int, also: tuple[Act, ...] = ()) -> PlannedAct:
        made = PlannedAct(Act(step.id, turn), step, (*self.in_mold, *also))
        self.in_mold = (made.act,)
        return made

    def _dressing(self, step: StepPlan, turn: int) -> PlannedAct:
        made = PlannedAct(Act(step.id, turn), step, self.dressed or self.in_mold)
        self.dressed = (made.act,)
        return made
