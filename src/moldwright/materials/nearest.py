"""The known word that is nearest to one that is not known."""

from __future__ import annotations

from collections.abc import Iterable
from difflib import get_close_matches

LONGEST_COMPARED = 80


def nearest(word: str, known: Iterable[str], count: int = 3) -> tuple[str, ...]:
    """Up to `count` known words, most alike first; when none is alike, none.

    Parameters
    ----------
    word : what was written; of endless ones only the beginning is compared.
    known : the words it may be.
    count : at most so many.

    >>> nearest("bronce", ["bronze", "copper"])
    ('bronze',)
    """
    by_fold = {k.casefold(): k for k in known}
    asked = word[:LONGEST_COMPARED].casefold()
    return tuple(by_fold[hit] for hit in get_close_matches(asked, list(by_fold), n=count, cutoff=0.5))


def did_you_mean(word: str, known: Iterable[str]) -> str:
    """A sentence that names the nearest known words, or all of them where none is near.

    Parameters
    ----------
    word : what was written.
    known : the words it may be.

    >>> did_you_mean("bronce", ["bronze", "copper"])
    'Did you mean bronze?'
    """
    words = sorted(known)
    near = nearest(word, words)
    return f"Did you mean {' or '.join(near)}?" if near else f"Known here: {', '.join(words)}."
