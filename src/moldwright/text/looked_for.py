"""Looking for words in what is told of a thing: one way for every list."""

from __future__ import annotations


def says_all(told: str, wanted: str) -> bool:
    """Whether all words stand in a text, wherever, in whichever case; no words stand in every text.

    Parameters
    ----------
    told : of the thing.
    wanted : words, as they are typed.
    """
    text = told.casefold()
    return all(word in text for word in wanted.casefold().split())
