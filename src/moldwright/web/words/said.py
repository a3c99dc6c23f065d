"""Who speaks which language at the desk. A catalog is gettext's `words/LANGUAGE/desk.po`: tools/words."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache
from gettext import GNUTranslations
from io import BytesIO
from pathlib import Path

from babel.messages.mofile import write_mo
from babel.messages.pofile import read_po
from babel.numbers import get_decimal_symbol

from moldwright.words.speaker import ENGLISH, Speaker, say, say_count, speaker

__all__ = ["languages", "say", "say_count", "say_of", "speaker_of", "wanted_of"]
HERE = Path(__file__).parent
CATALOG = "desk.po"
OF = "\x04"
"""What parts a context and its sentence in a compiled catalog (gettext's MO)."""


@cache
def languages() -> tuple[str, ...]:
    """The languages that there are."""
    return (ENGLISH.language, *sorted(file.parent.name for file in HERE.glob(f"*/{CATALOG}")))


@cache
def speaker_of(language: str) -> Speaker:
    """Who speaks a language; one that there is not is English.

    Parameters
    ----------
    language : its ISO 639-1 code.
    """
    if language == ENGLISH.language or language not in languages():
        return ENGLISH
    with (HERE / language / CATALOG).open("rb") as file:
        kept = read_po(file, locale=language)
    compiled = BytesIO()
    write_mo(compiled, kept)
    compiled.seek(0)
    told = GNUTranslations(compiled)
    return Speaker(language, get_decimal_symbol(language), told.gettext, told.ngettext)


def say_of(what: str, english: str) -> str:
    """A word that other languages have two for: gettext's `pgettext`.

    Parameters
    ----------
    what : what it is said of.
    english : the word.
    """
    told = speaker().sentence(f"{what}{OF}{english}")
    return english if OF in told else told


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
    return best[0][1] if best else ENGLISH.language
