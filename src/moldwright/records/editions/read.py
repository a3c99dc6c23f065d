"""Editions and pieces of the shop, and which one is meant by what a person types."""

from __future__ import annotations

import re
from itertools import groupby

from sqlalchemy import Connection

from moldwright.errors import InputRefused
from moldwright.log.codes import CODE_LENGTH, URN
from moldwright.log.edition_events import Series
from moldwright.log.event import About
from moldwright.log.ids import EditionId, NumberedId
from moldwright.records.editions.edition import Edition, NumberedPiece, edition_of
from moldwright.records.find import find
from moldwright.records.shop import Shop
from moldwright.records.within import all_within
from moldwright.text.shown import short
from moldwright.ways import Deed

_NUMBERED = re.compile(r"(?P<name>.+?)\s+(?P<proof>proof\s+)?(?P<number>\d{1,6})(/\d+)?", re.IGNORECASE)


def editions(shop: Shop) -> tuple[Edition, ...]:
    """All editions, the oldest first.

    Parameters
    ----------
    shop : the store.
    """
    with shop.reading() as connection:
        return editions_within(connection)


def editions_within(connection: Connection) -> tuple[Edition, ...]:
    """All editions as a transaction sees them, the oldest first.

    Parameters
    ----------
    connection : of `Shop.writing` or `Shop.reading`.
    """
    by_subject = groupby(all_within(connection, About.EDITION), key=lambda event: event.subject)
    found = (edition_of(same) for _, same in by_subject)
    return tuple(sorted((each for each in found if each is not None), key=lambda each: (each.opened_ms, each.id)))


def edition(shop: Shop, id_: EditionId) -> Edition:
    """One edition.

    Parameters
    ----------
    shop : the store.
    id_ : which.

    Raises InputRefused ("not-kept").
    """
    found = edition_of(shop.events_of(id_))
    if found is None:
        remedy = "Look which there are"
        raise InputRefused("not-kept", id_, "an edition of this shop", "", remedy, Deed.SEE_EDITIONS)
    return found


def edition_meant(shop: Shop, written: str) -> Edition:
    """The edition that is meant.

    Parameters
    ----------
    shop : the store.
    written : its name, its id or its short code.

    Raises InputRefused ("not-kept", "code-of-several").
    """
    wanted = written.strip().casefold()
    named = next((each for each in editions(shop) if each.name.casefold() == wanted), None)
    return named or edition(shop, EditionId(find(shop, About.EDITION, written)))


def piece_meant(shop: Shop, written: str) -> tuple[Edition, NumberedPiece]:
    """The piece that is meant, with its edition.

    Parameters
    ----------
    shop : the store.
    written : its id, its short code, or the edition's name and the number: "otter 7", "otter 7/24", "otter proof 1".

    Raises InputRefused ("not-kept", "code-of-several").
    """
    known = editions(shop)
    found = _by_number(known, written) or _by_code(known, written)
    if not found:
        remedy = 'Write the code on its certificate, or the edition\'s name and the number: "otter 7", "otter proof 1".'
        raise InputRefused("not-kept", short(written), "a piece of this shop", "", remedy)
    if len(found) > 1:
        raise InputRefused("code-of-several", short(written), "one piece", "", "Write the whole id.")
    return found[0]


def _by_number(known: tuple[Edition, ...], written: str) -> list[tuple[Edition, NumberedPiece]]:
    told = _NUMBERED.fullmatch(written.strip())
    if told is None:
        return []
    name, number = told["name"].casefold(), int(told["number"])
    series = Series.PROOF if told["proof"] else Series.NUMBERED
    return [
        (each, piece)
        for each in known
        for piece in each.pieces
        if each.name.casefold() == name and (piece.series, piece.number) == (series, number)
    ]


def _by_code(known: tuple[Edition, ...], written: str) -> list[tuple[Edition, NumberedPiece]]:
    wanted = written.strip().lower().removeprefix(URN)
    code = wanted.replace("-", "")
    by_code = len(code) == CODE_LENGTH and code.isalnum()
    pieces = [(each, piece) for each in known for piece in each.pieces]
    return [pair for pair in pieces if _is(pair[1].id, wanted) or (by_code and pair[1].id.endswith(code))]


def _is(id_: NumberedId, wanted: str) -> bool:
    return id_ == wanted
