"""What runs on the screen: clocks of cups, tack windows, waits. All moments are values, the screen counts to them."""

from __future__ import annotations

from collections.abc import Iterator

from moldwright.bench.acts import Act
from moldwright.bench.cup_now import CupNow
from moldwright.bench.now import LAST_SHARE, ActNow, ActState, WaitNow, WindowNow
from moldwright.bench.run import RunState
from moldwright.mixing.correct import HOT_REST
from moldwright.records.runs.ahead import Stand
from moldwright.sheets.bench_tell import PAST, SPENT, late
from moldwright.told.bench.screen_words import ScreenWords
from moldwright.told.bench.view import CupClockShown, OtherAct, WaitShown, WindowShown
from moldwright.told.bench.when import Moments, When
from moldwright.words.speaker import say


def cup_clocks(words: ScreenWords, state: RunState, moments: Moments) -> Iterator[CupClockShown]:
    """The clocks of cups that run.

    Parameters
    ----------
    words : of the plan.
    state : of the run.
    moments : how they are told.
    """
    for cup in state.running:
        yield _cup_clock(words, cup, moments)


def _cup_clock(words: ScreenWords, cup: CupNow, moments: Moments) -> CupClockShown:
    clock = cup.clock
    assert clock is not None
    start, out_by = clock.from_ms, clock.out_by_ms
    last = int(out_by - LAST_SHARE * (out_by - start))
    return CupClockShown(
        cup=words.cup(cup.ref),
        start=moments.event(start),
        last_from=moments.when(last, start),
        out_by=moments.when(out_by, start),
        work_by=moments.when(clock.work_by_ms, start),
        past=f"{say(PAST)}.",
        spent=f"{say(SPENT)}. {say(HOT_REST)}",
    )


def window_shown(words: ScreenWords, window: WindowNow, moments: Moments) -> WindowShown:
    """A tack window.

    Parameters
    ----------
    words : of the plan.
    window : which.
    moments : how they are told.
    """
    start, of = window.from_ms, words.act(window.of)
    return WindowShown(
        of=_named(words, window.of),
        next=_named(words, window.next),
        next_step=window.next.step,
        next_turn=window.next.turn,
        start=moments.event(start),
        opens=moments.ends(window.opens, start),
        closing=moments.when(window.closing_ms, start),
        closes=moments.ends(window.closes, start),
        late=late(of),
    )


def wait_shown(words: ScreenWords, wait: WaitNow, moments: Moments) -> WaitShown:
    """What cures, dries or sets by itself.

    Parameters
    ----------
    words : of the plan.
    wait : which.
    moments : how they are told.
    """
    next_ = _named(words, wait.next[0]) if wait.next else ""
    ends = moments.ends(wait.ends, wait.from_ms)
    return WaitShown(_named(words, wait.of), next_, moments.event(wait.from_ms), ends)


def _named(words: ScreenWords, act: Act) -> str:
    """An act by its title, of a cast with the cast's number."""
    planned = words.places.get(act.step)
    title = words.title(planned.step) if planned is not None else words.act(act)
    return say("{title}, cast {turn}", title=title, turn=act.turn) if act.turn else title


def others_shown(words: ScreenWords, stand: Stand, moments: Moments) -> Iterator[OtherAct]:
    """What else is in hand or may be begun, now or when a wait is over.

    Parameters
    ----------
    words : of the plan.
    stand : the run at its next press.
    moments : how they are told.
    """
    state, here = stand.run.state, None if stand.next.act is None else stand.next.act.act
    for each in state.acts if state.frame.ended_ms is None else ():
        if _may(each) and each.act != here:
            till = None if each.state is ActState.IN_HAND else stand.waits.get(each.act)
            if till is not None:
                yield _other(words, each, moments.when(till.ends.low_ms, till.from_ms))
            elif not each.holds:
                yield _other(words, each, None)


def _may(each: ActNow) -> bool:
    """Whether it is in hand, or nothing but time holds it."""
    if each.state is ActState.TO_COME:
        return bool(each.holds) and each.holds[0].ends is not None and all(held.ends is not None for held in each.holds)
    return each.state is ActState.IN_HAND or each.may_begin


def _other(words: ScreenWords, each: ActNow, since: When | None) -> OtherAct:
    act = each.act
    begun = each.state is ActState.IN_HAND
    number, title = words.numbers[act.step], words.title(each.step)
    return OtherAct(act.step, act.turn, number, words.act(act), title, begun, since)
