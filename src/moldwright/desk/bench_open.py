"""Which run is meant: by a plan's folder, or by its id or code; started where none is under way."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path

from moldwright.errors import InputRefused
from moldwright.log.codes import short_code
from moldwright.log.ids import EditionId, RunId
from moldwright.making.inputs import is_folder, read_text
from moldwright.plan.json_text import plan_from_json
from moldwright.records.clock import BenchClock
from moldwright.records.editions.read import edition_meant
from moldwright.records.molds.read import mold_meant
from moldwright.records.runs.listing import RunRow, runs
from moldwright.records.runs.opened import find_run
from moldwright.records.runs.replan import under_way_by
from moldwright.records.runs.start import start_run
from moldwright.records.shop import Shop
from moldwright.sheets.bench_words import clock
from moldwright.text.harmless import harmless

Ask = Callable[[Sequence[str]], str]
"""Shows lines and gives what was typed."""


@dataclass(frozen=True, slots=True)
class RunAsked:
    """Which run is asked for, as it was typed; `new`: another one, whatever is under way.

    `start`: a plan's folder may start one.
    """

    what: str = ""
    new: bool = False
    casts: int | None = None
    batch: int = 1
    mold: str = ""
    edition: str = ""
    start: bool = True


@dataclass(frozen=True, slots=True)
class RunMeant:
    """The run that is meant; `started`: now. `other`: runs of the same piece by another plan, to be told."""

    id: RunId
    started: bool = False
    other: tuple[RunRow, ...] = ()


def run_meant(shop: Shop, bench: BenchClock, asked: RunAsked, ask: Ask | None) -> RunMeant:
    """The run that is meant; a plan's folder starts one where none of it is under way, unless it shall start nothing.

    Parameters
    ----------
    shop : the store.
    bench : its clock.
    asked : as it was typed.
    ask : asks which of several, None: there is nobody to ask.

    Raises InputRefused ("run-of-several", "run-unnamed", "not-kept", and what is wrong with a plan).
    """
    if is_folder(Path(asked.what)) and asked.what:
        return _by_plan(shop, bench, asked, ask)
    if asked.what:
        return RunMeant(find_run(shop, asked.what))
    rows = runs(shop, ended=False)
    if not rows:
        remedy = "Start one: `moldwright bench PLAN`, the folder that `moldwright plan` made."
        raise InputRefused("run-unnamed", "no run is under way", "a run", "", remedy)
    return RunMeant(_one_of(rows, ask, bench.now()))


def plan_text_of(folder: Path) -> str:
    """The text of a plan folder's plan.json.

    Parameters
    ----------
    folder : that `moldwright plan` made.
    """
    return read_text(folder / "plan.json", "plan")


def _by_plan(shop: Shop, bench: BenchClock, asked: RunAsked, ask: Ask | None) -> RunMeant:
    text = plan_text_of(Path(asked.what))
    mine = () if asked.new else under_way_by(shop, text)
    if mine:
        return RunMeant(_one_of(mine, ask, bench.now()))
    name = plan_from_json(text).name
    other = tuple(row for row in runs(shop, ended=False) if row.started.name == name and not asked.new)
    if not (asked.start or asked.new):
        raise _none_by_plan(other)
    mold = mold_meant(shop, asked.mold) if asked.mold else None
    edition = EditionId(edition_meant(shop, asked.edition).id) if asked.edition else None
    run = start_run(shop, bench, text, asked.casts, mold, edition, asked.batch)
    return RunMeant(run.id, True, other)


def _none_by_plan(other: Sequence[RunRow]) -> InputRefused:
    remedy = "Start one: `moldwright bench PLAN` without anything behind it."
    if other:
        code = short_code(other[0].id)
        remedy += f" Run {code} of the same piece goes by another plan: `moldwright bench {code} --show`."
    return InputRefused("run-unnamed", "no run of this plan is under way", "a run", "", remedy)


def _one_of(rows: Sequence[RunRow], ask: Ask | None, now_ms: int) -> RunId:
    if len(rows) == 1:
        return rows[0].id
    if ask is None:
        told = ", ".join(short_code(row.id) for row in rows[:8])
        raise InputRefused("run-of-several", f"{len(rows)} runs: {told}", "one run", "", "Write its code: bench CODE.")
    lines = [f"  {number} {row_line(row, now_ms)}" for number, row in enumerate(rows, start=1)]
    typed = ask(["Which run?", *lines]).strip() or "1"
    if not typed.isdecimal() or not 1 <= int(typed) <= len(rows):
        raise InputRefused("no-such-choice", typed[:20], f"1 to {len(rows)}", "", "Type the number in front of it.")
    return rows[int(typed) - 1].id


def row_line(row: RunRow, now_ms: int) -> str:
    """A run in a line.

    Parameters
    ----------
    row : which.
    now_ms : the moment.
    """
    casts = f"{row.started.casts} cast{'s' if row.started.casts != 1 else ''}"
    shelf = ", from a mold on the shelf" if row.started.mold is not None else ""
    far = f"over since {clock(row.ended_ms, now_ms)}" if row.ended_ms is not None else f"{row.done} steps done"
    began, last = clock(row.started_ms, now_ms), clock(row.last_ms, now_ms)
    name = harmless(row.started.name)
    return f"{short_code(row.id)}  {name}, {casts}{shelf}: began {began}, last entry {last}, {far}"
