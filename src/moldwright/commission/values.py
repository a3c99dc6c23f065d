"""One written value of a commission, checked against its key: kind, bounds, choices."""

from __future__ import annotations

import math
import re
import unicodedata
from collections.abc import Callable
from decimal import Decimal
from typing import Any

from moldwright import units
from moldwright.commission.coats import MOST_COATS
from moldwright.commission.keys import Key, ValueKind, nearest
from moldwright.commission.nested import nested
from moldwright.commission.orders import CoatOrder
from moldwright.commission.ratios import density, rate
from moldwright.commission.refusals import LONGEST_TEXT, wanted, within, wrong_type
from moldwright.errors import InputRefused
from moldwright.text.harmless import is_line
from moldwright.text.shown import kind_of, short, shown
from moldwright.units.read_off import ReadOff, read_step
from moldwright.units.text import plain
from moldwright.ways import named_key, stands, writes

UPS = ("+x", "-x", "+y", "-y", "+z", "-z")
LONGEST_WORD, LONGEST_COAT = 80, 40
_HOURS = re.compile(r"([01]\d|2[0-3]):([0-5]\d) ?[-–] ?([01]\d|2[0-3]):([0-5]\d)", re.ASCII)
_WORD = re.compile(r"[A-Za-z0-9][A-Za-z0-9 ._()-]*")
_MONEY = re.compile(r"[0-9]{1,9}(?:[.,][0-9]{1,2})?")
_NO_PATH = frozenset({"Cc", "Cs", "Zl", "Zp"})
READERS: dict[ValueKind, Callable[[Any, str], float]] = {
    ValueKind.LENGTH: units.length_mm,
    ValueKind.MASS: units.mass_g,
    ValueKind.VOLUME: units.volume_ml,
    ValueKind.TEMPERATURE: units.temperature_c,
    ValueKind.DURATION: units.duration_s,
    ValueKind.SHARE: units.share,
}


def value_of(key: Key, written: Any) -> Any:
    """The value for the order's field; refused with the key's limits and what to write.

    Parameters
    ----------
    key : the key that it was written under.
    written : what TOML gave: text, number, list or table, of any size.
    """
    if key.kind in (ValueKind.RECORD, ValueKind.RECORDS):
        return nested(key, written, value_of)
    value = within(key, _quantity(key, written, key.dotted) / key.per) if key.kind in READERS else None
    if value is None:
        return _KINDS[key.kind](key, written)
    return ReadOff(value, read_step(written, key.kind)) if key.read_off else value


def money(dotted: str, written: Any) -> Decimal:
    """A price as text with up to two decimals.

    Parameters
    ----------
    dotted : the key with its table.
    written : what TOML gave.

    >>> money("prices.talc", "14.50")
    Decimal('14.50')
    """
    if not isinstance(written, str):
        raise wrong_type(dotted, written, 'a price as text, 0 to 999999999.99, such as "14.50"', "14.50")
    if not _MONEY.fullmatch(written.strip()):
        remedy = 'Write the bare amount as text, such as "14.50", without currency or separators.'
        limit = "an amount, 9 digits and two decimals at most"
        raise InputRefused("price-unclear", stands(dotted, shown(written)), limit, "", remedy)
    return Decimal(written.strip().replace(",", "."))


def is_word(text: Any, longest: int = LONGEST_WORD) -> bool:
    """Whether a text may be a material's id or a coat's name.

    Parameters
    ----------
    text : what was written.
    longest : the most characters it may have.

    >>> is_word("addition-cure-a10-slow"), is_word("[31m")
    (True, False)
    """
    return isinstance(text, str) and len(text) <= longest and _WORD.fullmatch(text.strip()) is not None


def _quantity(key: Key, written: Any, where: str) -> float:
    kind = ValueKind.LENGTH if key.kind in (ValueKind.COATS, ValueKind.LENGTHS) else key.kind
    asked = wanted(key, f"a {kind} with its unit")
    if isinstance(written, bool) or not isinstance(written, str | int | float):
        raise wrong_type(where, written, asked, key.example or "1 mm")
    try:
        return READERS[kind](written, where)
    except InputRefused as refused:
        raise InputRefused(refused.code, refused.named[0], asked, "", refused.remedy) from None


def _text(key: Key, written: Any) -> str:
    if not isinstance(written, str):
        raise wrong_type(key.dotted, written, f"text of 1 to {LONGEST_TEXT} characters", key.example or "…")
    if not is_line(written, LONGEST_TEXT):
        raise _unusable(key, written, f"one line of 1 to {LONGEST_TEXT} characters that can be read")
    return written.strip()


def _path(key: Key, written: Any) -> str:
    """A file's name may hold what a line may not, but nothing that ends it."""
    if not isinstance(written, str):
        raise wrong_type(key.dotted, written, f"a path of 1 to {LONGEST_TEXT} characters", key.example or "…")
    fine = len(written.strip()) > 0 and len(written) <= LONGEST_TEXT
    if not fine or any(unicodedata.category(c) in _NO_PATH for c in written):
        raise _unusable(key, written, f"a path of 1 to {LONGEST_TEXT} characters, none of them a control character")
    return written.strip()


def _names(key: Key, written: Any) -> tuple[str, ...]:
    """Names of files in a folder, without the folder."""
    asked = f"a list of 1 to {key.most} names of files"
    if not isinstance(written, list) or not all(isinstance(name, str) for name in written):
        raise wrong_type(key.dotted, written, asked, key.example)
    if not 1 <= len(written) <= key.most:
        raise InputRefused("value-out-of-range", len(written), key.most, "names", f"Write 1 to {key.most} names.")
    names = tuple(_path(key, name) for name in written)
    for name in names:
        if set(name) & set("/\\") or name in (".", ".."):
            raise _unusable(key, name, "the bare name of a file, without its folder")
    return tuple(dict.fromkeys(names))


def _lengths(key: Key, written: Any) -> tuple[float, ...]:
    """Lengths, each once, the least first."""
    asked = f"a list of 1 to {key.most} lengths, each {key.limits}"
    if not isinstance(written, list):
        raise wrong_type(key.dotted, written, asked, key.example)
    if not 1 <= len(written) <= key.most:
        raise InputRefused("value-out-of-range", len(written), key.most, "lengths", f"Write 1 to {key.most} lengths.")
    every = (_quantity(key, each, f"{key.dotted}[{n}]") for n, each in enumerate(written))
    return tuple(sorted({within(key, length_mm) for length_mm in every}))


def _word(key: Key, written: Any) -> str:
    """A material as a person names it; whether there is one is told where it is looked up."""
    text = _text(key, written)
    if len(text) > LONGEST_WORD:
        raise _unusable(key, text, f"a name of at most {LONGEST_WORD} characters")
    return text


def _unusable(key: Key, written: str, wanted: str) -> InputRefused:
    return InputRefused(
        "text-unusable", stands(key.dotted, shown(written)), wanted, "", f"{named_key(key.dotted)} is {key.about}."
    )


def _choice(key: Key, written: Any) -> str:
    text = _text(key, written)
    for choice in key.choices:
        if choice.lower() == text.lower():
            return choice
    near = nearest(text, key.choices)
    hint = f'Did you mean "{near}"? ' if near else ""
    remedy = f"{hint}Write one of: {', '.join(key.choices)}."
    raise InputRefused("unknown-choice", stands(key.dotted, shown(text)), " or ".join(key.choices), "", remedy)


def _count(key: Key, written: Any) -> int:
    if isinstance(written, bool) or not isinstance(written, int):
        raise wrong_type(key.dotted, written, wanted(key, "a whole number"), key.example)
    within(key, written)
    return written


def _switch(key: Key, written: Any) -> bool:
    if not isinstance(written, bool):
        raise InputRefused(
            "wrong-type",
            f"{named_key(key.dotted)} is {kind_of(written)}",
            "true or false",
            "",
            f"Write {writes(key.dotted, 'true')} or {writes(key.dotted, 'false')}, without quotes.",
        )
    return written


def _direction(key: Key, written: Any) -> str | tuple[float, float, float]:
    if isinstance(written, str):
        text = written[:LONGEST_WORD].strip().lower().replace("−", "-")
        text = f"+{text}" if text in ("x", "y", "z") else text
        if text in UPS:
            return text
    elif isinstance(written, list) and len(written) == 3 and all(_is_number(v) for v in written):
        x, y, z = (float(v) for v in written)
        if 1e-9 < math.hypot(x, y, z) < math.inf:
            return x, y, z
    remedy = f"Write {named_key(key.dotted)} as one of {', '.join(UPS)}, or as three numbers, not all zero: [0, 0, 1]."
    raise InputRefused("up-unclear", stands(key.dotted, shown(written)), "an axis or three numbers", "", remedy)


def _is_number(value: Any) -> bool:
    return isinstance(value, int | float) and not isinstance(value, bool) and abs(value) < 1e100


def _hours(key: Key, written: Any) -> str:
    match = _HOURS.fullmatch(plain(_text(key, written)))
    if match is None or (match[1], match[2]) >= (match[3], match[4]):
        remedy = 'Write the opening and the closing time of one day, such as "09:00-17:00".'
        limit = "HH:MM-HH:MM, 00:00 to 23:59"
        raise InputRefused("hours-unclear", stands(key.dotted, shown(written)), limit, "", remedy)
    return f"{match[1]}:{match[2]}-{match[3]}:{match[4]}"


def _coats(key: Key, written: Any) -> tuple[CoatOrder, ...]:
    example = 'Write [{name = "detail", thickness = "1 mm"}].'
    wanted = f"a list of 1 to {MOST_COATS} coats, each {key.limits}"
    if not isinstance(written, list) or not all(isinstance(row, dict) for row in written):
        raise InputRefused("wrong-type", f"{named_key(key.dotted)} is no list of tables", wanted, "", example)
    if not 1 <= len(written) <= MOST_COATS:
        raise InputRefused("value-out-of-range", len(written), MOST_COATS, "coats", f"Write 1 to {MOST_COATS} coats.")
    return tuple(_coat(key, row, f"{key.dotted}[{n}]") for n, row in enumerate(written))


def _coat(key: Key, row: dict[str, Any], where: str) -> CoatOrder:
    for name in row:
        if name not in ("name", "thickness"):
            near = nearest(name, ("name", "thickness")) or "name, thickness"
            remedy = f"A coat has a name and a thickness: {near}?"
            raise InputRefused("unknown-key", f"{where}.{short(name)}", near, "", remedy)
    for name in ("name", "thickness"):
        if name not in row:
            remedy = 'Write {name = "detail", thickness = "1 mm"}.'
            raise InputRefused("key-missing", f"{named_key(where)} has no {name}", "name and thickness", "", remedy)
    if not isinstance(row["name"], str):
        raise wrong_type(f"{where}.name", row["name"], f"a name of 1 to {LONGEST_COAT} characters", "detail")
    if not is_word(row["name"], LONGEST_COAT):
        wanted = f"letters a to z, digits and hyphens, at most {LONGEST_COAT}"
        raise InputRefused(
            "text-unusable", stands(f"{where}.name", shown(row["name"])), wanted, "", "Name it in short."
        )
    return CoatOrder(row["name"].strip(), _quantity(key, row["thickness"], f"{where}.thickness"))


_KINDS: dict[ValueKind, Callable[[Key, Any], Any]] = {
    ValueKind.TEXT: _text,
    ValueKind.PATH: _path,
    ValueKind.WORD: _word,
    ValueKind.CHOICE: _choice,
    ValueKind.COUNT: _count,
    ValueKind.SWITCH: _switch,
    ValueKind.DIRECTION: _direction,
    ValueKind.HOURS: _hours,
    ValueKind.MONEY: lambda key, written: money(key.dotted, written),
    ValueKind.RATE: rate,
    ValueKind.DENSITY: density,
    ValueKind.NAMES: _names,
    ValueKind.LENGTHS: _lengths,
    ValueKind.COATS: _coats,
}
