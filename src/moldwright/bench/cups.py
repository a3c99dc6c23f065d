"""Every cup of a run with its clock."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from itertools import pairwise
from math import fsum

from moldwright.bench.acts import PlannedAct
from moldwright.bench.clocks import SECOND_MS
from moldwright.bench.cup_now import ClockStage, CupClockNow, CupNow, CupState
from moldwright.bench.done import ActEntry, Acts
from moldwright.bench.fillings import CupFilling, Fillings
from moldwright.bench.kept import FoldKept
from moldwright.bench.laid import LaidCup
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
    """What the cups are told from: the plan's, what is written of acts and cups, what folds have in common, the scale's
    step, the moment, when the run last went on by a new plan, and when it ended."""

    mixes: Mapping[MixId, MixPlan]
    acts: Acts
    fillings: Mapping[tuple[MixId, int], Fillings]
    kept: FoldKept
    step_g: float
    now_ms: int
    replanned_ms: int | None = None
    ended_ms: int | None = None


def cups_now(bench: Bench) -> tuple[CupNow, ...]:
    """All cups that the acts mix, and every filling that is mixed besides, in the order of the work.

    Parameters
    ----------
    bench : what they are told from.
    """
    found: list[CupNow] = []
    for laid in bench.kept.laid.cups:
        if laid.key in bench.fillings:
            found += cups_of(laid, bench)
        elif not bench.acts[laid.act.act].left_out:
            found.append(_bare(laid, bench))
    return tuple(found)


def cups_of(laid: LaidCup, bench: Bench) -> Iterator[CupNow]:
    """Every filling of one planned cup of an act.

    Parameters
    ----------
    laid : which.
    bench : what they are told from.
    """
    known = bench.fillings.get(laid.key, {})
    written = bench.acts[laid.act.act]
    if 1 not in known and not written.left_out:
        yield _bare(laid, bench)
    laid_ms = bench.acts[laid.use].done_ms if known else None
    for number in sorted(known):
        filling = known[number]
        if filling.in_g or _touched(filling) or not _done_since(known, laid_ms, written):
            yield _cup(laid, CupRef(laid.mix, laid.ref.turn, number), filling, laid_ms, bench)


def _bare(laid: LaidCup, bench: Bench) -> CupNow:
    """A cup of which nothing is written."""
    kept = bench.kept.bare.get(laid.ref)
    if kept is None:
        kept = bench.kept.bare[laid.ref] = _told(laid.act, laid.ref, CupFilling(), (None, None), bench)
    return kept


def _touched(filling: CupFilling) -> bool:
    return filling.poured_ms is not None or filling.gelled_ms is not None or bool(filling.strange)


def _done_since(known: Fillings, laid_ms: int | None, written: ActEntry) -> bool:
    """Whether the work was done without the filling that would take a gelled one's place."""
    gelled = max((each.gelled_ms for each in known.values() if each.gelled_ms is not None), default=None)
    return written.left_out or (laid_ms is not None and (gelled is None or laid_ms >= gelled))


def _cup(laid: LaidCup, ref: CupRef, filling: CupFilling, laid_ms: int | None, bench: Bench) -> CupNow:
    """As it stands: what it depends on besides the air is its key."""
    ended = _first(filling.poured_ms, filling.gelled_ms, *((laid_ms, bench.ended_ms) if filling.in_g else ()))
    clock = _clock(bench.mixes[ref.mix], filling, ended, bench)
    key = (filling.key, ended, clock, bench.replanned_ms)
    return bench.kept.cups.of(ref, key, lambda: _told(laid.act, ref, filling, (ended, clock), bench))


def _told(
    act: PlannedAct, ref: CupRef, filling: CupFilling, ended: tuple[int | None, CupClockNow | None], bench: Bench
) -> CupNow:
    mix, (ended_ms, clock) = bench.mixes[ref.mix], ended
    lasts, shorter = _lasts(mix, filling, bench), _shorter(mix, filling)
    most_g = _most_g(mix, lasts)
    told = targets(replace(_planned(mix, filling, bench), most_g=most_g), filling, bench.step_g)
    return CupNow(
        ref=ref,
        mix=mix,
        act=act.act,
        share=filling.share,
        state=_state(told, filling),
        parts=told.parts,
        clock=clock,
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
        settled=ended_ms is not None,
    )


def _lasts(mix: MixPlan, filling: CupFilling, bench: Bench) -> Pace:
    return bench.kept.clocks.in_cup(curing_in(mix.for_.kind), filling.temperatures)


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


def _clock(mix: MixPlan, filling: CupFilling, ended_ms: int | None, bench: Bench) -> CupClockNow | None:
    if filling.met_ms is None or mix.work_by_s is None or mix.out_by_s is None:
        return None
    lasts, shorter = _lasts(mix, filling, bench), _shorter(mix, filling) * SECOND_MS
    work_by, out_by = (lasts.over(filling.met_ms, shorter * by_s) for by_s in (mix.work_by_s, mix.out_by_s))
    until = bench.now_ms if ended_ms is None else min(bench.now_ms, ended_ms)
    return CupClockNow(filling.met_ms, out_by, work_by, _stage(filling.met_ms, out_by, until))


def _shorter(mix: MixPlan, filling: CupFilling) -> float:
    """By how much a cup lasts less for being heavier than planned."""
    return mass_factor(filling.whole_g, mix.mass_g) if filling.whole_g > HEAVIER * mix.mass_g > 0.0 else 1.0


def _stage(from_ms: int, by_ms: int, now_ms: int) -> ClockStage:
    if now_ms >= by_ms:
        return ClockStage.PAST
    return ClockStage.LAST_FIFTH if now_ms >= by_ms - LAST_SHARE * (by_ms - from_ms) else ClockStage.RUNNING
