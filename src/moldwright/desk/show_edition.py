"""What the commands about editions print."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from moldwright.desk.say import say, say_json
from moldwright.log.codes import short_code
from moldwright.log.ids import NumberedId
from moldwright.records.editions.edition import Edition
from moldwright.text.harmless import harmless
from moldwright.told.edition_trees import numbered_tree
from moldwright.told.edition_words import left_words, number_words, place_words, states_words


def listed(editions: Sequence[Edition]) -> str:
    """All editions, a line each.

    Parameters
    ----------
    editions : they.
    """
    if not editions:
        return "No edition is open. `moldwright edition open NAME --size 24` opens one."
    wide = max(len(harmless(each.name)) for each in editions)
    return "\n".join(f"{short_code(each.id)}  {harmless(each.name):<{wide}}  {left_words(each)}" for each in editions)


def shown(edition: Edition) -> str:
    """One edition with all its pieces.

    Parameters
    ----------
    edition : it.
    """
    material = f", {edition.material}" if edition.material else ""
    states = states_words(edition)
    lines = [harmless(f"{edition.name}{material}  ({short_code(edition.id)})"), f"  {left_words(edition)}"]
    lines += [f"  {states}"] if states else []
    return "\n".join([*lines, *_pieces(edition)])


def _pieces(edition: Edition) -> Iterator[str]:
    numbers = [number_words(piece) for piece in edition.pieces]
    wide = max(map(len, numbers), default=0)
    for number, piece in zip(numbers, edition.pieces, strict=True):
        yield f"  {number:<{wide}}  {short_code(piece.id)}  {place_words(piece)}".rstrip()


def say_piece(edition: Edition, id_: NumberedId, as_json: bool) -> None:
    """Tell where a piece is now.

    Parameters
    ----------
    edition, id_ : which.
    as_json : as one object.
    """
    piece = next(each for each in edition.pieces if each.id == id_)
    words = harmless(f"{edition.name} {number_words(piece)}")
    say_json(numbered_tree(piece)) if as_json else say(f"{words}: {place_words(piece)}.")
