"""Amounts of lots as people write and read them: grams, milliliters, meters, pieces, pairs."""

from __future__ import annotations

import re

from moldwright.errors import InputRefused
from moldwright.plan.needs import NeedUnit
from moldwright.ranges import Range
from moldwright.text.shown import number, short
from moldwright.units import length_mm, mass_g, range_parts, show_length, show_mass, show_volume, volume_ml
from moldwright.units.digits import number as digits
from moldwright.units.tables import units_of
from moldwright.units.text import plain

COUNTED = {
    NeedUnit.EACH: ("", "each", "piece", "pieces", "pc", "pcs", "roll", "rolls", "sheet", "sheets"),
    NeedUnit.PAIR: ("pair", "pairs"),
}
"""Words behind a number of things."""
METER_MM = 1000.0
_COUNT = re.compile(r"(\d{1,9}(?:[.,]\d{1,3})?)\s*([a-z]*)\.?$")


def read_amount(
    written: str, expected: NeedUnit, key: str, density_g_ml: float | None = None
) -> tuple[float, NeedUnit]:
    """An amount and what it is counted in.

    Parameters
    ----------
    written : "5 kg", "2 lb 4 oz", "500 ml", "3 m", "6 pairs", "12".
    expected : what a bare number counts, where things are counted.
    key : the option, named in the refusal.
    density_g_ml : with it grams and milliliters become what is expected.

    Raises InputRefused ("quantity-unclear").

    >>> read_amount("2.5 kg", NeedUnit.GRAM, "--amount"), read_amount("6 pairs", NeedUnit.PAIR, "--amount")
    ((2500.0, <NeedUnit.GRAM: 'g'>), (6.0, <NeedUnit.PAIR: 'pair'>))
    >>> read_amount("250 g", NeedUnit.MILLILITER, "--amount", 1.25)
    (200.0, <NeedUnit.MILLILITER: 'ml'>)
    """
    counted = _COUNT.match(plain(written).casefold()) if len(written) < 60 else None
    if counted and (unit := _thing(counted[2], expected)) is not None:
        return float(counted[1].replace(",", ".")), unit
    if _last_unit(written) in units_of("length"):
        return length_mm(written, key) / METER_MM, NeedUnit.METER
    if _last_unit(written) in units_of("volume"):
        milliliters = volume_ml(written, key)
        weighs = expected is NeedUnit.GRAM and density_g_ml is not None
        return (milliliters * (density_g_ml or 1.0), NeedUnit.GRAM) if weighs else (milliliters, NeedUnit.MILLILITER)
    grams = mass_g(written, key)
    if expected is NeedUnit.MILLILITER and density_g_ml is not None:
        return grams / density_g_ml, NeedUnit.MILLILITER
    return grams, NeedUnit.GRAM


def read_in(written: str, unit: NeedUnit, key: str, density_g_ml: float | None = None) -> float:
    """An amount of a lot in the lot's own unit.

    Parameters
    ----------
    written : as it was typed.
    unit : the lot's.
    key : the option, named in the refusal.
    density_g_ml : of the lot, where it is known.

    Raises InputRefused ("quantity-unclear", "unit-differs").
    """
    amount, found = read_amount(written, unit, key, density_g_ml)
    if found is not unit:
        remedy = f"This lot is counted in {UNIT_WORDS[unit]}: write its amount so."
        raise InputRefused("unit-differs", f"{key} = {short(written)}", UNIT_WORDS[unit], "", remedy)
    return amount


UNIT_WORDS = {
    NeedUnit.GRAM: "grams",
    NeedUnit.MILLILITER: "milliliters",
    NeedUnit.EACH: "pieces",
    NeedUnit.PAIR: "pairs",
    NeedUnit.METER: "meters",
}
"""What is counted, for people."""


def _thing(word: str, expected: NeedUnit) -> NeedUnit | None:
    if not word:
        return expected if expected in (NeedUnit.EACH, NeedUnit.PAIR) else None
    return next((unit for unit, words in COUNTED.items() if word in words), None)


def _last_unit(written: str) -> str:
    found = re.search(r"([^\d\s.,]+(?: [^\d\s.,]+)?)\s*$", plain(written[:200]).casefold())
    return found[1].strip() if found else ""


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
            return show_length(amount * METER_MM, system) if system == "us" else f"{number(round(amount, 2))} m"
        case NeedUnit.PAIR:
            return f"{number(round(amount, 2))} pair{'s' * (amount != 1)}"
        case NeedUnit.EACH:
            return number(round(amount, 2))


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
    dimension = {NeedUnit.GRAM: "mass", NeedUnit.MILLILITER: "volume"}.get(unit)
    if dimension is not None:
        low, likely, high, name = range_parts(value, dimension, system)
        return f"{likely} {name}" if low == high == likely else f"{likely} {name} ({low}–{high})"
    whole = 0 if unit is not NeedUnit.METER else 1
    low, high = digits(value.low, whole), digits(value.high, whole)
    return f"{show_amount(round(value.likely, whole), unit, system)} ({low}–{high})"
