"""Words that are translated when they are shown, not where they stand."""

from __future__ import annotations

from typing import NewType

Words = NewType("Words", str)


def words(english: str) -> Words:
    """Mark a sentence for the catalogs; `words/speaker.py` says it.

    Parameters
    ----------
    english : the sentence.
    """
    return Words(english)
