"""How long a glove lasts: casts until its face is worn, days on the shelf until it is looked over."""

from __future__ import annotations

from math import sqrt

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


def worn_by(what: str) -> Figure:
    """A factor on the casts of a glove.

    Parameters
    ----------
    what : its name in the data: slit, thin, fins, poured, warm, hot.

    >>> worn_by("slit").likely
    0.8

    Source: common practice, no source; the rest from memory.
    """
    entry = shipped("mold_life")["factor"][what]
    return Figure(Range(*map(float, entry["value"])), "factor", entry["source"])


def by_tear(rubber: Chemistry, tear_kn_m: Range) -> Figure:
    """A factor on the casts of a glove for the rubber's tear strength T: the root of T over its class's usual.

    Parameters
    ----------
    rubber : what the glove is of.
    tear_kn_m : by its sheet [kN/m], > 0.

    >>> by_tear(Chemistry.LATEX, Range(8.75, 35.0, 35.0)).range
    Range(low=0.5, likely=1.0, high=1.0)

    Source: from memory.
    """
    entry = shipped("mold_life")["tear"]
    usual = float(entry["usual"][rubber])
    low, likely, high = (sqrt(each / usual) for each in (tear_kn_m.low, tear_kn_m.likely, tear_kn_m.high))
    return Figure(Range(low, likely, high), "factor", entry["source"])


def by_stretch(stretch: float, elongation_pct: Range) -> Figure:
    """A factor on the casts of a glove for how far it is stretched at each: 1 up to a free share of its elongation at
    break, falling evenly to the least at the share at which it is spent.

    Parameters
    ----------
    stretch : of a girth, its greatest over its own length, 1 or more.
    elongation_pct : at break, by its sheet [%], > 0.

    >>> by_stretch(1.2, Range(680.0, 900.0, 1000.0)).range
    Range(low=1.0, likely=1.0, high=1.0)
    >>> by_stretch(2.0, Range(100.0, 200.0, 400.0)).range
    Range(low=0.2, likely=0.7, high=1.0)

    Source: common practice, no source.
    """
    entry = shipped("mold_life")["stretch"]
    free, spent = entry["free"], entry["spent"]
    shares = (
        100.0 * (stretch - 1.0) / each for each in (elongation_pct.low, elongation_pct.likely, elongation_pct.high)
    )
    gone = (min(max((share - free) / (spent - free), 0.0), 1.0) for share in shares)
    factors = (1.0 - part * (1.0 - least) for part, least in zip(gone, entry["least"], strict=True))
    return Figure(Range(*(round(each, 9) for each in factors)), "factor", entry["source"])
