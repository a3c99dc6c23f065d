"""Editions and their pieces for programs, and as rows of a list."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from moldwright.log.codes import short_code
from moldwright.log.edition_events import Series
from moldwright.records.editions.edition import Edition, NumberedPiece
from moldwright.records.told import day_of
from moldwright.told.csv_text import Cell

HEADS = (
    "edition", "series", "number", "of", "state", "whom", "on", "void", "piece", "code", "run", "cast", "given",
    "certificates",
)  # fmt: skip
EDITION_HEADS = ("code", "name", "material", "size", "proofs", "left", "proofs_left", "opened_ms", "id")
"""Of the table of all editions, in its order."""


def edition_tree(edition: Edition, pieces: bool = True) -> dict[str, Any]:
    """An edition for programs.

    Parameters
    ----------
    edition : it.
    pieces : with its pieces.
    """
    tree = {
        "id": edition.id,
        "code": short_code(edition.id),
        "name": edition.name,
        "material": edition.material,
        "size": edition.size,
        "proofs": edition.proofs,
        "left": edition.left(Series.NUMBERED),
        "proofs_left": edition.left(Series.PROOF),
        "opened_ms": edition.opened_ms,
    }
    return {**tree, "pieces": [numbered_tree(piece) for piece in edition.pieces]} if pieces else tree


def numbered_tree(piece: NumberedPiece) -> dict[str, Any]:
    """A piece for programs.

    Parameters
    ----------
    piece : it.
    """
    return {
        "id": piece.id,
        "code": short_code(piece.id),
        "series": piece.series.value,
        "number": piece.number,
        "of": piece.of,
        "state": piece.state.value,
        "whom": piece.whom,
        "on": piece.on,
        "void": piece.void,
        "run": piece.run,
        "cast": piece.turn if piece.run else None,
        "given_ms": piece.given_ms,
        "certificates_ms": list(piece.certificates_ms),
    }


def edition_rows(edition: Edition) -> Iterator[list[Cell]]:
    """The pieces as rows under `HEADS`.

    Parameters
    ----------
    edition : whose.
    """
    for piece in edition.pieces:
        tree = numbered_tree(piece)
        told = {
            **tree,
            "edition": edition.name,
            "void": "void" if piece.void else "",
            "piece": piece.id,
            "given": day_of(piece.given_ms).isoformat(),
            "certificates": len(piece.certificates_ms),
        }
        yield [told[head] for head in HEADS]
