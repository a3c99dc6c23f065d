"""Every cup of a run with its clock."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from math import fsum

from moldwright.bench.acts import Act, PlannedAct
from moldwright.bench.clocks import SECOND_MS, Clocks
from moldwright.bench.cup_now import ClockStage, CupClockNow, CupNow, CupState
from moldwright.bench.done import ActEntry, Acts
from moldwright.bench.fillings import CupFilling, Fillings
from moldwright.bench.now import LAST_SHARE
from moldwright.bench.pace import Pace
from moldwright.bench.targets import Targets, targets
from moldwright.cure.potlife import mass_factor
from moldwright.log.run_events import CupRef
from moldwright.mixing.share import part_of
from moldwright.plan.clocks import curing_in
from moldwright.plan.ids import MixId
from moldwright.plan.mixes import MixPlan, PartKind, TaskKind

HEAVIER = 1.01
"""From so many times its planned mass on a cup's clock is shortened: our own."""


@dataclass(frozen=True, slots=True)
class Bench:
    """What the cups are told from: the plan's, what is written of acts and cups, by what times go, the scale's step,
    the moment, when the run last went on by a new plan, and when it ended."""

    mixes: Mapping[MixId, MixPlan]
    acts: Acts
    fillings: Mapping[tuple[MixId, int], Fillings]
    clocks: Clocks
    step_g: float
    now_ms: int
    replanned_ms: int | None = None
    ended_ms: int | None = None


def cups_now(acts: Sequence[PlannedAct], bench: Bench) -> tuple[CupNow, ...]:
    """All cups that the acts mix, and every filling that is mixed besides, in the order of the work.

    Parameters
    ----------
    acts : of the run.
    bench : what they are told from.
    """
    uses = dict(_uses(acts))
    return tuple(cup for act in acts for id_ in act.step.mixes for cup in _fillings(act, uses[act.act], id_, bench))


def _uses(acts: Sequence[PlannedAct]) -> Iterator[tuple[Act, Act]]:
    """The act that brings an act's cups onto the work: its own, or the coat's own work behind its mixing."""
    for one, other in pairwise((*acts, None)):
        assert one is not None
        coat = one.step.coat
        lays = other is not None and coat is not None and other.step.coat == coat and not other.step.mixes
        yield one.act, other.act if lays and other is not None else one.act


def _fillings(act: PlannedAct, use: Act, id_: MixId, bench: Bench) -> Iterator[CupNow]:
    mix, written = bench.mixes[id_], bench.acts[act.act]
    laid = bench.acts[use].done_ms
    known = bench.fillings.get((id_, act.act.turn), {})
    if 1 not in known and not written.left_out:
        yield _cup(mix, act, CupRef(id_, act.act.turn), CupFilling(), laid, bench)
    for number in sorted(known):
        filling = known[number]
        if filling.in_g or _touched(filling) or not _done_since(known, laid, written):
            yield _cup(mix, act, CupRef(id_, act.act.turn, number), filling, laid, bench)


def _touched(filling: CupFilling) -> bool:
    return filling.poured_ms is not None or filling.gelled_ms is not None or bool(filling.strange)


def _done_since(known: Fillings, laid_ms: int | None, written: ActEntry) -> bool:
    """Whether the work was done without the filling that would take a gelled one's place."""
    gelled = max((each.gelled_ms for each in known.values() if each.gelled_ms is not None), default=None)
    return written.left_out or (laid_ms is not None and (gelled is None or laid_ms >= gelled))


def _cup(mix: MixPlan, act: PlannedAct, ref: CupRef, filling: CupFilling, laid_ms: int | None, bench: Bench) -> CupNow:
    lasts = bench.clocks.in_cup(curing_in(mix.for_.kind), filling.temperatures)
    most_g = _most_g(mix, lasts)
    own = replace(_planned(mix, filling, bench), most_g=most_g)
    told = targets(own, filling, bench.step_g)
    ended = _first(filling.poured_ms, filling.gelled_ms, *((laid_ms, bench.ended_ms) if filling.in_g else ()))
    shorter = _shorter(mix, filling)
    return CupNow(
        ref=ref,
        mix=mix,
        act=act.act,
        share=filling.share,
        state=_state(told, filling),
        parts=told.parts,
        clock=_clock(mix, filling, lasts, ended, bench.now_ms),
        put_right=told.put_right,
        refused=told.refused,
        poured_ms=filling.poured_ms,
        gelled_ms=filling.gelled_ms,
        used=filling.used,
        temperature_c=filling.temperatures[-1][1] if filling.temperatures else None,
        out_of_order=_out_of_order(mix, filling),
        out_in_s=None if mix.out_by_s is None else mix.out_by_s * shorter / lasts.now,
        lasts_s=None if mix.work_by_s is None else mix.work_by_s * shorter / lasts.now,
        most_g=most_g,
        settled=ended is not None,
    )


def _planned(mix: MixPlan, filling: CupFilling, bench: Bench) -> MixPlan:
    """The cup as planned for a filling; one that was used before the plan was made anew, by the plan of then."""
    used_ms = _first(filling.poured_ms, filling.gelled_ms)
    if bench.replanned_ms is None or used_ms is None or used_ms > bench.replanned_ms:
        return part_of(mix, filling.share, bench.step_g)
    parts = (replace(part, mass_g=filling.target_g.get(part.kind, part.mass_g)) for part in mix.parts)
    return replace(mix, parts=tuple(parts))


def _out_of_order(mix: MixPlan, filling: CupFilling) -> PartKind | None:
    """The first part that went in before one that goes in before it."""
    there = [(part.kind, filling.first_ms[part.kind]) for part in mix.parts if part.kind in filling.first_ms]
    return next((kind for (_, earlier), (kind, later) in pairwise(there) if later < earlier), None)


def _state(told: Targets, filling: CupFilling) -> CupState:
    if filling.gelled_ms is not None:
        return CupState.GELLED
    return CupState.ON_THE_WORK if filling.poured_ms is not None else told.state


def _most_g(mix: MixPlan, lasts: Pace) -> float:
    """The heaviest that a cup may be: in the warm what hands bring onto the work before it must be there."""
    hand_s = by_hand_s(mix)
    if lasts.now <= 1.0 or mix.out_by_s is None or hand_s <= 0.0:
        return mix.most_g
    left_s = mix.out_by_s / lasts.now - mixing_s(mix)
    return min(mix.most_g, max(mix.mass_g, mix.mass_g * left_s / hand_s))


def mixing_s(mix: MixPlan) -> float:
    """How long a cup is mixed [s].

    Parameters
    ----------
    mix : as planned.
    """
    return fsum(task.duration_s for task in mix.tasks if task.kind is TaskKind.MIX)


def by_hand_s(mix: MixPlan) -> float:
    """How long it takes to lay, pack or pour a cup [s].

    Parameters
    ----------
    mix : as planned.
    """
    return fsum(task.duration_s for task in mix.tasks if task.kind not in (TaskKind.MIX, TaskKind.SWIRL))


def _first(*times: int | None) -> int | None:
    """The first of those times that are known."""
    return min((each for each in times if each is not None), default=None)


def _clock(mix: MixPlan, filling: CupFilling, lasts: Pace, ended_ms: int | None, now_ms: int) -> CupClockNow | None:
    if filling.met_ms is None or mix.work_by_s is None or mix.out_by_s is None:
        return None
    shorter = _shorter(mix, filling) * SECOND_MS
    work_by, out_by = (lasts.over(filling.met_ms, shorter * by_s) for by_s in (mix.work_by_s, mix.out_by_s))
    until = now_ms if ended_ms is None else min(now_ms, ended_ms)
    return CupClockNow(filling.met_ms, out_by, work_by, _stage(filling.met_ms, out_by, until))


def _shorter(mix: MixPlan, filling: CupFilling) -> float:
    """By how much a cup lasts less for being heavier than planned."""
    return mass_factor(filling.whole_g, mix.mass_g) if filling.whole_g > HEAVIER * mix.mass_g > 0.0 else 1.0


def _stage(from_ms: int, by_ms: int, now_ms: int) -> ClockStage:
    if now_ms >= by_ms:
        return ClockStage.PAST
    return ClockStage.LAST_FIFTH if now_ms >= by_ms - LAST_SHARE * (by_ms - from_ms) else ClockStage.RUNNING
