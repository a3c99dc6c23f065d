"""What the commands about lots print."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path
from typing import Any

from moldwright.desk.asking import typed_line
from moldwright.desk.csv_file import write_csv
from moldwright.desk.lot_ask import asked_for
from moldwright.desk.say import say, say_json
from moldwright.desk.shop_at import opened, units_told
from moldwright.log.event import Body
from moldwright.log.ids import LotId, SubjectId
from moldwright.log.json_text import kind_of
from moldwright.making.plans import plans_in
from moldwright.making.shop import bench_clock
from moldwright.records.clock import today
from moldwright.records.shop import Shop
from moldwright.records.stock.arrival import Arrival, add_papers, arrive
from moldwright.records.stock.doing import count_lot, happen, log_of, lot_meant, open_lot, strike_lot_entry, use_lot
from moldwright.records.stock.keep import Written
from moldwright.records.stock.listing import listed
from moldwright.records.stock.shelf import OnShelf
from moldwright.records.stock.story import lot_story
from moldwright.text.harmless import harmless
from moldwright.told.log_tree import entry_tree
from moldwright.told.lot_done import done_words, struck_words
from moldwright.told.lot_row import row_of
from moldwright.told.lot_story import story_lines, story_tree
from moldwright.told.lot_table import LOT_HEADS, lot_cells
from moldwright.told.lot_words import event_line, lines_of, shelf_tree, title_of, warnings

EMPTY = "Nothing stands on the shelf. Put the first lot there: moldwright lot add"
Who = tuple[str, str]
"""The store, and by whom."""


def add_shown(told: Arrival, plans: Iterable[Path], who: Who, units: str, as_json: bool) -> None:
    """A lot comes in, asked for where nothing was told.

    Parameters
    ----------
    told : by options.
    plans : folders of plans.
    who : the store, and by whom.
    units : "metric" or "us".
    as_json : print one JSON object.
    """
    units_told(units)
    with opened(who[0]) as shop:
        told = told if told != Arrival() else asked_for(shop, _typed)
        needs = [need for plan in plans_in(plans) for need in plan.needs]
        written = arrive(shop, bench_clock(shop, who[1]), told, needs)
    _written(written, units, as_json)


def _typed(prompt: str) -> str:
    return typed_line(prompt, "Answer each question, or give it by options: moldwright lot add --help.")


def list_shown(material: str, everything: bool, table: Path | None, place: str, units: str, as_json: bool) -> None:
    """The lots of the shop.

    Parameters
    ----------
    material : one only, "" for all.
    everything : those that are gone too.
    table : a CSV file to write, None for none.
    place : the store.
    units : "metric" or "us".
    as_json : print one JSON object.
    """
    units_told(units)
    with opened(place) as shop:
        found = listed(shop, material, everything)
    if table is not None:
        write_csv(table, LOT_HEADS, lot_cells(shelf for group in found for shelf in group.shelves))
    if as_json:
        say_json({"lots": [{**shelf_tree(s), "next": s.lot.id == g.first} for g in found for s in g.shelves]})
        return
    for group in found:
        say(harmless(title_of(group.shelves[0].lot)))
        for shelf in group.shelves:
            say(harmless(row_of(shelf, units, shelf.lot.id == group.first), keep="\n"))
    if not found:
        say(EMPTY if not material else "None of it stands on the shelf.")


def lot_shown(which: str, place: str, units: str, as_json: bool) -> None:
    """One lot: what it went into, and its log.

    Parameters
    ----------
    which : the lot, as it was typed.
    place : the store.
    units : "metric" or "us".
    as_json : print one JSON object.
    """
    units_told(units)
    with opened(place) as shop:
        story = lot_story(shop, lot_meant(shop, which), today())
        shelf = story.shelf
        log = _log(shop, shelf.lot.id, shelf, units)
        if as_json:
            say_json({**story_tree(story), "log": _log_tree(shop, shelf.lot.id)})
            return
    told = [*lines_of(shelf, units), *story_lines(story, units), "  log", *log]
    say(harmless("\n".join(told), keep="\n"))


def _log(shop: Shop, id_: LotId, shelf: OnShelf, units: str) -> list[str]:
    events, gone = log_of(shop, id_)
    return [f"  {event_line(event, shelf.lot.unit, units, event.id in gone)}" for event in events]


def _log_tree(shop: Shop, id_: SubjectId) -> list[dict[str, Any]]:
    events, gone = log_of(shop, LotId(id_))
    return [entry_tree(event, event.id in gone) for event in events]


def change_shown(which: str, body: Body, who: Who, units: str, as_json: bool) -> None:
    """Something happens to a lot.

    Parameters
    ----------
    which : the lot, as it was typed.
    body : what.
    who : the store, and by whom.
    units : "metric" or "us".
    as_json : print one JSON object.
    """
    units_told(units)
    with opened(who[0]) as shop:
        written = happen(shop, bench_clock(shop, who[1]), which, body)
    _written(written, units, as_json)


def papers_shown(which: str, papers: tuple[Path | None, Path | None], who: Who, units: str, as_json: bool) -> None:
    """Papers are kept with a lot.

    Parameters
    ----------
    which : the lot, as it was typed.
    papers : its certificate and its safety data sheet.
    who : the store, and by whom.
    units : "metric" or "us".
    as_json : print one JSON object.
    """
    units_told(units)
    with opened(who[0]) as shop:
        written = add_papers(shop, bench_clock(shop, who[1]), which, *papers)
    _written(written, units, as_json)


def open_shown(which: str, on: str, who: Who, units: str, as_json: bool) -> None:
    """A lot's seal is broken.

    Parameters
    ----------
    which : the lot, as it was typed.
    on : the day, "" for today.
    who : the store, and by whom.
    units : "metric" or "us".
    as_json : print one JSON object.
    """
    units_told(units)
    with opened(who[0]) as shop:
        written = open_lot(shop, bench_clock(shop, who[1]), which, on)
    _written(written, units, as_json)


def count_shown(which: str, told: tuple[str, str, str], who: Who, units: str, as_json: bool) -> None:
    """A lot is counted.

    Parameters
    ----------
    which : the lot, as it was typed.
    told : the amount, the empty pot's, when.
    who : the store, and by whom.
    units : "metric" or "us".
    as_json : print one JSON object.
    """
    units_told(units)
    with opened(who[0]) as shop:
        written = count_lot(shop, bench_clock(shop, who[1]), which, told)
    _written(written, units, as_json)


def use_shown(which: str, told: tuple[str, str, str], who: Who, units: str, as_json: bool) -> None:
    """Some of a lot is used.

    Parameters
    ----------
    which : the lot, as it was typed.
    told : the amount, why, when.
    who : the store, and by whom.
    units : "metric" or "us".
    as_json : print one JSON object.
    """
    units_told(units)
    with opened(who[0]) as shop:
        written = use_lot(shop, bench_clock(shop, who[1]), which, told)
    _written(written, units, as_json)


def struck_shown(event: str, why: str, who: Who, units: str, as_json: bool) -> None:
    """A line through an entry.

    Parameters
    ----------
    event : its code.
    why : in words.
    who : the store, and by whom.
    units : "metric" or "us".
    as_json : print one JSON object.
    """
    units_told(units)
    with opened(who[0]) as shop:
        found, unit = strike_lot_entry(shop, bench_clock(shop, who[1]), event, why)
    if as_json:
        say_json({"struck": found.id, "lot": found.subject, "kind": kind_of(found.body)})
        return
    say(harmless(struck_words(found.body, unit, units)))


def _written(written: Written, units: str, as_json: bool) -> None:
    if as_json:
        counted = written.counted
        told = {} if counted is None else {"counted": {"said": counted.said, "found": counted.found}}
        say_json({**shelf_tree(written.shelf), **told})
        return
    lines = [done_words(written, units), *warnings(written.shelf, units)]
    say(harmless("\n".join(lines), keep="\n"))
