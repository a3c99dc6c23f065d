"""One line that a person reads: the key of our sentence, or the maker's own words."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar


@dataclass(frozen=True, slots=True)
class Line:
    """A sentence, told by the key under which it stands in the data, or in the words of who wrote it.

    `say` is the key of one of our sentences, "" where `own` holds what a maker or a sheet says.
    """

    IN_WORDS: ClassVar[str] = "text"
    """The key under which plan.json tells it in words."""
    say: str
    own: str = ""


def own_line(text: str) -> Line:
    """A line in somebody's own words.

    Parameters
    ----------
    text : as it was written.

    >>> own_line("Set it under the lamp.").say
    ''
    """
    return Line("", text)
