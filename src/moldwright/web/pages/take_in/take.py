"""What was being taken in becomes a piece, or asks for something else of one."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import Any

from moldwright.errors import InputRefused, MoldwrightError
from moldwright.log.ids import PieceId, SubjectId
from moldwright.records.clock import BenchClock
from moldwright.records.pieces.folder import lay_out
from moldwright.records.pieces.from_files import keep_named
from moldwright.records.pieces.listing import pieces
from moldwright.records.pieces.named import stays_inside
from moldwright.records.pieces.names import COMMISSION
from moldwright.records.pieces.piece import TakenPiece
from moldwright.records.pieces.write import change, take_in
from moldwright.records.shop import Shop
from moldwright.web.pages.take_in.answers import answers_of, text_of
from moldwright.web.pages.take_in.draft import FILES, Drafts, TakingIn
from moldwright.web.pages.take_in.marks import marks_turned

CHANGES = "piece"
"""Beside the answers: the piece of which something else is asked for."""

LIE_BESIDE = frozenset(("shop.sheets", "shop.steps"))
"""Names of files that lie beside another piece's commission."""


def taken_in(shop: Shop, clock: BenchClock, draft: TakingIn, answers: Mapping[str, Any]) -> PieceId:
    """Take it in, with all its files.

    Parameters
    ----------
    shop : the records.
    clock : of who acts.
    draft : what is being taken in.
    answers : by dotted key, as a commission holds them.

    Raises InputRefused as `take_in` and `keep_named` do.
    """
    text = text_of(answers)
    if not stays_inside(text, [_name(each, draft.folder) for each in draft.folder.rglob("*") if each.is_file()]):
        told = "the commission names what is none of its files"
        raise InputRefused("commission-leaves-folder", told, "names of its own files", "", "Drop the files here.")
    text, files = keep_named(shop, text, draft.folder)
    beside = {name: str(draft.beside.get(name, "")) for name in ("whom", "due", "why", CHANGES)}
    if beside[CHANGES]:
        id_ = PieceId(SubjectId(beside[CHANGES]))
        change(shop, clock, id_, text, files, beside["why"])
        return id_
    return take_in(shop, clock, text, files, "", beside["whom"], beside["due"])


def _name(file: Path, folder: Path) -> str:
    return file.relative_to(folder).as_posix()


def changing(drafts: Drafts, shop: Shop, piece: TakenPiece) -> TakingIn:
    """What is asked for of a piece, laid out to be changed.

    Parameters
    ----------
    drafts : of this desk.
    shop : the records.
    piece : it.

    Raises RecordConflict ("file-missing", "file-damaged").
    """
    answers = marks_turned(answers_of(piece.commission))
    answers.setdefault("original.name", piece.name)
    draft = drafts.begin(answers, {CHANGES: piece.id, "whom": piece.whom, "due": piece.due, "way": way_of(answers)})
    folder = draft.folder.parent / FILES
    try:
        folder.rmdir()
        lay_out(shop, piece, folder)
        (folder / COMMISSION).unlink()
    except BaseException:
        drafts.drop(draft.id)
        raise
    return draft


def way_of(answers: Mapping[str, Any]) -> str:
    """By what an original is known: "scan", "photos", "tape" or "water".

    Parameters
    ----------
    answers : by dotted key.
    """
    ways = {"original.file": "scan", "original.photos": "photos", "original.tape": "tape"}
    known = next((way for key, way in ways.items() if answers.get(key)), "")
    return known or ("water" if {"original.displaced", "original.weight"} & set(answers) else "scan")


def usual_answers(shop: Shop) -> dict[str, Any]:
    """What the shop said of itself with the piece that it took in last.

    Parameters
    ----------
    shop : the records.
    """
    every = sorted(pieces(shop, away=True), key=lambda known: known.piece.taken_in_ms)
    try:
        last = marks_turned(answers_of(every[-1].piece.commission)) if every else {}
    except MoldwrightError:
        last = {}
    return {name: value for name, value in last.items() if name.startswith("shop.") and name not in LIE_BESIDE}
