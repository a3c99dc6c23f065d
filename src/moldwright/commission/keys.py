"""The keys of a commission: read from the data file once, with the default that stands when a key is left out."""

from __future__ import annotations

import difflib
import tomllib
from collections.abc import Iterable
from dataclasses import MISSING, dataclass, fields
from enum import StrEnum
from functools import lru_cache
from importlib.resources import files
from typing import Any, get_args, get_type_hints

from moldwright.commission.orders import (
    CastOrder,
    EditionOrder,
    GapOrder,
    LevelOrder,
    LimbOrder,
    MoldOrder,
    OriginalOrder,
    ShopOrder,
    TapeOrder,
)
from moldwright.photos.ask import Bowl
from moldwright.text.shown import number

ORDERS: dict[str, type] = {
    "original": OriginalOrder,
    "edition": EditionOrder,
    "mold": MoldOrder,
    "cast": CastOrder,
    "shop": ShopOrder,
}
RECORDS: dict[str, type] = {"tape": TapeOrder, "level": LevelOrder, "limb": LimbOrder, "gap": GapOrder, "bowl": Bowl}
"""What a table under a key, or each of a list of tables, fills."""
LONGEST_COMPARED = 80


class ValueKind(StrEnum):
    """What a key takes."""

    TEXT = "text"
    PATH = "path"
    WORD = "word"
    CHOICE = "choice"
    COUNT = "count"
    SWITCH = "switch"
    DIRECTION = "direction"
    COATS = "coats"
    NAMES = "names"
    LENGTHS = "lengths"
    RECORD = "record"
    RECORDS = "records"
    HOURS = "hours"
    MONEY = "money"
    RATE = "rate"
    DENSITY = "density"
    LENGTH = "length"
    MASS = "mass"
    VOLUME = "volume"
    TEMPERATURE = "temperature"
    DURATION = "duration"
    SHARE = "share"


QUANTITIES = {
    ValueKind.LENGTH: "mm",
    ValueKind.MASS: "g",
    ValueKind.VOLUME: "ml",
    ValueKind.TEMPERATURE: "°C",
    ValueKind.DURATION: "s",
    ValueKind.SHARE: "of one",
    ValueKind.COATS: "mm",
    ValueKind.LENGTHS: "mm",
    ValueKind.RATE: "g/min",
    ValueKind.DENSITY: "g/ml",
}
"""The house's unit of each kind of quantity; a key's own unit goes before it."""


@dataclass(frozen=True, slots=True)
class Key:
    """One key: its table, the order's field it fills, what kind of value it takes and within which bounds.

    `read_off` : the last digit's step is kept with the value. `of` : the record that a table under it fills, of which
    there are `most` at most. `needs` : the key of the same table without which it says nothing.
    """

    table: str
    name: str
    field: str
    kind: ValueKind
    about: str
    low: float | None
    high: float | None
    unit: str
    per: float
    choices: tuple[StrEnum, ...]
    example: Any
    required: bool
    read_off: bool = False
    of: str = ""
    most: int = 1
    needs: str = ""

    @property
    def dotted(self) -> str:
        """The key with its table, as a refusal names it."""
        return f"{self.table}.{self.name}"

    @property
    def default(self) -> Any:
        """The value of the order's field when the key is left out, None where there is none."""
        of_field = next(f for f in fields((ORDERS | RECORDS)[self.table]) if f.name == self.field)
        return None if of_field.default is MISSING else of_field.default

    @property
    def limits(self) -> str:
        """The key's bounds in words, "" where it has none: "10 to 3000 mm", "0 to 50 %"."""
        if self.low is None or self.high is None:
            return ""
        share = self.kind is ValueKind.SHARE
        low, high = (number(bound * (100.0 if share else 1.0)) for bound in (self.low, self.high))
        return f"{low} to {high} {'%' if share else self.unit}".rstrip()


@lru_cache(maxsize=1)
def keys() -> dict[str, dict[str, Key]]:
    """All keys by table and name, from the data file.

    >>> keys()["mold"]["thickness"].high
    30.0
    """
    return _read("keys")


@lru_cache(maxsize=1)
def record_keys() -> dict[str, dict[str, Key]]:
    """All keys of the tables under keys, by record and name, from the data file.

    >>> record_keys()["level"]["girth"].field
    'girth_mm'
    """
    return _read("records")


def _read(name: str) -> dict[str, dict[str, Key]]:
    text = files("moldwright.commission").joinpath(f"data/{name}.toml").read_text(encoding="utf-8")
    return {t: {n: _key(t, n, row) for n, row in table.items()} for t, table in tomllib.loads(text).items()}


def _key(table: str, name: str, row: dict[str, Any]) -> Key:
    kind, field = ValueKind(row["kind"]), row.get("field", name)
    return Key(
        table,
        name,
        field,
        kind,
        row["about"],
        row.get("low"),
        row.get("high"),
        row.get("unit", QUANTITIES.get(kind, "")),
        row.get("per", 1.0),
        _choices(table, field) if kind is ValueKind.CHOICE else (),
        row.get("example"),
        row.get("required", False),
        row.get("read_off", False),
        row.get("of", ""),
        row.get("most", 1),
        row.get("needs", ""),
    )


def _choices(table: str, field: str) -> tuple[StrEnum, ...]:
    """The values of the field's type."""
    hint = get_type_hints((ORDERS | RECORDS)[table])[field]
    kinds = (kind for kind in (hint, *get_args(hint)) if isinstance(kind, type) and issubclass(kind, StrEnum))
    return tuple(next(kinds))


def nearest(word: str, known: Iterable[str]) -> str:
    """The known word most like the given one, "" where none is near.

    Parameters
    ----------
    word : what was written; endless ones are like nothing.
    known : the words it may be.

    >>> nearest("thicknes", ["thickness", "rubber"])
    'thickness'
    """
    found = difflib.get_close_matches(word[:LONGEST_COMPARED].lower(), list(known), n=1, cutoff=0.6)
    return found[0] if found else ""
