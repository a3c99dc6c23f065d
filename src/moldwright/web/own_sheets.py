"""The shop's own sheets that lie beside a piece's commission."""

from __future__ import annotations

from pathlib import PurePosixPath

from moldwright.materials.library import Library, library
from moldwright.records.files.kept import bytes_of
from moldwright.records.pieces.piece import TakenPiece
from moldwright.records.shop import Shop


def library_of(shop: Shop, piece: TakenPiece, sheets: str) -> Library:
    """The shipped classes with the piece's own sheets on top.

    Parameters
    ----------
    shop : where its files are kept.
    piece : it.
    sheets : the folder of own sheets as its commission names it, "" for none.

    Raises RecordConflict ("file-missing", "file-damaged"), and what a sheet is refused for.
    """
    if not sheets:
        return library()
    named = ((PurePosixPath(each.name), each.file) for each in piece.files)
    own = sorted((path.name, file) for path, file in named if path.parent == PurePosixPath(sheets))
    return library({name: bytes_of(shop.files, file).decode() for name, file in own if name.endswith(".toml")})
