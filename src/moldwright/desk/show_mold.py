"""What the commands about molds print."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from datetime import date
from pathlib import Path

from moldwright.desk import written
from moldwright.desk.csv_file import write_csv
from moldwright.desk.say import say, say_json
from moldwright.desk.shop_at import opened, units_told
from moldwright.log.codes import short_code
from moldwright.log.event import About
from moldwright.log.ids import MoldId, RunId
from moldwright.making.inputs import read_sheets, read_text
from moldwright.making.shop import bench_clock
from moldwright.materials import Library, library
from moldwright.records.clock import BenchClock, now_ms
from moldwright.records.find import find
from moldwright.records.molds.read import mold_known, mold_meant, molds
from moldwright.records.molds.story import MoldStory, mold_story
from moldwright.records.molds.typed import OlderMold, register_told
from moldwright.records.molds.write import register_made
from moldwright.records.shop import Shop
from moldwright.records.told import day_of
from moldwright.text.harmless import harmless
from moldwright.told.mold_story import (
    cast_words,
    drawn_words,
    fact_lines,
    lot_words,
    problem_words,
    run_words,
    state_words,
)
from moldwright.told.mold_table import COLUMNS, mold_row
from moldwright.told.mold_trees import mold_tree, story_tree
from moldwright.told.mold_words import call_words, log_line

EMPTY = (
    "No mold is in the register. One that a run made: `moldwright mold add --run RUN`; an older one: "
    "`moldwright mold add NAME`."
)
Who = tuple[str, str]
"""The store, and by whom."""
Writing = Callable[[Shop, BenchClock, MoldId], object]


def add_shown(
    told: tuple[str, str, str, str], plan: Path | None, casts: tuple[int, int | None], run: str, who: Who, as_json: bool
) -> None:
    """Register a mold.

    Parameters
    ----------
    told : its name, its rubber, what is cast in it, where it stands.
    plan : the folder of its plan.
    casts : drawn before, and how many it gives.
    run : which made it, "" for one that is older than the records.
    who : the store, and by whom.
    as_json : print one JSON object.
    """
    name, rubber, cast, stored = told
    with opened(who[0]) as shop:
        clock = bench_clock(shop, who[1])
        if run:
            id_ = register_made(shop, clock, RunId(find(shop, About.RUN, run)), name, stored)
        else:
            text = read_text(plan / "plan.json", "plan") if plan else ""
            id_ = register_told(shop, clock, OlderMold(name, rubber, cast, stored, text, *casts))
        _told(shop, id_, "Registered", as_json)


def list_shown(everything: bool, sheets: Path | None, table: Path | None, place: str, as_json: bool) -> None:
    """The molds of the register.

    Parameters
    ----------
    everything : those too that are retired.
    sheets : folder of the shop's own sheets.
    table : a CSV file to write.
    place : the store.
    as_json : print one JSON object.
    """
    with opened(place) as shop:
        found = molds(shop, _sheets(sheets), _today(), everything)
    if table is not None:
        write_csv(table, COLUMNS, map(mold_row, found))
    if as_json:
        say_json({"molds": [mold_tree(each) for each in found]})
        return
    wide = max((len(harmless(each.mold.name)) for each in found), default=0)
    for each in found:
        mold = each.mold
        rest = filter(None, (mold.state.value, drawn_words(each), harmless(mold.stored), call_words(each)))
        say(f"{short_code(mold.id)}  {harmless(mold.name):<{wide}}  {' · '.join(rest)}")
    if not found:
        say(EMPTY)


def mold_shown(which: str, sheets: Path | None, place: str, units: str, as_json: bool) -> None:
    """One mold's whole story.

    Parameters
    ----------
    which : the mold, as it was typed.
    sheets : folder of the shop's own sheets.
    place : the store.
    units : "metric" or "us".
    as_json : print one JSON object.
    """
    units_told(units)
    with opened(place) as shop:
        story = mold_story(shop, _sheets(sheets), _today(), mold_meant(shop, which))
    if as_json:
        say_json(story_tree(story))
        return
    say("\n".join(map(harmless, _lines(story, units))))


def write_shown(which: str, writing: Writing, who: Who, as_json: bool) -> None:
    """Something is written of a mold.

    Parameters
    ----------
    which : the mold, as it was typed.
    writing : writes it.
    who : the store, and by whom.
    as_json : print one JSON object.
    """
    written.write_shown((mold_meant, which), writing, _told, who, as_json)


def strike_shown(event: str, why: str, who: Who, as_json: bool) -> None:
    """A line through an entry of a mold's log; `event`: its code, as it was typed; else as `written.strike_shown`."""
    written.strike_shown((About.MOLD, event), why, who, as_json, lambda gone: log_line(gone, False))


def _told(shop: Shop, id_: MoldId, act: str, as_json: bool) -> None:
    known = mold_known(shop, library(), _today(), id_)
    mold = known.mold
    if as_json:
        say_json(mold_tree(known))
    else:
        stands = f", stands: {mold.stored}" if mold.stored else ""
        say(
            harmless(
                f"{act}: {mold.name} ({short_code(mold.id)}), {mold.state}, {known.facts.drawn} casts drawn{stands}."
            )
        )


def _lines(story: MoldStory, units: str) -> Iterator[str]:
    known = story.known
    mold = known.mold
    yield ", ".join(filter(None, (f"{mold.name}  ({short_code(mold.id)})", mold.rubber, mold.stored)))
    yield f"  {state_words(known)}"
    yield from (f"  {line}" for line in fact_lines(known))
    yield from (f"  in it: {lot_words(lot, units)}" for lot in story.lots)
    for run in known.runs:
        yield f"  {run_words(run)}"
        yield from (f"    {cast_words(cast, units)}" for cast in run.casts)
        yield from (f"    {problem_words(event)}" for event in run.problems)
    yield "  log"
    yield from (f"    {log_line(event, event.id in story.gone)}" for event in story.events)


def _sheets(folder: Path | None) -> Library:
    return library(read_sheets(folder)) if folder else library()


def _today() -> date:
    return day_of(now_ms())
