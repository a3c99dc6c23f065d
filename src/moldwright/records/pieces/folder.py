"""A piece laid out as a folder, for whoever makes its plan: the commission, and its files by the names in it."""

from __future__ import annotations

import os
import secrets
import shutil
from contextlib import suppress
from pathlib import Path
from zipfile import ZIP_DEFLATED, ZipFile, ZipInfo

from moldwright.errors import InputRefused, RecordConflict
from moldwright.log.piece_events import PieceFile
from moldwright.records.files.kept import blocks_of, place_of, size_of
from moldwright.records.pieces.named import stays_inside
from moldwright.records.pieces.names import COMMISSION, check_names
from moldwright.records.pieces.piece import TakenPiece
from moldwright.records.shop import Shop
from moldwright.text.shown import short
from moldwright.ways import Deed

OTHERWISE = "Give the piece its commission anew"


def lay_out(shop: Shop, piece: TakenPiece, folder: Path, linked: bool = False) -> Path:
    """Lay a piece out; whole or not at all. Returns the commission's path.

    Whoever wrote the names, nothing leaves the folder, nor does the commission name anything outside of it.

    Parameters
    ----------
    shop : the store.
    piece : with the commission and files that are meant.
    folder : new or empty; the one above it must be there.
    linked : hard links where the disk takes them, for who only reads: to write into one would damage what is kept.

    Raises InputRefused ("folder-not-empty", "folder-unwritable", "file-name-unusable", "commission-leaves-folder"),
    RecordConflict ("file-missing", "file-damaged").
    """
    _check(piece)
    try:
        if folder.is_symlink() or (folder.exists() and (not folder.is_dir() or any(folder.iterdir()))):
            remedy = "Name a folder that is new or empty."
            raise InputRefused("folder-not-empty", str(folder), "a new folder", "", remedy)
        _laid(shop, piece, folder, linked)
    except (OSError, ValueError) as error:
        told = (error.strerror if isinstance(error, OSError) else None) or "no usable name"
        remedy = "Name a folder where there is room and where you may write."
        raise InputRefused("folder-unwritable", f"{folder}: {told}", None, "", remedy) from None
    return folder / COMMISSION


def pack(shop: Shop, piece: TakenPiece, place: Path) -> None:
    """The same as one file: a zip of the commission and its files.

    Parameters
    ----------
    shop : the store.
    piece : with the commission and files that are meant.
    place : the file to write.

    Raises InputRefused ("file-name-unusable", "commission-leaves-folder"), RecordConflict ("file-missing",
    "file-damaged").
    """
    _check(piece)
    with ZipFile(place, "w", ZIP_DEFLATED) as packed:
        packed.writestr(ZipInfo(COMMISSION), piece.commission, ZIP_DEFLATED)
        for each in piece.files:
            with packed.open(ZipInfo(each.name), "w", force_zip64=True) as out:
                for block in blocks_of(shop.files, each.file):
                    out.write(block)


def _check(piece: TakenPiece) -> None:
    names = [each.name for each in piece.files]
    check_names(names)
    if not stays_inside(piece.commission, names):
        told = f"{piece.name}: its commission names what is none of its files"
        raise InputRefused("commission-leaves-folder", told, "names of its own files", "", OTHERWISE, Deed.CHANGE_PIECE)


def _laid(shop: Shop, piece: TakenPiece, folder: Path, linked: bool) -> None:
    made = folder.with_name(f".{secrets.token_hex(8)}.part")
    made.mkdir()
    try:
        for each in piece.files:
            _lay(shop, each, made / each.name, linked)
        (made / COMMISSION).write_text(piece.commission, encoding="utf-8", newline="")
        made.replace(folder)
    except BaseException:
        shutil.rmtree(made, ignore_errors=True)
        raise


def _lay(shop: Shop, each: PieceFile, place: Path, linked: bool) -> None:
    place.parent.mkdir(parents=True, exist_ok=True)
    try:
        if linked and _link(shop, each, place):
            return
        with place.open("xb") as out:
            for block in blocks_of(shop.files, each.file):
                out.write(block)
    except RecordConflict as refused:
        raise RecordConflict(
            refused.code, f"{short(each.name)} ({refused.actual})", refused.limit, refused.unit, refused.remedy
        ) from None


def _link(shop: Shop, each: PieceFile, place: Path) -> bool:
    size_of(shop.files, each.file)
    with suppress(OSError):
        os.link(place_of(shop.files, each.file), place)
        return True
    return False
