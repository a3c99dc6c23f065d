"""The units' data file, read once: spellings and factors by dimension."""

from __future__ import annotations

import tomllib
from dataclasses import dataclass
from functools import lru_cache
from importlib.resources import files
from types import MappingProxyType
from typing import Any


@dataclass(frozen=True, slots=True)
class Unit:
    """One unit: its printed name and how many of the house's units it is."""

    name: str
    factor: float


METRIC = frozenset({"mm", "cm", "m", "mg", "g", "kg", "ml", "cl", "l"})
HOUSE_UNIT = MappingProxyType(
    {"length": "mm", "mass": "g", "volume": "ml", "duration": "s", "temperature": "°C", "share": "%"}
)


@lru_cache(maxsize=1)
def _data() -> dict[str, Any]:
    return tomllib.loads(files("moldwright.units").joinpath("tables.toml").read_text(encoding="utf-8"))


@lru_cache(maxsize=8)
def units_of(dimension: str) -> dict[str, Unit]:
    """Every spelling of the dimension's units, lower case, to its unit.

    Parameters
    ----------
    dimension : "length", "mass", "volume", "duration", "temperature" or "share".

    >>> units_of("length")["inches"]
    Unit(name='in', factor=25.4)
    """
    table = _data()[dimension]
    return {spelling: Unit(name, row["factor"]) for name, row in table.items() for spelling in row["names"]}


def factor_of(dimension: str, name: str) -> float:
    """House units in one unit of that printed name.

    Parameters
    ----------
    dimension : as for `units_of`.
    name : the unit's printed name.

    >>> factor_of("mass", "lb")
    453.59237
    """
    return float(_data()[dimension][name]["factor"])


def why_unclear(dimension: str, word: str) -> str:
    """Why a word is no unit of this dimension although people write it; "" where nothing is known of it.

    Parameters
    ----------
    dimension : as for `units_of`.
    word : what stands after the number.
    """
    return str(_data()["unclear"].get(dimension, {}).get(word, ""))


def dimension_of(word: str) -> str:
    """The dimension that a spelling belongs to, "" where none.

    Parameters
    ----------
    word : a spelling, lower case.

    >>> dimension_of("kg")
    'mass'
    """
    names = [d for d in HOUSE_UNIT if word in units_of(d)]
    return names[0] if names else ""
