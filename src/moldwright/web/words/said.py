"""Which language a reader reads, and words in it. A catalog is gettext's `words/LANGUAGE/desk.po`: tools/words."""

from __future__ import annotations

from collections.abc import Sequence
from contextvars import ContextVar
from functools import cache
from gettext import GNUTranslations, NullTranslations
from io import BytesIO
from pathlib import Path

from babel.messages.mofile import write_mo
from babel.messages.pofile import read_po

HERE = Path(__file__).parent
CATALOG = "desk.po"
ENGLISH = "en"
LANGUAGE: ContextVar[str] = ContextVar("language", default=ENGLISH)
"""The language of whoever is answered now."""


@cache
def languages() -> tuple[str, ...]:
    """The languages that there are."""
    return (ENGLISH, *sorted(file.parent.name for file in HERE.glob(f"*/{CATALOG}")))


@cache
def catalog(language: str) -> NullTranslations:
    """The catalog of a language; of one that there is not, English.

    Parameters
    ----------
    language : its ISO 639-1 code.
    """
    if language == ENGLISH or language not in languages():
        return NullTranslations()
    with (HERE / language / CATALOG).open("rb") as file:
        kept = read_po(file, locale=language)
    compiled = BytesIO()
    write_mo(compiled, kept)
    compiled.seek(0)
    return GNUTranslations(compiled)


def say(english: str) -> str:
    """A sentence in the reader's language.

    Parameters
    ----------
    english : the sentence as it stands in the pages.
    """
    return catalog(LANGUAGE.get()).gettext(english)


def say_count(one: str, many: str, count: int) -> str:
    """A sentence about so many.

    Parameters
    ----------
    one, many : it in English.
    count : how many.
    """
    return catalog(LANGUAGE.get()).ngettext(one, many, count)


def wanted_of(header: str, known: Sequence[str]) -> str:
    """The first language that a browser asks for and that there is (RFC 9110, 12.5.4); English else.

    Parameters
    ----------
    header : `Accept-Language`.
    known : the languages that there are.

    >>> wanted_of("fr;q=0.9, de-AT, en;q=0.5", ("en", "de"))
    'de'
    """
    asked: list[tuple[float, str]] = []
    for part in header.split(",")[:20]:
        tag, _, rest = part.strip().partition(";")
        quality = rest.strip().removeprefix("q=")
        try:
            asked.append((float(quality) if quality else 1.0, tag.strip()[:2].lower()))
        except ValueError:
            continue
    best = sorted(((q, tag) for q, tag in asked if tag in known and q > 0.0), key=lambda each: -each[0])
    return best[0][1] if best else ENGLISH
