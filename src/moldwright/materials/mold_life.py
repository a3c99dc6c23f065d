"""How long a glove lasts: casts until its face is worn, days on the shelf until it is looked over."""

from __future__ import annotations

from moldwright.materials.figure import Figure
from moldwright.materials.shipped import shipped
from moldwright.materials.words import Chemistry
from moldwright.ranges import Range

SOURCE = "class default, from memory"
LOOK_AFTER_DAYS = 180
"""For a glove of which nobody knows what it is of: the shortest of all; our own."""


def casts_of_glove(rubber: Chemistry, cast: Chemistry) -> Figure:
    """How many casts a glove gives until its face is worn.

    Parameters
    ----------
    rubber : what the glove is of.
    cast : what is cast in it.

    >>> casts_of_glove(Chemistry.ADDITION, Chemistry.GYPSUM).range
    Range(low=40.0, likely=100.0, high=300.0)

    Source: class defaults, from memory.
    """
    return Figure(Range(*map(float, shipped("mold_life")["casts"][rubber][cast])), "casts", SOURCE)


def look_after_days(rubber: Chemistry | None) -> int:
    """After how many days on the shelf a glove is looked over before the next cast: rubber dries out, hardens, sticks.

    Parameters
    ----------
    rubber : what it is of, None where nobody knows.

    >>> look_after_days(Chemistry.LATEX), look_after_days(None)
    (180, 180)

    Source: class defaults, from memory.
    """
    days: int = LOOK_AFTER_DAYS if rubber is None else shipped("mold_life")["look_after_days"][rubber]
    return days
