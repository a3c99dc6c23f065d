"""One value of a sheet, as it may be written, -> a Figure, a ratio or a pack."""

from __future__ import annotations

import re
from decimal import Decimal, InvalidOperation
from math import isfinite
from typing import Any

from moldwright import units
from moldwright.errors import InputRefused
from moldwright.materials.figure import Figure, Pack
from moldwright.materials.sheet_fields import FigureRule
from moldwright.materials.shipped import shipped
from moldwright.ranges import Range

_READERS = {"s": units.duration_s, "g": units.mass_g, "mm": units.length_mm, "degC": units.temperature_c}
_NUMBER = re.compile(r"\s*([-+]?\d+(?:\.\d+)?)\s*(.*?)\s*$")
_TO = re.compile(r"\s+to\s+|\s*–\s*|(?<=[\da-z])\s+-\s+(?=\d)|(?<=\d)-(?=\d+(?![\d/]))")


class BadValueError(Exception):
    """Why a value cannot be read, in words."""


def figure(raw: Any, rule: FigureRule, source: str) -> Figure:
    """A figure from a number, a list of two or three, a text with its unit, or a table {value, source}.

    Parameters
    ----------
    raw : what TOML holds.
    rule : the figure's unit; a plain number is in it.
    source : where it comes from, unless the table says.

    >>> figure("25 to 35 min", FigureRule("s", 20, 9e4), "label").range
    Range(low=1500.0, likely=1800.0, high=2100.0)
    """
    if isinstance(raw, dict):
        if set(raw) - {"value", "source"} or "value" not in raw:
            raise BadValueError("a table here holds value and source, nothing else")
        return figure(raw["value"], rule, str(raw.get("source", source)))
    return Figure(_range(raw, rule), rule.unit, source)


def _range(raw: Any, rule: FigureRule) -> Range:
    numbers = [_number(part, rule) for part in _parts(raw)]
    if len(numbers) == 2:
        numbers.insert(1, (numbers[0] + numbers[1]) / 2)
    if len(numbers) == 1:
        numbers *= 3
    if len(numbers) != 3 or numbers != sorted(numbers):
        raise BadValueError("write one number, low and high, or low, likely and high in that order")
    return Range(*numbers)


def _parts(raw: Any) -> list[Any]:
    if isinstance(raw, list):
        return raw
    if not isinstance(raw, str):
        return [raw]
    parts = _TO.split(raw.strip())
    unit = re.sub(r"^[-+\d.,/½¼¾\s]+", "", parts[-1])
    return [p if re.search(r"[^-+\d.,/½¼¾\s]", p) else f"{p} {unit}" for p in parts]


def _number(raw: Any, rule: FigureRule) -> float:
    if isinstance(raw, bool) or not isinstance(raw, (int, float, str)):
        raise BadValueError("a number is needed here")
    try:
        value = _from_text(raw, rule) if isinstance(raw, str) else float(raw)
    except OverflowError as wrong:
        raise BadValueError("the number must be finite") from wrong
    if not isfinite(value):
        raise BadValueError("the number must be finite")
    return value


def _from_text(text: str, rule: FigureRule) -> float:
    reader = _READERS.get(rule.unit)
    if reader is not None:
        try:
            return reader(text)
        except InputRefused as refused:
            raise BadValueError(refused.remedy or refused.sentence()) from refused
    return _plain(text, rule.unit)


def _plain(text: str, unit: str) -> float:
    match = _NUMBER.match(text)
    written = "" if match is None else match[2].casefold().replace(" ", "")
    known = {unit.casefold().replace(" ", ""): 1.0, **shipped("schema")["spellings"].get(unit, {})}
    if match is None or written not in known:
        raise BadValueError(f'write it in {unit}: a plain number, or "1.5 {unit}"')
    return float(match[1]) * float(known[written])


def ratio(raw: Any, source: str) -> tuple[tuple[float, float], str]:
    """A ratio A : B from [100, 10], "100:10" or a table {value, source}, with its source.

    Parameters
    ----------
    raw : what TOML holds.
    source : where it comes from, unless the table says.

    >>> ratio("100:10", "label")
    ((100.0, 10.0), 'label')
    """
    if isinstance(raw, dict):
        if set(raw) - {"value", "source"} or "value" not in raw:
            raise BadValueError("a table here holds value and source, nothing else")
        return ratio(raw["value"], str(raw.get("source", source)))
    parts = raw.split(":") if isinstance(raw, str) else raw
    try:
        a, b = (float(part) for part in parts)
    except (TypeError, ValueError, OverflowError) as wrong:
        raise BadValueError('write the ratio A to B as [100, 10] or "100:10"') from wrong
    if not (isfinite(a) and isfinite(b) and a > 0 and b >= 0):
        raise BadValueError("both shares of a ratio are finite, A above zero, B not below")
    return (a, b), source


def packs(raw: Any, placeholder: bool) -> tuple[Pack, ...]:
    """Packs from a list of tables {amount, unit, price}; `placeholder` marks invented prices.

    Parameters
    ----------
    raw : what TOML holds.
    placeholder : whether the prices are invented.

    >>> packs([{"amount": 900, "unit": "g", "price": "38.00"}], placeholder=True)[0].mass_g
    900.0
    """
    if not isinstance(raw, list):
        raise BadValueError('packs are a list of tables: [{ amount = 900, unit = "g", price = "38.00" }]')
    return tuple(_pack(row, placeholder) for row in raw)


def _pack(row: Any, placeholder: bool) -> Pack:
    if not isinstance(row, dict) or set(row) != {"amount", "unit", "price"}:
        raise BadValueError("a pack has amount, unit and price, nothing else")
    try:
        amount, price = float(row["amount"]), Decimal(str(row["price"]))
    except (TypeError, ValueError, OverflowError, InvalidOperation) as wrong:
        raise BadValueError("a pack's amount and price are numbers") from wrong
    if not (isfinite(amount) and amount > 0 and price.is_finite() and price >= 0):
        raise BadValueError("a pack's amount is above zero and its price not below it")
    return Pack(amount, str(row["unit"]), price, placeholder)
