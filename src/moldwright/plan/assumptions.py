"""A value that nobody gave."""

from __future__ import annotations

from dataclasses import dataclass

from moldwright.plan.quantity import Value


@dataclass(frozen=True, slots=True)
class Assumption:
    """A value that nobody gave, and where it comes from.

    Parameters
    ----------
    key : a key of the commission, or a figure of a material's sheet.
    value : a number in `unit`, its range, or a word.
    unit : the house's unit; "" for a word or a bare number.
    source : default, class default, common practice, found, sheet, computed: as its owner says it.
    """

    key: str
    value: Value
    unit: str
    source: str
