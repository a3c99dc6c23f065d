"""Where every act stands: what may be done now, what must wait, for what and how long."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from moldwright.bench.acts import Act, PlannedAct
from moldwright.bench.clocks import Clocks, wait_ends, window_closes
from moldwright.bench.done import ActEntry, Acts
from moldwright.bench.now import ActNow, ActState, HeldBy, WaitEnds, WaitNow, WaitStage, WindowNow, tack_stage
from moldwright.ranges import Range


@dataclass(frozen=True, slots=True)
class Progress:
    """How far a run has come: its acts, what is written of them, by what its times go, when each wait ends, the
    moment."""

    acts: Mapping[Act, PlannedAct]
    written: Acts
    clocks: Clocks
    waits: Mapping[Act, WaitEnds]
    now_ms: int
    ended: bool = False

    def needs(self, act: Act) -> tuple[Act, ...]:
        """What must be done before an act; in the place of what is left out, what that one needed.

        Parameters
        ----------
        act : of the run.
        """
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


def progress(acts: Sequence[PlannedAct], written: Acts, clocks: Clocks, now_ms: int, ended: bool = False) -> Progress:
    """How far a run has come.

    Parameters
    ----------
    acts : of the run, in order.
    written : what stands in the log of each.
    clocks : by what its times go.
    now_ms : the moment.
    ended : nothing more is to be done.
    """
    done = ((each, written[each.act].done_ms) for each in acts if written[each.act].done_timed)
    told = {planned.act: wait_ends(planned.step, at, clocks) for planned, at in done if at is not None}
    waits = {act: ends for act, ends in told.items() if ends is not None}
    return Progress({planned.act: planned for planned in acts}, written, clocks, waits, now_ms, ended)


def acts_now(at: Progress, struck: frozenset[Act]) -> tuple[ActNow, ...]:
    """Every act as it stands.

    Parameters
    ----------
    at : how far the run has come.
    struck : acts of which something written has a line through it.
    """
    return tuple(_now(planned, at, planned.act in struck) for planned in at.acts.values())


def _now(planned: PlannedAct, at: Progress, struck: bool) -> ActNow:
    entry = at.written[planned.act]
    holds = () if at.begun(planned.act) else tuple(_holds(planned.act, at))
    state = _state(planned.act, entry, at, bool(holds), struck)
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
    waiting: dict[Act, list[Act]] = {}
    for act in at.acts:
        if not at.begun(act):
            for need in at.needs(act):
                waiting.setdefault(need, []).append(act)
    return tuple(_wait(need, tuple(next_), at) for need, next_ in waiting.items() if _runs(need, at))


def _runs(act: Act, at: Progress) -> bool:
    return act in at.waits and at.waits[act].stage(at.now_ms) is not WaitStage.OVER


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
