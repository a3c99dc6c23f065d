"""What the bench tells of an act, a cup, clocks and waits, line by line."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from textwrap import wrap
from typing import Any

from moldwright.bench.cup_now import ClockStage, CupNow, PartNow, PartState
from moldwright.bench.now import ActNow, ActState, TackStage, WaitNow, WaitStage, WindowNow
from moldwright.bench.run import RunState
from moldwright.bench.what_now import WhatNow, what_now
from moldwright.mixing.correct import HOT_REST
from moldwright.plan.mixes import MeasuredBy
from moldwright.sheets.bench_words import BenchWords, clock, ends, lasting
from moldwright.text.harmless import harmless
from moldwright.words.marked import words
from moldwright.words.speaker import say

WIDE = 96
"""Letters in a line: our own."""
PAST = words("Feel it: strings or warm, use no more of it")
SPENT = words("Use no more of it, let it set")
"""What to do with a cup past the time by which it was to be on the work, and past its pot life."""
NOTHING_REACTS = words(
    "Out of order, but nothing reacts yet: go on as asked, the clock starts with the second of A and B."
)
REACTS = words("It reacts already: what is lacking goes in now, without a break, and is stirred in at once.")
"""What to do where parts went in out of their order."""


def act_lines(words: BenchWords, act: ActNow) -> Iterator[str]:
    """All that the sheet says of a step: its cautions stand before what is done.

    Parameters
    ----------
    words : of the run's plan.
    act : which.
    """
    told = words.step(act.step)
    cast = f", cast {act.act.turn}" if act.act.turn else ""
    beside = f"  ({told['time']})" if told["time"] else ""
    yield ""
    yield f"{told['number']}{cast}. {_text(told['title'])}{beside}"
    if told["at_hand"]:
        yield from _block("At hand: ", _text(told["at_hand"]))
    for each in _texts(told["before"]):
        yield from _block("True first: ", each)
    yield from (line for each in _dicts(told["cautions"]) for line in _block(_grade(each), each["text"]))
    if told["lift"]:
        yield from _block("LIFT: ", _text(told["lift"]))
    for each in _texts(told["do"]):
        yield from _block("- ", each)
    for table in _tables(told["tables"]):
        yield from (f"    {line}" for line in columns([table["head"], *table["rows"]], table["words"]))
    if told["wait"]:
        yield f"  {'Waits within it' if told['within'] else 'Wait behind it'}: {told['wait']}."


def _grade(caution: dict[str, str]) -> str:
    return f"{caution['severity'].upper()}: "


def _block(head: str, text: str) -> Iterator[str]:
    lines = wrap(harmless(text), WIDE - 2 - len(head), break_on_hyphens=False) or [""]
    yield f"  {head}{lines[0]}"
    yield from (f"  {' ' * len(head)}{line}" for line in lines[1:])


def columns(rows: Sequence[Sequence[str]], words: int) -> Iterator[str]:
    """A table's rows, its columns as wide as they need: words to the left, figures to the right.

    Parameters
    ----------
    rows : heads first, as many texts in each.
    words : so many of the first columns are words.

    >>> list(columns([("For", "Strips"), ("round", "12")], 1))
    ['For    Strips', 'round      12']
    """
    wide = [max(map(len, column)) for column in zip(*rows, strict=True)]
    for row in rows:
        cells = [t.ljust(w) if k < words else t.rjust(w) for k, (t, w) in enumerate(zip(row, wide, strict=True))]
        yield harmless("  ".join(cells)).rstrip()


def _tables(value: object) -> list[dict[str, Any]]:
    return [dict(each) for each in value] if isinstance(value, list) else []


def _text(value: object) -> str:
    return str(value)


def _texts(value: object) -> list[str]:
    return [str(each) for each in value] if isinstance(value, list) else []


def _dicts(value: object) -> list[dict[str, str]]:
    return [dict(each) for each in value] if isinstance(value, list) else []


def part_line(words: BenchWords, cup: CupNow, part: PartNow) -> str:
    """What goes in next, and what the scale then shows.

    Parameters
    ----------
    words : of the run's plan.
    cup : which.
    part : of it.
    """
    name = words.part(cup, part.kind)
    reads = words.mass(part.reads_g)
    match part.by:
        case MeasuredBy.STICK:
            return f"{name}: a trace on a clean stick, stirred in."
        case MeasuredBy.SYRINGE:
            check = "" if cup.mix.marked else f" The scale then reads about {reads}."
            return f"{name}: {part.add_ml:g} ml by syringe.{check}"
        case MeasuredBy.MARKS:
            return f"{name}: {words.volume(part.add_ml)}, to the cup's mark."
        case _ if part.state is PartState.SHORT:
            return f"{name}: {words.mass(part.add_g)} more, up to {reads}."
        case _:
            return f"{name}: pour up to {reads}."


def clock_lines(words: BenchWords, state: RunState) -> Iterator[str]:
    """The clocks of cups that run, and tack windows that close.

    Parameters
    ----------
    words : of the run's plan.
    state : of the run.
    """
    yield from (cup_clock(words, cup, state.now_ms) for cup in state.running)
    for window in state.windows:
        if window.stage in (TackStage.CLOSING, TackStage.TOO_LATE):
            yield window_line(words, window, state.now_ms)


def cup_clock(words: BenchWords, cup: CupNow, now_ms: int) -> str:
    """A cup's clock.

    Parameters
    ----------
    words : of the run's plan.
    cup : whose clock runs.
    now_ms : the moment.
    """
    assert cup.clock is not None
    name, by = words.cup(cup.ref), cup.clock.out_by_ms
    match cup.clock.stage:
        case ClockStage.PAST if what_now(cup, now_ms) is WhatNow.LET_SET:
            past = lasting(now_ms - cup.clock.work_by_ms)
            return f"!! Clock of {name}: past its pot life by {past}. {SPENT} (x). {HOT_REST}"
        case ClockStage.PAST:
            return f"!! Clock of {name}: +{lasting(now_ms - by)} past. {PAST} (x)."
        case ClockStage.LAST_FIFTH:
            return f"! Clock of {name}: only {lasting(by - now_ms)} left, on the work by {clock(by, now_ms)}."
        case _:
            return f"Clock of {name}: {lasting(by - now_ms)} left, on the work by {clock(by, now_ms)}."


def order_lines(cup: CupNow, now_ms: int) -> Iterator[str]:
    """What to do where parts went in out of their order.

    Parameters
    ----------
    cup : which.
    now_ms : the moment.
    """
    match what_now(cup, now_ms):
        case WhatNow.NOTHING_REACTS:
            yield NOTHING_REACTS
        case WhatNow.REACTS:
            yield f"! {REACTS}"


def window_line(words: BenchWords, window: WindowNow, now_ms: int) -> str:
    """A tack window.

    Parameters
    ----------
    words : of the run's plan.
    window : which.
    now_ms : the moment.
    """
    of, next_ = words.act(window.of), words.act(window.next)
    till = clock(window.closes.likely_ms, now_ms)
    match window.stage:
        case TackStage.TOO_SOON:
            return f"Tack of {of}: too soon for {next_}, from {clock(window.opens.low_ms, now_ms)} on; by {till}."
        case TackStage.TACKY:
            return f"Tack of {of}: tacky, {next_} is to begin by {till}."
        case TackStage.CLOSING:
            left = lasting(window.closes.likely_ms - now_ms)
            return f"! Tack of {of}: closing, {next_} is to begin within {left}, by {till}."
        case _:
            past = lasting(now_ms - window.closes.likely_ms)
            return f"!! Tack of {of}: too late by {past} for {next_}. {late(of)}"


def late(of: str) -> str:
    """What to do where a tack window is past.

    Parameters
    ----------
    of : the act that was tacky, in words.
    """
    return say("Do as the cautions of {what} say.", what=of)


def wait_line(words: BenchWords, wait: WaitNow, now_ms: int) -> str:
    """What cures, dries or sets by itself.

    Parameters
    ----------
    words : of the run's plan.
    wait : which.
    now_ms : the moment.
    """
    next_ = words.act(wait.next[0]) if wait.next else "what follows"
    over = ends(wait.ends, now_ms)
    if wait.stage is WaitStage.TOO_SOON:
        return f"No hands: {words.act(wait.of)} waits, over {over}. Then {next_}."
    return f"No hands: {words.act(wait.of)} may be over, {wait.stage.value} by {over}: try it, then {next_}."


def where_lines(words: BenchWords, state: RunState) -> Iterator[str]:
    """How far the run is, in a few lines.

    Parameters
    ----------
    words : of the run's plan.
    state : of the run.
    """
    done = sum(each.state in (ActState.DONE, ActState.WAITING) for each in state.acts)
    left = [each for each in state.acts if each.state is ActState.LEFT_OUT]
    without = f", {len(left)} left out" if left else ""
    yield f"{done} of {len(state.acts)} steps are done{without}."
    yield from (f"! {words.found(each)}" for each in state.findings)
    yield from clock_lines(words, state)
    tacky = (each for each in state.windows if each.stage in (TackStage.TOO_SOON, TackStage.TACKY))
    yield from (window_line(words, each, state.now_ms) for each in tacky)
    yield from (wait_line(words, each, state.now_ms) for each in state.waits)
