"""Where every act stands: what may be done now, what must wait, for what and how long."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from functools import partial

from moldwright.bench.acts import Act, PlannedAct
from moldwright.bench.clocks import Clocks, wait_ends, window_closes
from moldwright.bench.done import ActEntry, Acts
from moldwright.bench.kept import FoldKept
from moldwright.bench.laid import Laid
from moldwright.bench.now import ActNow, ActState, HeldBy, WaitEnds, WaitNow, WaitStage, WindowNow, tack_stage
from moldwright.ranges import Range


@dataclass(frozen=True, slots=True)
class Progress:
    """How far a run has come: its acts, what is written of them, by what its times go, when each wait ends, the
    moment; whether nothing more is to be done, and whether some act is left out."""

    laid: Laid
    written: Acts
    clocks: Clocks
    waits: Mapping[Act, WaitEnds]
    now_ms: int
    ended: bool = False
    left: bool = False

    @property
    def acts(self) -> Mapping[Act, PlannedAct]:
        """The acts by what they are, in order."""
        return self.laid.by_act

    def needs(self, act: Act) -> tuple[Act, ...]:
        """What must be done before an act; in the place of what is left out, what that one needed.

        Parameters
        ----------
        act : of the run.
        """
        if not self.left:
            needs = self.acts[act].needs
            return needs if len(needs) < 2 else tuple(dict.fromkeys(needs))
        found: dict[Act, None] = {}
        open_ = list(reversed(self.acts[act].needs))
        while open_:
            need = open_.pop()
            if self.written[need].left_out:
                open_ += reversed(self.acts[need].needs)
            else:
                found[need] = None
        return tuple(found)

    def begun(self, act: Act) -> bool:
        """Whether it is begun, done or left out: nothing holds it any more.

        Parameters
        ----------
        act : of the run.
        """
        return self.written[act].touched


def progress(kept: FoldKept, written: Acts, now_ms: int, ended: bool = False) -> Progress:
    """How far a run has come.

    Parameters
    ----------
    kept : its acts, and by what its times go.
    written : what stands in the log of its acts.
    now_ms : the moment.
    ended : nothing more is to be done.
    """
    laid, waits = kept.laid, {}
    for act in laid.in_order(written):
        entry = written[act]
        if entry.done_ms is not None and entry.done_timed:
            ends = kept.waits.of(
                act, entry.done_ms, partial(wait_ends, laid.by_act[act].step, entry.done_ms, kept.clocks)
            )
            if ends is not None:
                waits[act] = ends
    left = any(entry.left_out for entry in written.values())
    return Progress(laid, written, kept.clocks, waits, now_ms, ended, left)


def acts_now(at: Progress, struck: frozenset[Act], kept: FoldKept) -> tuple[ActNow, ...]:
    """Every act as it stands.

    Parameters
    ----------
    at : how far the run has come.
    struck : acts of which something written has a line through it.
    kept : what its folds have in common.
    """
    asleep = kept.asleep.of(at.ended, None, partial(_asleep, at))
    told = list(asleep)
    for n in kept.laid.awake((*at.written, *struck)):
        planned = kept.laid.acts[n]
        told[n] = _now(planned, at, planned.act in struck, kept)
    return tuple(told)


def _asleep(at: Progress) -> tuple[ActNow, ...]:
    """Every act, as it stands while nothing is written of it or of what it needs."""
    bare = replace(at, written=Acts(), waits={}, left=False)
    return tuple(_as_it_stands(planned, bare, False) for planned in at.acts.values())


def _now(planned: PlannedAct, at: Progress, struck: bool, kept: FoldKept) -> ActNow:
    """As it stands: what it depends on besides the air is its key."""
    entry = at.written[planned.act]
    holds = () if entry.touched else tuple(_holds(planned.act, at))
    state = _state(planned.act, entry, at, bool(holds), struck)
    key = (entry.begun_ms, entry.done_ms, entry.why, entry.done_timed, holds, state, struck)
    return kept.acts.of(planned.act, key, lambda: _told(planned, at, entry, holds, state, struck))


def _as_it_stands(planned: PlannedAct, at: Progress, struck: bool) -> ActNow:
    entry = at.written[planned.act]
    holds = () if entry.touched else tuple(_holds(planned.act, at))
    return _told(planned, at, entry, holds, _state(planned.act, entry, at, bool(holds), struck), struck)


def _told(
    planned: PlannedAct, at: Progress, entry: ActEntry, holds: tuple[HeldBy, ...], state: ActState, struck: bool
) -> ActNow:
    wait = planned.step.wait_min
    return ActNow(
        planned.act,
        planned.step,
        state,
        entry.begun_ms,
        entry.done_ms,
        entry.why or "",
        struck,
        holds,
        wait if wait is None else _times(wait, at.clocks.factor(planned.step.cures)),
        entry.done_timed,
    )


def _times(wait_min: Range, factor: Range) -> Range:
    return Range(wait_min.low * factor.low, wait_min.likely * factor.likely, wait_min.high * factor.high)


def _state(act: Act, entry: ActEntry, at: Progress, held: bool, struck: bool) -> ActState:
    if entry.left_out:
        return ActState.LEFT_OUT
    if entry.done_ms is not None:
        ends = at.waits.get(act)
        return ActState.WAITING if ends is not None and at.now_ms < ends.low_ms else ActState.DONE
    if entry.begun_ms is not None:
        return ActState.IN_HAND
    if struck:
        return ActState.STRUCK_OUT
    return ActState.TO_COME if held or at.ended else ActState.READY


def _holds(act: Act, at: Progress) -> Iterator[HeldBy]:
    for need in at.needs(act):
        ends = at.waits.get(need)
        if at.written[need].done_ms is None:
            yield HeldBy(need)
        elif ends is not None and at.now_ms < ends.low_ms:
            yield HeldBy(need, ends)


def waits_now(at: Progress) -> tuple[WaitNow, ...]:
    """The waits that are running for something that is not begun yet, up to their high end.

    Parameters
    ----------
    at : how far the run has come.
    """
    if at.ended:
        return ()
    running = {act for act in at.waits if _runs(act, at)}
    waiting: dict[Act, list[Act]] = {}
    for act in _candidates(running, at):
        if not at.begun(act):
            for need in at.needs(act):
                if need in running:
                    waiting.setdefault(need, []).append(act)
    return tuple(_wait(need, tuple(next_), at) for need, next_ in waiting.items())


def _candidates(running: Iterable[Act], at: Progress) -> Iterable[Act]:
    """What may wait for one of those, in order: of a run of which something is left out all acts."""
    if at.left:
        return at.laid.by_act
    places = {n for act in running for n in at.laid.followers[at.laid.place[act]]}
    return (at.laid.acts[n].act for n in sorted(places))


def _runs(act: Act, at: Progress) -> bool:
    return at.waits[act].stage(at.now_ms) is not WaitStage.OVER


def _wait(act: Act, next_: tuple[Act, ...], at: Progress) -> WaitNow:
    from_ms = at.written[act].done_ms
    assert from_ms is not None
    ends = at.waits[act]
    return WaitNow(act, from_ms, ends, ends.stage(at.now_ms), next_)


def windows_now(at: Progress) -> tuple[WindowNow, ...]:
    """The tack windows that are running: something must begin while another is tacky, and has not.

    Parameters
    ----------
    at : how far the run has come.
    """
    return () if at.ended else tuple(_open_windows(at))


def _open_windows(at: Progress) -> Iterator[WindowNow]:
    for act, opens in at.waits.items():
        told = window_of(act, at)
        if told is not None and not at.begun(told[0]):
            next_, closes = told
            from_ms = at.written[act].done_ms
            assert from_ms is not None
            yield WindowNow(act, next_, from_ms, opens, closes, tack_stage(opens, closes, at.now_ms))


def window_of(act: Act, at: Progress) -> tuple[Act, WaitEnds] | None:
    """What must begin while an act's work is tacky, and when its window closes; None where none does.

    Parameters
    ----------
    act : of the run.
    at : how far the run has come.
    """
    step, done = at.acts[act].step, at.written[act].done_ms
    closes = window_closes(step, done, at.clocks) if done is not None else None
    next_ = Act(step.closes_for, act.turn)
    return (next_, closes) if closes is not None and next_ in at.acts else None
