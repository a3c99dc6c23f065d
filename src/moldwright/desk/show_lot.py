"""What the commands about lots print."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from pathlib import Path
from typing import Any

from moldwright.desk.asking import typed_line
from moldwright.desk.csv_file import Cell, write_csv
from moldwright.desk.lot_add import Arrival, add, asked_for
from moldwright.desk.lot_doing import Doing, ListedLots, count, happen, listed, log_of, lot_meant, strike, today, use
from moldwright.desk.lot_story import story_lines, story_tree
from moldwright.desk.say import say, say_json
from moldwright.desk.shop_at import opened, units_told
from moldwright.log.codes import short_code
from moldwright.log.event import Body
from moldwright.log.ids import LotId, SubjectId
from moldwright.log.json_text import kind_of
from moldwright.log.lot_events import LotDiscarded, LotMoved, LotOpened
from moldwright.making.shop import bench_clock
from moldwright.records.shop import Shop
from moldwright.records.stock.keep import Written
from moldwright.records.stock.left import LotState
from moldwright.records.stock.shelf import OnShelf
from moldwright.records.stock.story import lot_story
from moldwright.text.harmless import harmless
from moldwright.told.amounts import show_amount
from moldwright.told.log_tree import entry_tree
from moldwright.told.lot_words import (
    counted_words,
    event_line,
    happened,
    lines_of,
    name_of,
    row_of,
    shelf_tree,
    warnings,
)

EMPTY = "Nothing stands on the shelf. Put the first lot there: moldwright lot add"
COLUMNS = (
    "code", "kind", "material", "name", "number", "left", "unit", "state", "expires", "opened", "stored", "supplier",
    "received", "amount", "over", "id",
)  # fmt: skip
"""Of the table, in its order."""
DISPOSAL = "How it is disposed of: its safety data sheet and local rules."
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
        written = add(shop, bench_clock(shop, who[1]), told, plans)
    _written(written, units, as_json, f"On the shelf: {_short(written.shelf, units)}.")


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
        write_csv(table, COLUMNS, _rows(found))
    if as_json:
        say_json({"lots": [{**shelf_tree(s), "next": s.lot.id == g.first} for g in found for s in g.shelves]})
        return
    for group in found:
        say(harmless(_heading(group.shelves[0])))
        for shelf in group.shelves:
            say(harmless(row_of(shelf, units, shelf.lot.id == group.first), keep="\n"))
    if not found:
        say(EMPTY if not material else "None of it stands on the shelf.")


def _heading(shelf: OnShelf) -> str:
    stuff = shelf.lot.stuff
    return f"{name_of(shelf.lot)}  ({' '.join(filter(None, (stuff.kind, stuff.id)))})"


def _rows(found: Sequence[ListedLots]) -> Iterator[Sequence[Cell]]:
    for group in found:
        for shelf in group.shelves:
            tree = shelf_tree(shelf)
            yield [tree[name] for name in COLUMNS]


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
    written = happen(Doing(*who), which, body)
    _written(written, units, as_json, _changed(body, written.shelf, units))


def _changed(body: Body, shelf: OnShelf, units: str) -> str:
    match body:
        case LotOpened():
            return f"Open: {_short(shelf, units)}. {f'It keeps to {shelf.expires}.' if shelf.expires else ''}"
        case LotMoved():
            return f"{_short(shelf, units)}: stands {shelf.lot.stored}."
        case LotDiscarded():
            return f"Gone: {_short(shelf, units)}. {DISPOSAL}"
        case _:
            return f"Written down: {_short(shelf, units)}."


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
    written = count(Doing(*who), which, *told)
    words = "" if written.counted is None else counted_words(written.counted, written.shelf.lot.unit, units)
    _written(written, units, as_json, words)


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
    written = use(Doing(*who), which, *told)
    _written(written, units, as_json, f"Left: {_short(written.shelf, units)}.")


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
    found, unit = strike(Doing(*who), event, why)
    if as_json:
        say_json({"struck": found.id, "lot": found.subject, "kind": kind_of(found.body)})
        return
    say(harmless(f"Struck out: {happened(found.body, unit, units)}. It stays readable and counts in nothing."))


def _short(shelf: OnShelf, units: str) -> str:
    there = "" if shelf.state is LotState.DISCARDED else f"{show_amount(shelf.left.amount, shelf.lot.unit, units)} of "
    return f"{there}{name_of(shelf.lot)}, {short_code(shelf.lot.id)}"


def _written(written: Written, units: str, as_json: bool, words: str) -> None:
    if as_json:
        counted = written.counted
        told = {} if counted is None else {"counted": {"said": counted.said, "found": counted.found}}
        say_json({**shelf_tree(written.shelf), **told})
        return
    say(harmless("\n".join([words.strip(), *warnings(written.shelf, units)]), keep="\n"))
