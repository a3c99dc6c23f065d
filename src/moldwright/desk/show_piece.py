"""What the commands about pieces print."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from pathlib import Path

from moldwright import __version__
from moldwright.desk import written
from moldwright.desk.csv_file import write_csv
from moldwright.desk.say import say, say_json
from moldwright.desk.shop_at import opened
from moldwright.log.codes import short_code
from moldwright.log.event import About
from moldwright.log.ids import PieceId
from moldwright.making.inputs import read_text
from moldwright.making.places import real_path
from moldwright.making.shop import bench_clock
from moldwright.records.clock import BenchClock
from moldwright.records.pieces.folder import lay_out
from moldwright.records.pieces.from_files import keep_named
from moldwright.records.pieces.listing import PieceKnown, PieceStory, piece_meant, piece_story, pieces
from moldwright.records.pieces.write import change, piece_known, planned, take_in
from moldwright.records.shop import Shop
from moldwright.records.told import day_of
from moldwright.text.harmless import harmless
from moldwright.told.csv_text import Cell
from moldwright.told.piece_trees import piece_story_tree, piece_tree
from moldwright.told.piece_words import CHANGED_SINCE, piece_line, piece_log_line

EMPTY = "No piece is in the shop. Take one in: `moldwright piece add COMMISSION.toml`."
COLUMNS = ("code", "name", "stage", "count", "whom", "due", "plan", "id")
Who = tuple[str, str]
"""The store, and by whom."""
Writing = Callable[[Shop, BenchClock, PieceId], object]


def add_shown(commission: Path, told: tuple[str, str, str], who: Who, as_json: bool) -> None:
    """Take a piece in.

    Parameters
    ----------
    commission : its file.
    told : name, for whom, due.
    who : the store, and by whom.
    as_json : print one JSON object.
    """
    name, whom, due = told
    text = read_text(commission, "commission")
    with opened(who[0]) as shop:
        asked, files = keep_named(shop, text, commission.parent)
        id_ = take_in(shop, bench_clock(shop, who[1]), asked, files, name, whom, due)
        _told(shop, id_, "Taken in", as_json)


def change_shown(which: str, commission: Path, why: str, who: Who, as_json: bool) -> None:
    """Ask for something else.

    Parameters
    ----------
    which : the piece, as it was typed.
    commission : the file of the new one.
    why : in words.
    who : the store, and by whom.
    as_json : print one JSON object.
    """
    text = read_text(commission, "commission")
    with opened(who[0]) as shop:
        id_ = piece_meant(shop, which)
        asked, files = keep_named(shop, text, commission.parent)
        change(shop, bench_clock(shop, who[1]), id_, asked, files, why)
        _told(shop, id_, "Changed", as_json)


def planned_shown(which: str, plan: Path, who: Who, as_json: bool) -> None:
    """A plan was made for it.

    Parameters
    ----------
    which : the piece, as it was typed.
    plan : the plan's folder.
    who : the store, and by whom.
    as_json : print one JSON object.
    """
    text = read_text(plan / "plan.json", "plan")
    write_shown(which, lambda shop, clock, id_: planned(shop, clock, id_, text, __version__), who, as_json)


def list_shown(everything: bool, table: Path | None, place: str, as_json: bool) -> None:
    """The pieces in the shop.

    Parameters
    ----------
    everything : those too that are put away.
    table : a CSV file to write.
    place : the store.
    as_json : print one JSON object.
    """
    with opened(place) as shop:
        found = pieces(shop, everything)
    if table is not None:
        write_csv(table, COLUMNS, map(_row, found))
    if as_json:
        say_json({"pieces": [piece_tree(each) for each in found]})
        return
    wide = max((len(harmless(each.piece.name)) for each in found), default=0)
    for each in found:
        say(f"{short_code(each.piece.id)}  {harmless(each.piece.name):<{wide}}  {harmless(piece_line(each))}")
    if not found:
        say(EMPTY)


def piece_shown(which: str, place: str, as_json: bool) -> None:
    """One piece's story.

    Parameters
    ----------
    which : the piece, as it was typed.
    place : the store.
    as_json : print one JSON object.
    """
    with opened(place) as shop:
        story = piece_story(shop, piece_meant(shop, which))
    if as_json:
        say_json(piece_story_tree(story))
        return
    say("\n".join(map(harmless, _lines(story))))


def export_shown(which: str, folder: Path, place: str, as_json: bool) -> None:
    """Lay it out as a folder.

    Parameters
    ----------
    which : the piece, as it was typed.
    folder : new or empty.
    place : the store.
    as_json : print one JSON object.
    """
    with opened(place) as shop:
        piece = piece_known(shop, piece_meant(shop, which))
        commission = lay_out(shop, piece, real_path(folder))
    if as_json:
        say_json({"id": piece.id, "commission": str(commission), "files": [each.name for each in piece.files]})
        return
    say(harmless(f"{piece.name} lies in {folder}. Plan it: moldwright plan {folder / commission.name} --out PLAN"))


def write_shown(which: str, writing: Writing, who: Who, as_json: bool) -> None:
    """Something is written of a piece.

    Parameters
    ----------
    which : the piece, as it was typed.
    writing : writes it.
    who : the store, and by whom.
    as_json : print one JSON object.
    """
    written.write_shown((piece_meant, which), writing, _told, who, as_json)


def strike_shown(event: str, why: str, who: Who, as_json: bool) -> None:
    """A line through an entry of a piece's log; `event`: its code, as it was typed; else as `written.strike_shown`."""
    written.strike_shown((About.PIECE, event), why, who, as_json, lambda gone: piece_log_line(gone, False))


def _told(shop: Shop, id_: PieceId, act: str, as_json: bool) -> None:
    known = piece_story(shop, id_).known
    if as_json:
        say_json(piece_tree(known))
    else:
        say(harmless(f"{act}: {known.piece.name} ({short_code(id_)}), {piece_line(known)}."))


def _lines(story: PieceStory) -> Iterator[str]:
    known = story.known
    piece = known.piece
    yield f"{piece.name}  ({short_code(piece.id)})"
    yield f"  {piece_line(known)}" + (f": {piece.put_away}" if piece.put_away else "")
    if piece.changed_since:
        yield f"  {CHANGED_SINCE}"
    yield from (f"  file: {each.name}" for each in piece.files)
    for run in known.runs:
        end = f"ended {day_of(run.ended_ms)}" if run.ended_ms is not None else "under way"
        yield f"  run {short_code(run.id)}, {day_of(run.started_ms)}: {end}"
    yield from (f"  mold {short_code(mold)}" for mold in known.molds)
    yield from (f"  edition {short_code(edition)}" for edition in known.editions)
    yield "  log"
    yield from (f"    {piece_log_line(event, event.id in story.gone)}" for event in story.events)


def _row(known: PieceKnown) -> Sequence[Cell]:
    tree = {**piece_tree(known), "stage": known.stage.value}
    return [tree[name] for name in COLUMNS]
