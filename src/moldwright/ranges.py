"""A quantity that is uncertain: its likely value and the bounds that hold it nine times of ten."""

from __future__ import annotations

from dataclasses import dataclass
from math import hypot

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

    def doubted(self, factor: Range) -> Range:
        """Itself times a factor that is as uncertain for reasons of its own: the shares by which either may be lower,
        or higher, add as squares.

        Parameters
        ----------
        factor : independent of this, its likely value above 0.

        >>> Range(97.0, 100.0, 104.0).doubted(Range(0.96, 1.0, 1.03))
        Range(low=95.0, likely=100.0, high=105.0)
        """
        if not self.likely or factor.low == factor.high:
            return self * factor.likely
        down, up = (hypot(*shares) for shares in zip(self._shares(), factor._shares(), strict=True))
        likely = self.likely * factor.likely
        return Range(likely * (1.0 - down), likely, likely * (1.0 + up))

    def _shares(self) -> tuple[float, float]:
        """How far the bounds are from the likely value, as shares of it."""
        return 1.0 - self.low / self.likely, self.high / self.likely - 1.0

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


NINETY = 1.6448536269514722
"""Standard deviations of a normal within which nine of ten lie, on both sides together."""
Amount = float | Range
"""A measure that is known, or one with its bounds."""


def likely_of(amount: Amount) -> float:
    """The measure, or its likely value.

    Parameters
    ----------
    amount : known or not.

    >>> likely_of(4.0), likely_of(Range(1.0, 2.0, 3.0))
    (4.0, 2.0)
    """
    return amount.likely if isinstance(amount, Range) else amount


SURELY = Range(1.0, 1.0, 1.0)


@dataclass(frozen=True, slots=True)
class Spread:
    """How well a solid stands for its original: factors at 90 % on what is measured on it, 1 where it was scanned.

    `volume` : on its volume, likely 1: the solid is made so that it has the likely volume; `area` : on its surface,
    whose folds may be lost; `rubber` : on the rubber laid on it, likely 1; `unseen_ml` : what recesses that nothing
    shows may take of rubber beyond that, at most [ml]; `packing_ml` : what undercuts and crevices take, over the solids
    that it could be [ml].
    """

    volume: Range = SURELY
    area: Range = SURELY
    rubber: Range = SURELY
    unseen_ml: float = 0.0
    packing_ml: Range | None = None

    @property
    def known(self) -> bool:
        """Whether nothing is in doubt."""
        return self == NO_SPREAD

    def volume_of(self, value: float) -> Amount:
        """A volume measured on the solid as the original's: itself where nothing is in doubt.

        Parameters
        ----------
        value : on the solid.
        """
        return value if self.known else value * self.volume

    def area_of(self, value: float) -> Amount:
        """An area measured on the solid as the original's: itself where nothing is in doubt.

        Parameters
        ----------
        value : on the solid.
        """
        return value if self.known else value * self.area


NO_SPREAD = Spread()
