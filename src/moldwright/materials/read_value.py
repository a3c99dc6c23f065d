"""One value of a sheet, as it may be written, -> a Figure, a ratio or a pack."""

from __future__ import annotations

import re
from decimal import Decimal
from math import isfinite
from typing import Any

from moldwright import units
from moldwright.errors import InputRefused
from moldwright.materials.figure import Figure, Pack
from moldwright.materials.sheet_fields import FigureRule
from moldwright.materials.shipped import shipped
from moldwright.ranges import Range
from moldwright.text.harmless import is_line
from moldwright.text.shown import number

_READERS = {"s": units.duration_s, "g": units.mass_g, "mm": units.length_mm, "degC": units.temperature_c}
LONGEST, LONGEST_SOURCE, MOST_PACKS = 200, 600, 60
LEAST_SHARE, MOST_SHARE, MOST_AMOUNT, MOST_PRICE = 0.001, 100_000.0, 1e7, 1e9
"""Our own bounds of a text with a figure in it, of the packs of a material, of a ratio's shares and of a pack."""
RATIO = f"A above zero, B from zero, each at most {MOST_SHARE:.0f}"
AS_SHOWN = frozenset(("range", "unit", "source"))
"""A figure as `materials show --json` tells it."""
_LIKELY = re.compile(r"(?P<likely>[^()]+?)\s*\((?P<low>[^()–]+?)\s*–\s*(?P<high>[^()–]+?)\)")
_PACK = re.compile(
    r"(?P<amount>[0-9.]{1,12}) (?P<unit>[a-z]{1,8}) at (?P<price>[0-9.]{1,14})(?P<invented> \(placeholder\))?"
)
"""A figure and a pack as `materials show` prints them."""
_PRICE = re.compile(r"[0-9]{1,9}(?:[.,][0-9]{1,2})?")
_NUMBER = re.compile(r"\s*([-+]?\d+(?:\.\d+)?)\s*(.*?)\s*$")
_TO = re.compile(r"\s+to\s+|\s*–\s*|(?<=[\da-z])\s+-\s+(?=\d)|(?<=\d)-(?=\d+(?![\d/]))")


class BadValueError(Exception):
    """Why a value cannot be read, in words."""


def bounds(rule: FigureRule) -> str:
    """A figure's possible bounds in words.

    Parameters
    ----------
    rule : the figure's unit and bounds.

    >>> bounds(FigureRule("s", 20, 90000))
    '20 to 90000 s'
    """
    return f"{number(rule.lowest)} to {number(rule.highest)} {rule.unit}"


def source_of(raw: Any) -> str:
    """The source of figures as it is written: one line of text.

    Parameters
    ----------
    raw : what TOML holds.

    >>> source_of("data sheet of March")
    'data sheet of March'
    """
    if not isinstance(raw, str) or not is_line(raw, LONGEST_SOURCE):
        raise BadValueError(f"a source is one line of text, at most {LONGEST_SOURCE} characters")
    return raw


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
    value, said = _with_source(raw, source)
    if isinstance(raw, dict) and raw.get("unit", rule.unit) != rule.unit:
        raise BadValueError(f"its unit here is {rule.unit}")
    return Figure(_range(value, rule), rule.unit, said)


def _with_source(raw: Any, source: str) -> tuple[Any, str]:
    """A value and where it comes from, from the value alone or a table {value, source}."""
    if not isinstance(raw, dict):
        return raw, source
    if set(raw) == AS_SHOWN and isinstance(raw["range"], dict) and set(raw["range"]) == {"low", "likely", "high"}:
        return [raw["range"][end] for end in ("low", "likely", "high")], source_of(raw["source"])
    if set(raw) - {"value", "source"} or "value" not in raw or isinstance(raw["value"], dict):
        raise BadValueError("a table here holds value and source, nothing else")
    return raw["value"], source_of(raw.get("source", source))


def _range(raw: Any, rule: FigureRule) -> Range:
    parts = _parts(raw)
    if len(parts) > 3:
        raise BadValueError("write one number, low and high, or low, likely and high in that order")
    numbers = [_number(part, rule) for part in parts]
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
    if len(raw) > LONGEST:
        raise BadValueError(f"a figure is a text of at most {LONGEST} characters")
    shown = _LIKELY.fullmatch(raw.strip())
    parts = [shown["low"], shown["likely"], shown["high"]] if shown else _TO.split(raw.strip())
    parts = [*parts[:2], f"{parts[2]} {_unit(parts[1])}".strip()] if shown and not _unit(parts[2]) else parts
    unit = _unit(parts[-1])
    return [p if re.search(r"[^-+\d.,/½¼¾\s]", p) else f"{p} {unit}" for p in parts]


def _unit(text: str) -> str:
    """What stands behind the number."""
    return re.sub(r"^[-+\d.,/½¼¾\s]+", "", text)


def _number(raw: Any, rule: FigureRule) -> float:
    if isinstance(raw, bool) or not isinstance(raw, (int, float, str)):
        raise BadValueError("a number is needed here")
    try:
        value = _from_text(raw[: LONGEST + 1], rule) if isinstance(raw, str) else float(raw)
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
    value, said = _with_source(raw, source)
    parts = value[:LONGEST].split(":") if isinstance(value, str) else value
    if not isinstance(parts, list) or len(parts) != 2:
        raise BadValueError('write the ratio A to B as [100, 10] or "100:10"')
    a, b = (_share(part) for part in parts)
    if not (LEAST_SHARE <= a <= MOST_SHARE and (b == 0.0 or LEAST_SHARE <= b <= MOST_SHARE)):
        raise BadValueError(f"both shares of a ratio are finite: {RATIO}")
    return (a, b), said


def _share(part: Any) -> float:
    if isinstance(part, bool) or not isinstance(part, int | float | str):
        raise BadValueError('write the ratio A to B as [100, 10] or "100:10"')
    try:
        return float(part)
    except (ValueError, OverflowError) as wrong:
        raise BadValueError('write the ratio A to B as [100, 10] or "100:10"') from wrong


def packs(raw: Any, placeholder: bool) -> tuple[Pack, ...]:
    """Packs from a list of tables {amount, unit, price}; `placeholder` marks invented prices.

    Parameters
    ----------
    raw : what TOML holds.
    placeholder : whether the prices are invented.

    >>> packs([{"amount": 900, "unit": "g", "price": "38.00"}], placeholder=True)[0].amount
    900.0
    """
    raw = [_shown_pack(part) for part in raw.split(";")] if isinstance(raw, str) else raw
    if not isinstance(raw, list) or len(raw) > MOST_PACKS:
        example = '[{ amount = 900, unit = "g", price = "38.00" }]'
        raise BadValueError(f"packs are a list of at most {MOST_PACKS} tables: {example}")
    return tuple(_pack(row, placeholder) for row in raw)


def _shown_pack(text: str) -> Any:
    """A pack as `materials show` prints it: "900 g at 27.00 (placeholder)"."""
    shown = _PACK.fullmatch(text.strip())
    if shown is None:
        return text
    return {"amount": float(shown["amount"]), "unit": shown["unit"], "price": shown["price"],
            "placeholder": bool(shown["invented"])}  # fmt: skip


def _pack(row: Any, placeholder: bool) -> Pack:
    if isinstance(row, dict) and isinstance(row.get("placeholder"), bool):
        row, placeholder = {key: row[key] for key in row if key != "placeholder"}, row["placeholder"]
    if not isinstance(row, dict) or set(row) != {"amount", "unit", "price"}:
        raise BadValueError("a pack has amount, unit and price, nothing else")
    if row["unit"] not in shipped("schema")["words"]["unit"]:
        raise BadValueError(f"a pack's unit is one of {', '.join(shipped('schema')['words']['unit'])}")
    amount = row["amount"]
    if isinstance(amount, bool) or not isinstance(amount, int | float) or not 0 < amount <= MOST_AMOUNT:
        raise BadValueError(f"a pack's amount is a number above zero, at most {MOST_AMOUNT:.0f}")
    return Pack(float(amount), row["unit"], _price(row["price"]), placeholder)


def _price(raw: Any) -> Decimal:
    if isinstance(raw, str) and _PRICE.fullmatch(raw.strip()):
        return Decimal(raw.strip().replace(",", "."))
    if isinstance(raw, int | float) and not isinstance(raw, bool) and 0 <= raw < MOST_PRICE:
        return Decimal(f"{raw:.2f}")
    raise BadValueError('a pack\'s price is an amount from zero with two decimals at most, such as "38.00"')
