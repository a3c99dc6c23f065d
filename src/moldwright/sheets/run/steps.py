"""What stands in the log of each step, as the sheets print it beside the plan's texts."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import groupby
from typing import Any

from moldwright.bench.acts import Act
from moldwright.bench.clocks import wait_ends
from moldwright.bench.now import ActNow, ActState, WaitEnds
from moldwright.log.any_events import Attached, Noted
from moldwright.log.event import Event
from moldwright.log.run_events import Begun, Done, LeftOut, Problem
from moldwright.plan.steps import StepPlan
from moldwright.sheets.run.boxes import Filled, boxes
from moldwright.sheets.run.shown import RunShown, timed, typed_in
from moldwright.sheets.wording import table

IS_DONE = (ActState.DONE, ActState.WAITING)
NOTES = (Noted, Attached, Problem)


def step_marks(shown: RunShown, step: StepPlan, turn: int) -> dict[str, Any]:
    """What the log adds to a step.

    Parameters
    ----------
    shown : the run.
    step : the step.
    turn : of which cast, 0 for what is done once.
    """
    act = shown.act(Act(step.id, turn))
    filled = boxes(shown, step, turn)
    notes = notes_at(shown, step, turn)
    if act is None:
        return _marks(notes=notes)
    return _marks(
        mark="done" if act.state in IS_DONE else "out" if act.state is ActState.LEFT_OUT else "",
        told=_told(shown, act),
        wait=_wait(shown, act),
        boxes=[{"text": _in_box(each), "typed": each.typed} for each in filled],
        notes=notes,
    )


def batch_marks(shown: RunShown, step: StepPlan) -> dict[str, Any]:
    """The same of a step that comes with every batch of casts: for which casts it was done, its boxes left free.

    Parameters
    ----------
    shown : the run.
    step : the step.
    """
    acts = [act for act in shown.state.acts if act.act.step == step.id]
    done = [act for act in acts if act.state in IS_DONE]
    if not done:
        return _marks()
    last = max((at_ms for act in done if (at_ms := shown.done_ms(act.act)) is not None), default=None)
    told = _words()["batches"].format(casts=casts_text([act.act.turn for act in done]))
    return _marks(told=[told if last is None else f"{told}, {_words()['last']} {shown.moment(last)}"])


def _marks(
    mark: str = "",
    told: Sequence[str] = (),
    wait: dict[str, str] | None = None,
    boxes: Sequence[dict[str, Any]] = (),
    notes: Sequence[str] = (),
) -> dict[str, Any]:
    return {"mark": mark, "told": list(told), "wait": wait, "boxes": list(boxes), "notes": list(notes)}


def _in_box(filled: Filled) -> str:
    return f"{filled.text} at {filled.at}" if filled.at else filled.text


def _words() -> dict[str, Any]:
    return dict(table()["run"])


def _told(shown: RunShown, act: ActNow) -> list[str]:
    """When it was begun and done, by whom, or why it is left out."""
    words = _words()
    if act.state is ActState.LEFT_OUT:
        left = _last(shown, act, LeftOut)
        return [f"{_entry(shown, words['left-out'], left, None)}: {act.why}"]
    begun, done = _last(shown, act, Begun), _last(shown, act, Done)
    if act.state in IS_DONE:
        first = [] if begun is None or act.begun_ms is None else [_entry(shown, words["begun"], begun, done)]
        after = begun.at_ms if first and begun is not None and timed(begun.body) else None
        what = words["then-done"] if first else words["done"]
        return [", ".join([*first, _entry(shown, what, done, None, after)])]
    if act.state is ActState.IN_HAND:
        return [_entry(shown, words["in-hand"], begun, None, fallback_ms=act.begun_ms)]
    return []


def _entry(
    shown: RunShown,
    what: str,
    event: Event | None,
    later: Event | None,
    after_ms: int | None = None,
    fallback_ms: int | None = None,
) -> str:
    """An entry with its time, and who wrote it; what a later one says as well is left to it."""
    if event is None:
        return what if fallback_ms is None else f"{what} {shown.moment(fallback_ms)}"
    told = f"{what} {shown.moment(event.at_ms, after_ms)}" if timed(event.body) else what
    same = later is not None and later.by == event.by
    typed = typed_in(event) and not (later is not None and typed_in(later))
    return ", ".join([told, *([event.by] if event.by and not same else []), *([_words()["typed"]] if typed else [])])


def _last(shown: RunShown, act: ActNow, kind: type[Begun] | type[Done] | type[LeftOut]) -> Event | None:
    """The entry of a kind by which an act stands as it does."""
    own = [e for e in shown.stands if isinstance(e.body, kind) and Act(e.body.step, e.body.turn) == act.act]
    at = {Begun: act.begun_ms, Done: act.done_ms, LeftOut: None}[kind]
    return next((e for e in own if e.at_ms == at), own[-1] if own else None)


def _wait(shown: RunShown, act: ActNow) -> dict[str, str] | None:
    """From when it waits, as written; till when, as reckoned; None where nobody said when it was done."""
    done_ms = shown.done_ms(act.act)
    ends = None if done_ms is None else wait_ends(act.step, done_ms, shown.clocks)
    if ends is None or done_ms is None:
        return None
    return {"from": shown.clock(done_ms), "till": till(shown, ends, done_ms)}


def till(shown: RunShown, ends: WaitEnds, after_ms: int) -> str:
    """When a wait is over: likely, and between when and when.

    Parameters
    ----------
    shown : the run.
    ends : its ends.
    after_ms : a moment that was told before.
    """
    likely = shown.near(ends.likely_ms, after_ms)
    low, high = shown.near(ends.low_ms, ends.likely_ms), shown.near(ends.high_ms, ends.likely_ms)
    return likely if ends.low_ms == ends.high_ms else f"{likely} ({low}–{high})"


def notes_at(shown: RunShown, step: StepPlan, turn: int) -> list[str]:
    """Notes, problems and what is kept with a step, in their order.

    Parameters
    ----------
    shown : the run.
    step, turn : where.
    """
    return [note_text(shown, event) for event in shown.stands if _is_at(event, step, turn)]


def _is_at(event: Event, step: StepPlan, turn: int) -> bool:
    body = event.body
    if isinstance(body, Problem) and body.cup is not None and not body.step:
        return body.cup.mix in step.mixes and body.cup.turn == turn
    return isinstance(body, NOTES) and (body.step, body.turn) == (step.id, turn)


def note_text(shown: RunShown, event: Event) -> str:
    """A note, a problem or a kept file, with its time and who wrote it.

    Parameters
    ----------
    shown : the run.
    event : a note, a problem or a kept file.
    """
    words, body = _words(), event.body
    match body:
        case Problem(what=what, text=text):
            told = ": ".join(filter(None, (words["problem"].format(what=what), text)))
        case Attached(text=text):
            told = ": ".join(filter(None, (words["kept"], text)))
        case Noted(text=text):
            told = text
        case _:
            told = ""
    typed = [words["typed"]] if typed_in(event) else []
    return f"{', '.join([shown.moment(event.at_ms), *filter(None, [event.by]), *typed])}: {told}"


def casts_text(turns: Iterable[int]) -> str:
    """Numbers of casts, those in a row as a span.

    Parameters
    ----------
    turns : of the casts.

    >>> casts_text([1, 2, 3, 5])
    '1 to 3, 5'
    """
    runs = [[n for _, n in run] for _, run in groupby(enumerate(sorted(turns)), key=lambda row: row[1] - row[0])]
    return ", ".join(str(run[0]) if len(run) == 1 else f"{run[0]} to {run[-1]}" for run in runs)
