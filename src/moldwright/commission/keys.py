"""The keys of a commission: read from the data file once, with the default that stands when a key is left out."""

from __future__ import annotations

import difflib
import tomllib
from collections.abc import Iterable
from dataclasses import MISSING, dataclass, fields
from functools import lru_cache
from importlib.resources import files
from typing import Any

from moldwright.commission.orders import CastOrder, EditionOrder, MoldOrder, OriginalOrder, ShopOrder

ORDERS: dict[str, type] = {
    "original": OriginalOrder,
    "edition": EditionOrder,
    "mold": MoldOrder,
    "cast": CastOrder,
    "shop": ShopOrder,
}
QUANTITIES = {"length": "mm", "mass": "g", "volume": "ml", "temperature": "°C", "duration": "s", "share": "of one"}


@dataclass(frozen=True, slots=True)
class Key:
    """One key: its table, the order's field it fills, what kind of value it takes and within which bounds."""

    table: str
    name: str
    field: str
    kind: str
    about: str
    low: float | None
    high: float | None
    unit: str
    per: float
    choices: tuple[str, ...]
    example: str | int | None
    required: bool

    @property
    def dotted(self) -> str:
        return f"{self.table}.{self.name}"

    @property
    def default(self) -> Any:
        """The value of the order's field when the key is left out, None where there is none."""
        of_field = next(f for f in fields(ORDERS[self.table]) if f.name == self.field)
        return None if of_field.default is MISSING else of_field.default


@lru_cache(maxsize=1)
def keys() -> dict[str, dict[str, Key]]:
    """All keys by table and name.

    >>> keys()["mold"]["thickness"].high
    30.0
    """
    text = files("moldwright.commission").joinpath("data/keys.toml").read_text(encoding="utf-8")
    return {t: {n: _key(t, n, row) for n, row in table.items()} for t, table in tomllib.loads(text).items()}


def _key(table: str, name: str, row: dict[str, Any]) -> Key:
    return Key(
        table,
        name,
        row.get("field", name),
        row["kind"],
        row["about"],
        row.get("low"),
        row.get("high"),
        row.get("unit", QUANTITIES.get(row["kind"], "")),
        row.get("per", 1.0),
        tuple(row.get("choices", ())),
        row.get("example"),
        row.get("required", False),
    )


def nearest(word: str, known: Iterable[str]) -> str:
    """The known word most like the given one, "" where none is near.

    >>> nearest("thicknes", ["thickness", "rubber"])
    'thickness'
    """
    found = difflib.get_close_matches(word.lower(), list(known), n=1, cutoff=0.6)
    return found[0] if found else ""
