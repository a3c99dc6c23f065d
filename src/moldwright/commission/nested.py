"""Tables under a key: one, or a list of them, each read into its record by the record's own keys."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import Any

from moldwright.commission.keys import RECORDS, Key, ValueKind, nearest, record_keys
from moldwright.errors import InputRefused
from moldwright.text.shown import kind_of, short
from moldwright.text.toml import toml_value
from moldwright.ways import named_key, writes

ValueOf = Callable[[Key, Any], Any]


def nested(key: Key, written: Any, value_of: ValueOf) -> Any:
    """The record under a key, or all of its list; refused with the place, what may stand there and what to write.

    Parameters
    ----------
    key : the key that it was written under.
    written : what TOML gave.
    value_of : reads the value of one key.
    """
    if key.kind is ValueKind.RECORD:
        return _record(key, written, key.dotted, value_of)
    asked = f"a list of 1 to {key.most} tables"
    if not isinstance(written, list) or not all(isinstance(row, dict) for row in written):
        told = kind_of(written) if not isinstance(written, list) else "no list of tables"
        raise InputRefused("wrong-type", f"{named_key(key.dotted)} is {told}", asked, "", _example(key))
    if not 1 <= len(written) <= key.most:
        remedy = f"Write 1 to {key.most} of them; {named_key(key.dotted)} is {key.about}."
        raise InputRefused("value-out-of-range", len(written), key.most, "tables", remedy)
    return tuple(_record(key, row, f"{key.dotted}[{n}]", value_of) for n, row in enumerate(written))


def _record(key: Key, row: Any, where: str, value_of: ValueOf) -> Any:
    known = {name: replace(own, table=where) for name, own in record_keys()[key.of].items()}
    if not isinstance(row, dict):
        raise InputRefused("wrong-type", f"{named_key(where)} is {kind_of(row)}", "a table", "", _example(key))
    for name in row:
        if name not in known:
            near = nearest(name, known)
            hint = f"Did you mean {near}? " if near else ""
            remedy = f"{hint}A {key.of} knows: {', '.join(known)}."
            raise InputRefused("unknown-key", f"{where}.{short(name)}", near or ", ".join(known), "", remedy)
    for own in known.values():
        if own.required and own.name not in row:
            example = own.example if own.example is not None else _some(own)
            remedy = f"Write {writes(own.dotted, toml_value(example))}: {own.about}."
            raise InputRefused("key-missing", f"{named_key(own.dotted)} is left out", named_key(own.dotted), "", remedy)
    return RECORDS[key.of](**{known[name].field: value_of(known[name], value) for name, value in row.items()})


def _some(key: Key) -> Any:
    """A list as its record's needed keys make it."""
    return [{own.name: own.example for own in record_keys()[key.of].values() if own.required and own.example}]


def _example(key: Key) -> str:
    example = key.example if key.example is not None else _some(key)
    return f"Write {writes(key.dotted, toml_value(example))}."
