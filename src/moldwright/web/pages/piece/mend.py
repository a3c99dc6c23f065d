"""A refused plan mended on its piece's page: another value at the key that its remedy names, and planned anew."""

from __future__ import annotations

from dataclasses import dataclass

from moldwright.commission.changed import changed_commission
from moldwright.commission.keys import ValueKind, keys
from moldwright.commission.reading import commission_from_toml
from moldwright.errors import InputRefused, refusal_of
from moldwright.making.choices import choices_of
from moldwright.materials.library import library
from moldwright.records.pieces.piece import TakenPiece
from moldwright.ways import Change
from moldwright.web.long_work.job import LongJob
from moldwright.web.words.asked import CALLED
from moldwright.web.words.marked import Words

NOT_TYPED = (ValueKind.RECORD, ValueKind.RECORDS, ValueKind.COATS, ValueKind.NAMES, ValueKind.LENGTHS, ValueKind.PATH)
"""What no single field takes."""


@dataclass(frozen=True, slots=True)
class PieceMend:
    """What may be written instead.

    Parameters
    ----------
    key : of the commission.
    called : what that is called on pages.
    to : the value that mends it, "" where one chooses oneself.
    choices : words to choose from, with their names; none: it is typed.
    """

    key: str
    called: Words
    to: str | int
    choices: dict[str, str]


def mend_of(job: LongJob | None) -> PieceMend | None:
    """What mends the last plan; None where none was refused, or its remedy names no key that pages ask for.

    Parameters
    ----------
    job : the last planning of the piece.
    """
    way = refusal_of(job.refused).way if job is not None and job.refused else None
    if not isinstance(way, Change) or way.key not in CALLED or kind_of(way.key) in NOT_TYPED:
        return None
    return PieceMend(way.key, CALLED[way.key], way.to, choices_of(way.key, library()))


def kind_of(dotted: str) -> ValueKind:
    """What a key of a commission takes.

    Parameters
    ----------
    dotted : the key with its table.
    """
    table, _, name = dotted.partition(".")
    return keys()[table][name].kind


def mended_commission(piece: TakenPiece, job: LongJob | None, value: str) -> str:
    """What is asked for, with another value at that key.

    Parameters
    ----------
    piece : whose commission it is.
    job : the last planning of it.
    value : as typed or chosen; "": the one that the remedy tells.

    Raises InputRefused ("nothing-to-mend", and those of a commission).
    """
    mend = mend_of(job)
    told: str | int = value.strip() or (mend.to if mend is not None else "")
    if mend is None or told == "":
        remedy = "Change what is asked for, and plan anew."
        raise InputRefused("nothing-to-mend", piece.name, "a plan that was refused for one value", "", remedy)
    table, _, name = mend.key.partition(".")
    if kind_of(mend.key) is ValueKind.COUNT and isinstance(told, str) and told.isdecimal():
        told = int(told)
    text = changed_commission(piece.commission, {(table, name): told})
    commission_from_toml(text)
    return text
