"""Sentences and figures as the reader of now reads them. Who answers a reader sets the speaker; others only speak."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from contextvars import ContextVar
from dataclasses import dataclass

from moldwright.ways import parted, plain_figure

POINT = "."
_MARK = re.compile(r"(?<=\d)[.,](?=\d)|(?<!\S)[.,](?=\d)")
"""A mark within a number, or in front of its decimals."""
_PLACE = re.compile(r"\{(\d+)\}")
_OTHER = {".": ",", ",": "."}


def _plainly(values: Sequence[float], unit: str) -> tuple[str, ...]:
    return tuple(plain_figure(value, unit) for value in values)


@dataclass(frozen=True, slots=True)
class Speaker:
    """Who speaks one language.

    Parameters
    ----------
    language : its ISO 639-1 code.
    decimal : the mark between a number's whole part and its decimals.
    sentence : a sentence, or a template of one, from its English.
    counted : the same of so many, from both English forms.
    measured : figures in one unit of the house, in the reader's units: told so closely that two that differ read so.
    """

    language: str
    decimal: str
    sentence: Callable[[str], str]
    counted: Callable[[str, str, int], str]
    measured: Callable[[Sequence[float], str], tuple[str, ...]] = _plainly


ENGLISH = Speaker("en", POINT, lambda english: english, lambda one, many, count: one if count == 1 else many)
_NOW: ContextVar[Speaker] = ContextVar("speaker", default=ENGLISH)


def speaker() -> Speaker:
    """Who speaks now; English where nobody was set."""
    return _NOW.get()


@contextmanager
def spoken_by(one: Speaker) -> Iterator[None]:
    """Let somebody speak as long as this lasts, in this thread and those that are called from it.

    Parameters
    ----------
    one : who.
    """
    before = _NOW.set(one)
    try:
        yield
    finally:
        _NOW.reset(before)


def say(english: str, **figures: object) -> str:
    """A sentence in the reader's language; its figures fill the places that bear their names.

    Parameters
    ----------
    english : the sentence as it stands in the source: its key in every catalog.
    figures : what stands in its places, worded already; with none of them the sentence is told as it is.

    >>> say("{left} more", left="3.6 g")
    '3.6 g more'
    """
    told = speaker().sentence(english) if english else ""
    return told.format(**figures) if figures else told


def say_marked(text: str, one: Callable[[str], str]) -> str:
    """A sentence of a refusal in the reader's language: found as a whole, with what it names in its places; one that no
    catalog has stays as it is.

    Parameters
    ----------
    text : with marks (`moldwright.ways`).
    one : a text with all its marks in words.

    >>> say_marked("Write ⟦2.0|mm⟧ or more.", lambda told: told.replace("⟦2.0|mm⟧", "2 mm"))
    'Write 2 mm or more.'
    """
    template, marks = parted(text)
    told = say(template)
    if not marks or told == template:
        return one(text) if marks else told
    parts = [one(mark) for mark in marks]
    return _PLACE.sub(lambda place: parts[int(place[1])], told)


def say_count(one: str, many: str, count: int, **figures: object) -> str:
    """A sentence about so many.

    Parameters
    ----------
    one, many : it in English.
    count : how many.
    figures : what stands in its places.

    >>> say_count("{num} cast", "{num} casts", 2, num=2)
    '2 casts'
    """
    told = speaker().counted(one, many, count)
    return told.format(**figures) if figures else told


def with_mark(number: str) -> str:
    """A printed number with the reader's decimal mark.

    Parameters
    ----------
    number : as Python prints it, no thousands apart.

    >>> with_mark("3.6")
    '3.6'
    """
    mark = speaker().decimal
    return number if mark == POINT else number.replace(POINT, mark)


def in_house_marks(typed: str) -> str:
    """A quantity as its reader types it, with the marks that the house reads, a point before decimals; and back, as a
    language that has a comma there has the point between thousands.

    Parameters
    ----------
    typed : "1,5 kg" where a comma is the decimal mark. `units/reading.py` refuses what could be thousands.

    >>> in_house_marks("1.5 kg")
    '1.5 kg'
    """
    return typed if speaker().decimal == POINT else _MARK.sub(lambda mark: _OTHER[mark[0]], typed)
