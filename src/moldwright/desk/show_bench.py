"""Runs for people and as JSON: all of them in a line each, one of them as it stands."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

from moldwright.bench.acts import Act
from moldwright.bench.cup_now import CupNow
from moldwright.bench.now import ActNow, ActState
from moldwright.desk.bench_open import row_line
from moldwright.log.codes import short_code
from moldwright.log.event import Event
from moldwright.log.json_text import kind_of
from moldwright.log.standing import struck
from moldwright.plan.json_text import tree_of
from moldwright.records.runs.listing import RunRow
from moldwright.records.runs.next_act import next_act
from moldwright.records.runs.opened import OpenRun
from moldwright.sheets.bench_tell import where_lines
from moldwright.sheets.bench_words import BenchWords, clock
from moldwright.text.harmless import harmless
from moldwright.told.bench.entry_words import said_of

LAST = 12
"""Entries that are shown of a run."""


def rows_shown(rows: Sequence[RunRow], now_ms: int) -> str:
    """Runs in a line each.

    Parameters
    ----------
    rows : they.
    now_ms : the moment.
    """
    return "\n".join(row_line(row, now_ms) for row in rows) or "No run yet: `moldwright bench PLAN` starts one."


def row_tree(row: RunRow) -> dict[str, Any]:
    """A run of the list as JSON.

    Parameters
    ----------
    row : which.
    """
    tree: dict[str, Any] = tree_of(row)
    return tree | {"code": short_code(row.id)}


def run_shown(run: OpenRun) -> Iterator[str]:
    """A run as it stands, line by line.

    Parameters
    ----------
    run : which.
    """
    words, now_ms = BenchWords(run.plan), run.state.now_ms
    yield f"{short_code(run.id)}  {harmless(run.plan.name)}"
    yield from where_lines(words, run.state)
    for act in run.state.acts:
        if act.state not in (ActState.TO_COME, ActState.DONE):
            yield _act_line(words, act, now_ms)
    yield "Last entries:"
    gone = struck(run.events)
    yield from (f"  {entry_line(words, event, now_ms, event.id in gone)}" for event in run.events[-LAST:])


def _act_line(words: BenchWords, act: ActNow, now_ms: int) -> str:
    when = f", done {clock(act.done_ms, now_ms)}" if act.done_ms is not None and act.done_timed else ""
    why = f": {harmless(act.why)}" if act.why else ""
    number = f"{words.numbers[act.act.step]}{f'/{act.act.turn}' if act.act.turn else ''}"
    return f"  {number} {words.title(act.step)}: {act.state.value}{when}{why}"


def entry_line(words: BenchWords, event: Event, now_ms: int, gone: bool) -> str:
    """An entry of the log in a line; one with a line through it is told so.

    Parameters
    ----------
    words : of the run's plan.
    event : which.
    now_ms : the moment.
    gone : a line goes through it.
    """
    told = said_of(words, event.body)
    by = f" ({harmless(event.by)})" if event.by else ""
    mark = "struck out: " if gone else ""
    when = clock(event.at_ms, now_ms) if getattr(event.body, "timed", True) else "time not told"
    return f"{short_code(event.id)} {when} {mark}{told}{by}"


def run_tree(run: OpenRun) -> dict[str, Any]:
    """A run as it stands, as one JSON object.

    Parameters
    ----------
    run : which.
    """
    words, state, next_ = BenchWords(run.plan), run.state, next_act(run)
    return {
        "run": run.id,
        "code": short_code(run.id),
        "name": run.plan.name,
        "at_ms": state.now_ms,
        "frame": tree_of(state.frame),
        "next": {
            "press": next_.press.name.lower(),
            "act": None if next_.act is None else _act(words, next_.act.act),
            "cup": None if next_.cup is None else tree_of(next_.cup.ref),
            "part": None if next_.part is None else tree_of(next_.part),
            "box": None if next_.box is None else next_.box.key,
        },
        "acts": [_act_tree(words, act) for act in state.acts],
        "cups": [_cup_tree(cup) for cup in state.cups],
        "waits": tree_of(state.waits),
        "windows": tree_of(state.windows),
        "boxes": tree_of(state.boxes),
        "casts": tree_of(state.casts),
        "findings": [tree_of(each) | {"text": words.found(each)} for each in state.findings],
        "entries": [event_tree(event, struck(run.events)) for event in run.events],
    }


def _act(words: BenchWords, act: Act) -> dict[str, Any]:
    return {"number": words.numbers.get(act.step), "step": act.step, "turn": act.turn}


def _act_tree(words: BenchWords, act: ActNow) -> dict[str, Any]:
    return _act(words, act.act) | {
        "title": words.title(act.step),
        "state": act.state.value,
        "begun_ms": act.begun_ms,
        "done_ms": act.done_ms,
        "done_timed": act.done_timed,
        "why": act.why,
        "may_begin": act.may_begin,
        "holds": tree_of(act.holds),
    }


def _cup_tree(cup: CupNow) -> dict[str, Any]:
    tree: dict[str, Any] = tree_of(cup)
    return {name: value for name, value in tree.items() if name != "mix"}


def event_tree(event: Event, gone: frozenset[Any] = frozenset()) -> dict[str, Any]:
    """An entry as JSON.

    Parameters
    ----------
    event : which.
    gone : ids that a line goes through.
    """
    head = {"id": event.id, "kind": kind_of(event.body), "at_ms": event.at_ms, "bench": event.bench, "by": event.by}
    return head | {"body": tree_of(event.body), "struck": event.id in gone}
