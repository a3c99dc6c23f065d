"""A quantity as it was read off a gauge and written down: its value, and the step of its last digit."""

from __future__ import annotations

import re
from dataclasses import dataclass

from moldwright.units.reading import terms
from moldwright.units.tables import units_of
from moldwright.units.text import plain

_LAST = re.compile(r"(?:\d+ ?/ ?(?P<bottom>\d+)|[.,](?P<digits>\d+)|\d+)(?=\D*$)")


@dataclass(frozen=True, slots=True)
class ReadOff:
    """A value, and how much its last written digit counts, both in the house's unit.

    >>> ReadOff(1900.0, 100.0) * 2
    ReadOff(value=3800.0, step=200.0)
    """

    value: float
    step: float

    def __mul__(self, factor: float) -> ReadOff:
        return ReadOff(self.value * factor, self.step * factor)


def read_step(text: str, dimension: str) -> float:
    """How much the last written digit of a quantity counts, in the house's unit.

    Parameters
    ----------
    text : a quantity that was read before, so that its units are known.
    dimension : "length", "mass" or "volume".

    >>> read_step("1.9 l", "volume"), read_step("3 lb 4 1/2 oz", "mass") == 28.349523125 / 2
    (100.0, True)

    Source: a number stands for all that round to its last digit; common practice, no source.
    """
    written = plain(text)
    last = terms(written)[1][-1]
    digit = _LAST.search(written.replace("³", ""))
    share = 1.0
    if digit is not None and digit["bottom"]:
        share = 1.0 / int(digit["bottom"])
    elif digit is not None and digit["digits"]:
        share = 10.0 ** -len(digit["digits"])
    known = units_of(dimension)
    return share * (known[last.unit].factor if last.unit in known else 1.0)
