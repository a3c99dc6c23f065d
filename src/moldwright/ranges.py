"""A quantity that is uncertain: its likely value and the bounds that hold it nine times of ten."""

from __future__ import annotations

from dataclasses import dataclass

from moldwright.errors import InputRefused
from moldwright.text.shown import number


@dataclass(frozen=True, slots=True)
class Range:
    """Low, likely and high value of one quantity at 90 %.

    >>> Range(1.0, 2.0, 4.0) * 10
    Range(low=10.0, likely=20.0, high=40.0)
    """

    low: float
    likely: float
    high: float

    def __post_init__(self) -> None:
        if not self.low <= self.likely <= self.high:
            raise InputRefused(
                "range-out-of-order",
                " / ".join(number(value) for value in (self.low, self.likely, self.high)),
                "low <= likely <= high",
                remedy="Write the low, the likely and the high value in that order.",
            )

    def __mul__(self, factor: float) -> Range:
        ends = sorted((self.low * factor, self.high * factor))
        return Range(ends[0], self.likely * factor, ends[1])

    __rmul__ = __mul__

    def __add__(self, other: Range) -> Range:
        return Range(self.low + other.low, self.likely + other.likely, self.high + other.high)

    @classmethod
    def exactly(cls, value: float) -> Range:
        """A value without spread."""
        return cls(value, value, value)

    @classmethod
    def about(cls, likely: float, share: float) -> Range:
        """`likely` give or take the fraction `share` of it.

        >>> Range.about(100.0, 0.25)
        Range(low=75.0, likely=100.0, high=125.0)
        """
        return cls(likely * (1.0 - share), likely, likely * (1.0 + share))
