"""What the commands about molds print."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from datetime import date
from pathlib import Path

from moldwright.desk.csv_file import write_csv
from moldwright.desk.say import say, say_json
from moldwright.desk.shop_at import opened, units_told
from moldwright.errors import InputRefused
from moldwright.log.codes import short_code
from moldwright.log.event import About
from moldwright.log.ids import MoldId, RunId
from moldwright.log.run_events import Problem
from moldwright.making.inputs import read_sheets, read_text
from moldwright.making.shop import bench_clock
from moldwright.materials import Library, Sheet, library
from moldwright.records.clock import BenchClock, now_ms
from moldwright.records.find import find
from moldwright.records.molds.read import MoldKnown, mold_known, mold_meant, molds
from moldwright.records.molds.runs import MoldRun
from moldwright.records.molds.story import MoldStory, mold_story
from moldwright.records.molds.write import register_made, register_older
from moldwright.records.shop import Shop
from moldwright.records.strike import strike_out
from moldwright.records.told import day_of
from moldwright.text.harmless import harmless
from moldwright.told.csv_text import Cell
from moldwright.told.mold_trees import mold_tree, story_tree
from moldwright.told.mold_words import (
    LOOK_FIRST,
    call_words,
    log_line,
    next_words,
    shrink_words,
    spread,
)
from moldwright.units import show_length, show_mass

EMPTY = (
    "No mold is in the register. One that a run made: `moldwright mold add --run RUN`; an older one: "
    "`moldwright mold add NAME`."
)
COLUMNS = (
    "code", "name", "rubber", "state", "drawn", "left_low", "left_likely", "left_high", "next_glove", "begin_by",
    "stored", "editions", "numbers_left", "shrink_pct", "retired", "id",
)  # fmt: skip
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
            kept = shop.keep_plan(read_text(plan / "plan.json", "plan")) if plan else None
            of, what = _name(library().rubber, rubber), _name(library().resin, cast)
            id_ = register_older(shop, clock, name, of, kept, *casts, stored, what)
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
        write_csv(table, COLUMNS, map(_row, found))
    if as_json:
        say_json({"molds": [mold_tree(each) for each in found]})
        return
    wide = max((len(harmless(each.mold.name)) for each in found), default=0)
    for each in found:
        mold = each.mold
        casts = f"{each.facts.drawn} drawn" + (f", {spread(each.next.left)} left" if each.next.left else "")
        rest = filter(None, (mold.state.value, casts, harmless(mold.stored), call_words(each)))
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
    with opened(who[0]) as shop:
        id_ = mold_meant(shop, which)
        writing(shop, bench_clock(shop, who[1]), id_)
        _told(shop, id_, "Written down", as_json)


def strike_shown(event: str, why: str, who: Who, as_json: bool) -> None:
    """A line through an entry.

    Parameters
    ----------
    event : its code, as it was typed.
    why : in words.
    who : the store, and by whom.
    as_json : print one JSON object.
    """
    with opened(who[0]) as shop:
        gone = strike_out(shop, bench_clock(shop, who[1]), About.MOLD, event, why)
    if as_json:
        say_json({"event": gone.id, "mold": gone.subject})
    else:
        say(f"Struck out: {harmless(log_line(gone, False))}")


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
    yield f"  {mold.state}" + (f"; retired: {mold.retired or 'no reason told'}" if mold.retired is not None else "")
    before = f", {mold.drawn_before} of them before the records" if mold.drawn_before else ""
    yield f"  {known.facts.drawn} casts drawn{before}"
    if known.facts.lasts is not None:
        pace = f"; of late {spread(known.next.pace, 1)} in 30 days" if known.next.pace else ""
        yield f"  gives {spread(known.facts.lasts)} in all ({known.lasts_from}), {_left(known)} left{pace}"
    others = f"; other molds give {known.facts.others:.0f} casts yet at the least" if known.facts.others else ""
    if known.facts.wanted is not None:
        yield f"  for {', '.join(each.name for each in known.editions)}: {known.facts.wanted} numbers left{others}"
    yield f"  {next_words(known)}"
    if known.look_first and mold.retired is None:
        yield f"  {LOOK_FIRST}"
    if known.shrink is not None:
        planned = f"; planned {spread(known.planned_pct, 2)} %" if known.planned_pct else ""
        yield f"  {shrink_words(known.shrink)}{planned}"
    for lot in story.lots:
        yield f"  in it: {show_mass(lot.mass_g, units)} of {lot.name or 'lot'} {lot.number} ({short_code(lot.lot)})"
    for run in known.runs:
        yield from _run_lines(run, units)
    yield "  log"
    yield from (f"    {log_line(event, event.id in story.gone)}" for event in story.events)


def _left(known: MoldKnown) -> str:
    return spread(known.next.left) if known.next.left else "?"


def _run_lines(run: MoldRun, units: str) -> Iterator[str]:
    did = "made it" if run.made else "cast from it"
    drew = "its plan cannot be read, so its casts are not counted" if run.unread else f"{len(run.casts)} casts drawn"
    yield f"  run {short_code(run.id)}, {run.name}, {day_of(run.started_ms)}: {did}, {drew}"
    for cast in run.casts:
        mass = show_mass(cast.mass_g, units, step_g=1.0) if cast.mass_g is not None else ""
        height = show_length(cast.height_mm, units, step_mm=0.1) if cast.height_mm is not None else ""
        yield "    " + ", ".join(filter(None, (f"cast {cast.turn}", str(day_of(cast.at_ms)), mass, height)))
    for event in run.problems:
        match event.body:
            case Problem(what, text, _, turn):
                of = f"cast {turn}: " if turn else ""
                yield f"    {day_of(event.at_ms)} {of}{what}{f', {text}' if text else ''}"


def _row(known: MoldKnown) -> Sequence[Cell]:
    tree, left = mold_tree(known), known.next.left
    ends = (left.low, left.likely, left.high) if left else (None, None, None)
    told = {
        **tree,
        **dict(zip(("left_low", "left_likely", "left_high"), ends, strict=True)),
        "next_glove": known.next.call.value,
        "begin_by": tree["next_glove"]["begin_by"],
        "editions": ", ".join(each.name for each in known.editions),
        "shrink_pct": known.shrink.likely_pct if known.shrink else None,
    }
    return [told[name] for name in COLUMNS]


def _name(named: Callable[[str], Sheet], written: str) -> str:
    """The name of the sheet that is meant; words of the maker's own, of which there is no sheet, as they are."""
    try:
        return named(written).name if written.strip() else ""
    except InputRefused as refused:
        if refused.code != "unknown-material":
            raise
        return written


def _sheets(folder: Path | None) -> Library:
    return library(read_sheets(folder)) if folder else library()


def _today() -> date:
    return day_of(now_ms())
