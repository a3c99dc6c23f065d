"""The one check of a glove's coats: how many, how thick, and that together they are the thickness."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Protocol

from moldwright.commission.keys import keys
from moldwright.errors import InputRefused
from moldwright.text.shown import shown
from moldwright.ways import figure, named_key, own_name

AGREE_WITHIN_MM = 0.01
"""Coats and thickness that differ by less say the same: the last digit that anyone writes; our own."""
USUAL_MM = 3.0, 8.0
"""What suits most gloves, all coats together: common practice, no source."""
MOST_COATS = 8
"""As many as have a pigment color of their own; our own."""


class NamedThickness(Protocol):
    """A coat as the maker writes it."""

    @property
    def name(self) -> str:
        """Its name, of its own among the coats."""

    @property
    def thickness_mm(self) -> float:
        """How thick it is [mm]."""


def check_coats(coats: Sequence[NamedThickness], thickness_mm: float | None) -> float:
    """The thickness of all coats together [mm]; refused where no glove is laid so.

    Parameters
    ----------
    coats : the maker's own coats in order, 1 to 8, of different names, each within the bounds of mold.coats; none for
        the usual ones.
    thickness_mm : what mold.thickness says [mm], within its bounds; None where it was left out, and coats were not.

    >>> from moldwright.commission.orders import CoatOrder
    >>> check_coats([CoatOrder("detail", 0.6), CoatOrder("build", 3.4)], None)
    4.0

    Source: our own; the bounds are common practice, no source.
    """
    if not coats:
        return _thickness(thickness_mm if thickness_mm is not None else math.nan)
    _names([coat.name for coat in coats])
    for coat in coats:
        _coat(coat)
    together_mm = round(math.fsum(coat.thickness_mm for coat in coats), 6)
    if thickness_mm is not None and abs(together_mm - thickness_mm) > AGREE_WITHIN_MM:
        listed, together = " + ".join(figure(coat.thickness_mm, "mm") for coat in coats), figure(together_mm, "mm")
        told = f"The coats {listed} = {together} must add up to {named_key('mold.thickness')}"
        remedy = f"{told}: change a coat, or leave the thickness out."
        raise InputRefused("coats-disagree", together_mm, round(thickness_mm, 4), "mm", remedy)
    return _thickness(together_mm)


def _names(names: Sequence[str]) -> None:
    if len(names) > MOST_COATS:
        raise InputRefused("value-out-of-range", len(names), MOST_COATS, "coats", "Lay fewer, thicker coats.")
    if twice := next((name for name in names if names.count(name) > 1), None):
        raise InputRefused("coat-twice", shown(twice), "each name once", "", "Give every coat a name of its own.")


def _thickness(thickness_mm: float) -> float:
    low, high = _bounds_mm("thickness")
    if not low <= thickness_mm <= high:
        remedy = (
            f"All coats together are {figure(low, 'mm')} to {figure(high, 'mm')} thick; {figure(USUAL_MM[0], 'mm')} to "
            f"{figure(USUAL_MM[1], 'mm')} suit most gloves."
        )
        raise InputRefused("value-out-of-range", round(thickness_mm, 4), _passed(thickness_mm, low, high), "mm", remedy)
    return thickness_mm


def _coat(coat: NamedThickness) -> None:
    low, high = _bounds_mm("coats")
    if not low <= coat.thickness_mm <= high:
        limit_mm = _passed(coat.thickness_mm, low, high)
        remedy = f"Coat {own_name(coat.name)} is {figure(low, 'mm')} to {figure(high, 'mm')} thick."
        raise InputRefused("value-out-of-range", round(coat.thickness_mm, 4), limit_mm, "mm", remedy)


def _bounds_mm(name: str) -> tuple[float, float]:
    key = keys()["mold"][name]
    return key.low or 0.0, key.high or math.inf


def _passed(value_mm: float, low_mm: float, high_mm: float) -> float:
    """The bound that a value passes."""
    return high_mm if value_mm > high_mm else low_mm
