"""One written value of a commission, checked against its key: kind, bounds, choices."""

from __future__ import annotations

import math
import re
from collections.abc import Callable
from decimal import Decimal
from typing import Any

from moldwright import units
from moldwright.commission.keys import Key, nearest
from moldwright.commission.orders import CoatOrder
from moldwright.errors import InputRefused

UPS = ("+x", "-x", "+y", "-y", "+z", "-z")
_HOURS = re.compile(r"([01]\d|2[0-3]):([0-5]\d) ?[-–] ?([01]\d|2[0-3]):([0-5]\d)$")
_WORD = re.compile(r"[A-Za-z0-9][A-Za-z0-9 ._()-]*$")
_MONEY = re.compile(r"\d{1,9}(?:[.,]\d{1,2})?$")
MOST_COATS = 8
READERS: dict[str, Callable[[Any, str], float]] = {
    "length": units.length_mm,
    "mass": units.mass_g,
    "volume": units.volume_ml,
    "temperature": units.temperature_c,
    "duration": units.duration_s,
    "share": units.share,
}


def value_of(key: Key, written: Any) -> Any:
    """The value for the order's field.

    Parameters
    ----------
    key : the key that it was written under.
    written : what TOML gave: text, number, list or table.
    """
    if key.kind in READERS:
        return _within(key, _quantity(key, written) / key.per)
    return _KINDS[key.kind](key, written)


def wrong_type(dotted: str, written: Any, wanted: str, example: Any) -> InputRefused:
    """The refusal of a value of the wrong kind."""
    kind = {
        bool: "true or false",
        str: "text",
        int: "a whole number",
        float: "a number",
        list: "a list",
        dict: "a table",
    }
    actual = f"{dotted} is {kind.get(type(written), 'a date or time')}"
    shown = f'"{example}"' if isinstance(example, str) else example
    return InputRefused("wrong-type", actual, wanted, "", f"Write {dotted.rpartition('.')[2]} = {shown}.")


def money(dotted: str, written: Any) -> Decimal:
    """A price as text with up to two decimals.

    >>> money("prices.talc", "14.50")
    Decimal('14.50')
    """
    if not isinstance(written, str):
        raise wrong_type(dotted, written, 'a price as text, such as "14.50"', "14.50")
    if not _MONEY.match(written.strip()):
        remedy = 'Write the bare amount as text, such as "14.50", without currency or separators.'
        raise InputRefused(
            "price-unclear", f'{dotted} = "{written[:40]}"', "an amount, two decimals at most", "", remedy
        )
    return Decimal(written.strip().replace(",", "."))


def _quantity(key: Key, written: Any) -> float:
    if isinstance(written, bool) or not isinstance(written, str | int | float):
        raise wrong_type(key.dotted, written, f"a {key.kind} with its unit", key.example)
    return READERS[key.kind](written, key.dotted)


def _within(key: Key, value: float) -> float:
    for limit, words in ((key.low, "at least"), (key.high, "at most")):
        if limit is not None and (value < limit if words == "at least" else value > limit):
            scale, unit = (100.0, "%") if key.kind == "share" else (1.0, key.unit)
            remedy = f"{key.dotted} is {key.about}: {words} {limit * scale:g} {unit}".rstrip() + "."
            raise InputRefused("value-out-of-range", float(f"{value * scale:.6g}"), limit * scale, unit, remedy)
    return value


def _text(key: Key, written: Any) -> str:
    if not isinstance(written, str):
        raise wrong_type(key.dotted, written, "text", key.example or "…")
    if not written.strip() or len(written) > 500 or any(ord(c) < 32 for c in written):
        raise InputRefused("text-unusable", f'{key.dotted} = "{written[:40]}"', "one line of 1 to 500 characters", "",
                           f"{key.dotted} is {key.about}.")  # fmt: skip
    return written.strip()


def _word(key: Key, written: Any) -> str:
    text = _text(key, written)
    if not _WORD.match(text) or len(text) > 80:
        raise InputRefused("text-unusable", f'{key.dotted} = "{text[:80]}"', "letters, digits and hyphens", "",
                           f"{key.dotted} is {key.about}.")  # fmt: skip
    return text


def _choice(key: Key, written: Any) -> str:
    text = _text(key, written)
    if text.lower() in key.choices:
        return text.lower()
    near = nearest(text, key.choices)
    hint = f'Did you mean "{near}"? ' if near else ""
    remedy = f"{hint}Write one of: {', '.join(key.choices)}."
    raise InputRefused("unknown-choice", f'{key.dotted} = "{text[:40]}"', " or ".join(key.choices), "", remedy)


def _count(key: Key, written: Any) -> int:
    if isinstance(written, bool) or not isinstance(written, int):
        raise wrong_type(key.dotted, written, "a whole number", key.example)
    _within(key, written)
    return written


def _direction(key: Key, written: Any) -> str | tuple[float, float, float]:
    if isinstance(written, str):
        text = written.strip().lower().replace("−", "-")
        text = f"+{text}" if text in ("x", "y", "z") else text
        if text in UPS:
            return text
    elif isinstance(written, list) and len(written) == 3 and all(_is_number(v) for v in written):
        x, y, z = (float(v) for v in written)
        if math.isfinite(x + y + z) and math.hypot(x, y, z) > 1e-9:
            return x, y, z
    remedy = f"Write up as one of {', '.join(UPS)}, or as three numbers such as [0, 0, 1] that are not all zero."
    raise InputRefused("up-unclear", f"{key.dotted} = {str(written)[:60]}", "an axis or three numbers", "", remedy)


def _is_number(value: Any) -> bool:
    return isinstance(value, int | float) and not isinstance(value, bool)


def _hours(key: Key, written: Any) -> str:
    match = _HOURS.match(_text(key, written))
    if match is None or (match[1], match[2]) >= (match[3], match[4]):
        remedy = 'Write the opening and the closing time of one day, such as "09:00-17:00".'
        raise InputRefused("hours-unclear", f'{key.dotted} = "{written[:40]}"', "HH:MM-HH:MM", "", remedy)
    return f"{match[1]}:{match[2]}-{match[3]}:{match[4]}"


def _rate(key: Key, written: Any) -> float:
    if not isinstance(written, str):
        raise wrong_type(key.dotted, written, "a mass per time", key.example)
    mass, slash, time = written.replace(" per ", "/").partition("/")
    if not slash:
        raise InputRefused("quantity-unclear", f'{key.dotted} = "{written[:40]}"', "a mass per time", "",
                           f'Write {key.name} = "{key.example}".')  # fmt: skip
    per = time.strip() if time.strip()[:1].isdigit() else f"1 {time}"
    seconds = units.duration_s(per, key.dotted)
    return _within(key, units.mass_g(mass, key.dotted) / (seconds / 60) if seconds > 0 else math.inf)


def _coats(key: Key, written: Any) -> tuple[CoatOrder, ...]:
    example = '[{name = "detail", thickness = "1 mm"}]'
    if not isinstance(written, list) or not all(isinstance(row, dict) for row in written):
        raise InputRefused(
            "wrong-type", f"{key.dotted} is no list of tables", "a list of coats", "", f"Write {example}."
        )
    if not 1 <= len(written) <= MOST_COATS:
        raise InputRefused("value-out-of-range", len(written), MOST_COATS, "coats", f"Write 1 to {MOST_COATS} coats.")
    coats = tuple(_coat(key, row, f"{key.dotted}[{n}]") for n, row in enumerate(written))
    names = [coat.name for coat in coats]
    if twice := next((n for n in names if names.count(n) > 1), None):
        raise InputRefused("coat-twice", twice, "each name once", "", "Give every coat a name of its own.")
    return coats


def _coat(key: Key, row: dict[str, Any], where: str) -> CoatOrder:
    for name in row:
        if name not in ("name", "thickness"):
            near = nearest(name, ("name", "thickness")) or "name, thickness"
            raise InputRefused(
                "unknown-key", f"{where}.{name}", near, "", f"A coat has a name and a thickness: {near}?"
            )
    for name in ("name", "thickness"):
        if name not in row:
            remedy = 'Write {name = "detail", thickness = "1 mm"}.'
            raise InputRefused("key-missing", f"{where} has no {name}", "name and thickness", "", remedy)
    if not isinstance(row["name"], str) or not _WORD.match(row["name"].strip()) or len(row["name"]) > 40:
        raise wrong_type(f"{where}.name", row["name"], "a short name", "detail")
    thickness = row["thickness"]
    if isinstance(thickness, bool) or not isinstance(thickness, str | int | float):
        raise wrong_type(f"{where}.thickness", thickness, "a length with its unit", "1 mm")
    return CoatOrder(row["name"].strip(), _within(key, units.length_mm(thickness, f"{where}.thickness")))


_KINDS: dict[str, Callable[[Key, Any], Any]] = {
    "text": _text,
    "word": _word,
    "choice": _choice,
    "count": _count,
    "direction": _direction,
    "hours": _hours,
    "rate": _rate,
    "coats": _coats,
}
