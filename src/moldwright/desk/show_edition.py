"""Editions and their pieces as words, as JSON and as rows of a list."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

from moldwright.desk.say import say, say_json
from moldwright.log.codes import short_code
from moldwright.log.edition_events import PieceState, Series
from moldwright.log.ids import NumberedId
from moldwright.records.editions.edition import Edition, NumberedPiece
from moldwright.records.told import day_of
from moldwright.text.harmless import harmless
from moldwright.told.csv_text import Cell

HEADS = (
    "edition", "series", "number", "of", "state", "whom", "on", "void", "piece", "code", "run", "cast", "given",
    "certificates",
)  # fmt: skip


def number_words(piece: NumberedPiece) -> str:
    """A piece's number as it is cut: "7/24", "artist's proof 1/2".

    Parameters
    ----------
    piece : whose.
    """
    number = f"{piece.number}/{piece.of}"
    return number if piece.series is Series.NUMBERED else f"{piece.series} {number}"


def listed(editions: Sequence[Edition]) -> str:
    """All editions, a line each.

    Parameters
    ----------
    editions : they.
    """
    if not editions:
        return "No edition is open. `moldwright edition open NAME --size 24` opens one."
    wide = max(len(harmless(each.name)) for each in editions)
    return "\n".join(f"{short_code(each.id)}  {harmless(each.name):<{wide}}  {_left(each)}" for each in editions)


def _left(edition: Edition) -> str:
    return " · ".join(
        f"{edition.left(series)} of {edition.most(series)} {words} left"
        for series, words in ((Series.NUMBERED, "numbers"), (Series.PROOF, "artist's proofs"))
        if edition.most(series)
    )


def shown(edition: Edition) -> str:
    """One edition with all its pieces.

    Parameters
    ----------
    edition : it.
    """
    material = f", {edition.material}" if edition.material else ""
    states = [f"{edition.counted(state)} {state}" for state in PieceState if edition.counted(state)]
    void = sum(piece.void for piece in edition.pieces)
    states += [f"{void} void"] if void else []
    lines = [harmless(f"{edition.name}{material}  ({short_code(edition.id)})"), f"  {_left(edition)}"]
    lines += [f"  {' · '.join(states)}"] if states else []
    return "\n".join([*lines, *_pieces(edition)])


def _pieces(edition: Edition) -> Iterator[str]:
    numbers = [number_words(piece) for piece in edition.pieces]
    wide = max(map(len, numbers), default=0)
    for number, piece in zip(numbers, edition.pieces, strict=True):
        yield f"  {number:<{wide}}  {short_code(piece.id)}  {place_words(piece)}".rstrip()


def place_words(piece: NumberedPiece) -> str:
    """Where a piece is, since when, for or to whom.

    Parameters
    ----------
    piece : which.
    """
    if piece.void:
        return "void: its number was struck out and stays spent"
    return harmless(", ".join(filter(None, (piece.state.value, piece.whom, piece.on))))


def given_words(edition: Edition, piece: NumberedPiece) -> str:
    """What is told when a number was given.

    Parameters
    ----------
    edition, piece : of the number.
    """
    cast = f", cast {piece.turn} of run {short_code(piece.run)}" if piece.run else ""
    number = number_words(piece)
    return harmless(f"{edition.name} {number}: piece {short_code(piece.id)}{cast}. This number is given for good.")


def say_piece(edition: Edition, id_: NumberedId, as_json: bool) -> None:
    """Tell where a piece is now.

    Parameters
    ----------
    edition, id_ : which.
    as_json : as one object.
    """
    piece = next(each for each in edition.pieces if each.id == id_)
    words = harmless(f"{edition.name} {number_words(piece)}")
    say_json(piece_tree(piece)) if as_json else say(f"{words}: {place_words(piece)}.")


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
    return {**tree, "pieces": [piece_tree(piece) for piece in edition.pieces]} if pieces else tree


def piece_tree(piece: NumberedPiece) -> dict[str, Any]:
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


def rows(edition: Edition) -> Iterator[list[Cell]]:
    """The pieces as rows under `HEADS`.

    Parameters
    ----------
    edition : whose.
    """
    for piece in edition.pieces:
        tree = piece_tree(piece)
        told = {
            **tree,
            "edition": edition.name,
            "void": "void" if piece.void else "",
            "piece": piece.id,
            "given": day_of(piece.given_ms).isoformat(),
            "certificates": len(piece.certificates_ms),
        }
        yield [told[head] for head in HEADS]
