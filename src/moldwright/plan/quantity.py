"""A quantity that a sentence quotes: what it measures and its value; its digits are chosen where it is printed."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from moldwright import ranges
from moldwright.errors import ComputationFailed
from moldwright.ranges import Range


class Dimension(StrEnum):
    """What a quantity measures, and in which of the house's units its value stands."""

    LENGTH = "length, mm"
    FINE_LENGTH = "length to a hundredth, mm"
    AREA = "area, mm2"
    MASS = "mass, g"
    SCALED_MASS = "mass in steps of the scale, g"
    COARSE_MASS = "mass to a gram, g"
    SCALE_STEP = "step of a scale, g"
    LIFT = "weight lifted, kg"
    VOLUME = "volume, ml"
    DURATION = "duration, s"
    TEMPERATURE = "temperature, degC"
    SHARE = "share, of one"
    FINE_SHARE = "share to a hundredth of a percent, of one"
    PERCENT = "share, %"
    VISCOSITY = "viscosity, Pa s"
    FACTOR = "factor"
    COUNT = "count"
    WORD = "word"
    TITLE = "title of a step, by the key of its sentence"
    TOOL = "what a coat is laid with, by its gesture"
    HOLES = "through-holes: letter=width, mm"
    SHEETS = "sheets across through-holes: letter=length x breadth, mm"
    PARTS = "parts of a cup: kind=amount, g, ml or ml by syringe"
    CODES = "hazard statements in short, by code"
    CODES_IN_FULL = "hazard statements in full, by code"


Value = Range | float | str
"""A number, a number with its bounds, or a word."""


@dataclass(frozen=True, slots=True)
class Quantity:
    """One quantity by the name that sentences quote it by.

    Parameters
    ----------
    name : as it stands in a sentence: "coat.thickness".
    measure : what it measures; its unit is the house's.
    value : a number, its range, or a word: a name as its owner wrote it, or a key of ours.
    """

    name: str
    measure: Dimension
    value: Value


def likely_of(value: Value) -> float:
    """The number, or the likely one of a range.

    Parameters
    ----------
    value : no word.

    >>> likely_of(4.0), likely_of(Range(1.0, 2.0, 3.0))
    (4.0, 2.0)
    """
    if isinstance(value, str):
        raise ComputationFailed("word-for-a-number", value[:40], None, "", "Please report this commission.")
    return ranges.likely_of(value)
