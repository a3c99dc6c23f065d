"""One number of a sheet: its range, its unit and where it comes from."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from moldwright.ranges import Range


@dataclass(frozen=True, slots=True)
class Figure:
    """A range with its unit and its provenance.

    >>> Figure(Range(2.5, 3.0, 3.5), "g/ml", "class default, from memory").likely
    3.0
    """

    range: Range
    unit: str
    source: str

    @property
    def low(self) -> float:
        """The low bound at 90 %, in the figure's unit."""
        return self.range.low

    @property
    def likely(self) -> float:
        """The likely value, in the figure's unit."""
        return self.range.likely

    @property
    def high(self) -> float:
        """The high bound at 90 %, in the figure's unit."""
        return self.range.high


@dataclass(frozen=True, slots=True)
class Pack:
    """What one can buy: an amount in its unit ("g", "each", ...) at a price; `placeholder`: the price is invented."""

    amount: float
    unit: str
    price: Decimal
    placeholder: bool
