"""Amounts of lots as people read them: grams, milliliters, meters, pieces, pairs."""

from __future__ import annotations

from moldwright.plan.needs import NeedUnit
from moldwright.ranges import Range
from moldwright.records.stock.amounts import METER_MM
from moldwright.text.shown import number
from moldwright.units import range_parts, show_length, show_mass, show_volume
from moldwright.units.digits import number as digits
from moldwright.words.speaker import say_count, with_mark

DIMENSIONS = {NeedUnit.GRAM: "mass", NeedUnit.MILLILITER: "volume"}
"""What is told in units that depend on the reader."""


def show_amount(amount: float, unit: NeedUnit, system: str = "metric") -> str:
    """An amount as people read it.

    Parameters
    ----------
    amount : in its unit.
    unit : what it is counted in.
    system : "metric" or "us".

    >>> show_amount(1500.0, NeedUnit.GRAM), show_amount(12.0, NeedUnit.EACH), show_amount(6.0, NeedUnit.PAIR)
    ('1.50 kg', '12', '6 pairs')
    """
    match unit:
        case NeedUnit.GRAM:
            return show_mass(amount, system)
        case NeedUnit.MILLILITER:
            return show_volume(amount, system)
        case NeedUnit.METER:
            return show_length(amount * METER_MM, system) if system == "us" else f"{_number(amount)} m"
        case NeedUnit.PAIR:
            one = 1 if amount == 1 else 2
            return say_count("{pairs} pair", "{pairs} pairs", one, pairs=_number(amount))
        case NeedUnit.EACH:
            return _number(amount)


def _number(amount: float) -> str:
    return with_mark(number(round(amount, 2)))


def show_amounts(value: Range, unit: NeedUnit, system: str = "metric") -> str:
    """An amount with its bounds, likely one first.

    Parameters
    ----------
    value : in its unit.
    unit : what it is counted in.
    system : "metric" or "us".

    >>> show_amounts(Range(408.0, 434.0, 471.0), NeedUnit.GRAM), show_amounts(Range(1.0, 2.0, 4.0), NeedUnit.EACH)
    ('434 g (408–471)', '2 (1–4)')
    """
    if value.low == value.high:
        return show_amount(value.likely, unit, system)
    dimension = DIMENSIONS.get(unit)
    if dimension is not None:
        low, likely, high, name = range_parts(value, dimension, system)
        return f"{likely} {name}" if low == high == likely else f"{likely} {name} ({low}–{high})"
    whole = 0 if unit is not NeedUnit.METER else 1
    low, high = digits(value.low, whole), digits(value.high, whole)
    return f"{show_amount(round(value.likely, whole), unit, system)} ({low}–{high})"
