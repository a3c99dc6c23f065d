"""What a value under a key is refused with: its kind, its bounds, and what to write."""

from __future__ import annotations

from typing import Any

from moldwright.commission.keys import Key, ValueKind
from moldwright.errors import InputRefused
from moldwright.text.shown import kind_of
from moldwright.text.toml import toml_value
from moldwright.ways import figure, named_key, writes

LONGEST_TEXT = 500


def wrong_type(dotted: str, written: Any, asked: str, example: Any) -> InputRefused:
    """The refusal of a value of the wrong kind.

    Parameters
    ----------
    dotted : the key with its table.
    written : what TOML gave.
    asked : what the key takes, with its limits.
    example : a value that it takes.
    """
    remedy = f"Write {writes(dotted, toml_value(example))}."
    return InputRefused("wrong-type", f"{named_key(dotted)} is {kind_of(written)}", asked, "", remedy)


def wanted(key: Key, words: str) -> str:
    """What a key takes, with its limits where it has some.

    Parameters
    ----------
    key : the key.
    words : the kind of value in words.
    """
    return f"{words}, {key.limits}" if key.limits else words


def within(key: Key, value: float) -> float:
    """The value, refused where it lies past the key's bounds.

    Parameters
    ----------
    key : the key.
    value : what was read, in the key's unit.
    """
    if key.low is not None and value < key.low:
        raise _out_of_range(key, value, key.low, "at least")
    if key.high is not None and value > key.high:
        raise _out_of_range(key, value, key.high, "at most")
    return value


def _out_of_range(key: Key, value: float, limit: float, words: str) -> InputRefused:
    scale, unit = (100.0, "%") if key.kind is ValueKind.SHARE else (1.0, key.unit)
    found = value if isinstance(value, int) else float(f"{value * scale:.6g}")
    remedy = f"{named_key(key.dotted)} is {key.about}: {words} {figure(limit * scale, unit)}."
    return InputRefused("value-out-of-range", found, limit * scale, unit, remedy)
