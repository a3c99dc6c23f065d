"""Amounts of lots as people write them: grams, milliliters, meters, pieces, pairs."""

from __future__ import annotations

import re

from moldwright.errors import InputRefused
from moldwright.plan.needs import NeedUnit
from moldwright.text.shown import short
from moldwright.units import length_mm, mass_g, volume_ml
from moldwright.units.quantities import number
from moldwright.units.tables import units_of
from moldwright.units.text import plain
from moldwright.words.marked import words
from moldwright.words.speaker import say

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
        return number(counted[1], key), unit
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
        remedy = say("This lot is counted in {unit_words}: write its amount so.", unit_words=say(UNIT_WORDS[unit]))
        raise InputRefused("unit-differs", f"{key} = {short(written)}", UNIT_WORDS[unit], "", remedy)
    return amount


UNIT_WORDS = {
    NeedUnit.GRAM: words("grams"),
    NeedUnit.MILLILITER: words("milliliters"),
    NeedUnit.EACH: words("pieces"),
    NeedUnit.PAIR: words("pairs"),
    NeedUnit.METER: words("meters"),
}
"""What is counted, for people."""


def _thing(word: str, expected: NeedUnit) -> NeedUnit | None:
    if not word:
        return expected if expected in (NeedUnit.EACH, NeedUnit.PAIR) else None
    return next((unit for unit, words in COUNTED.items() if word in words), None)


def _last_unit(written: str) -> str:
    found = re.search(r"([^\d\s.,]+(?: [^\d\s.,]+)?)\s*$", plain(written[:200]).casefold())
    return found[1].strip() if found else ""
