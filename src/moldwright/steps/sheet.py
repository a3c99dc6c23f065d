"""The steps as they stand in the data files: read once, checked word by word."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from importlib import resources
from typing import Any

from moldwright.errors import ComputationFailed

FILES = ("original", "rubber", "shell", "cast", "finish")
"""The data files in the order of the work."""
SEVERITIES = ("note", "heed", "stop")
PERS = ("mold", "cast", "edition")
EACH = ("", "coat", "fill")
_MUST = frozenset(("id", "group", "title", "per", "labor", "needs", "do", "before", "caution"))
_KEYS = _MUST | {"each", "when", "wait", "lift", "mixes"}


@dataclass(frozen=True, slots=True)
class Line:
    """One sentence with its placeholders, said only where all words of `when` hold ("!word": where it does not)."""

    text: str
    when: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class CautionLine:
    """A caution before its placeholders are filled; `hazard`: it can hurt someone, so the step also defers.

    `again`: what stands where the same group of steps has said it before ("" for the same words), one grade lower
    unless it is `still` as grave.
    """

    severity: str
    text: str
    source: str
    hazard: bool = False
    when: tuple[str, ...] = ()
    again: str = ""
    still: bool = False


@dataclass(frozen=True, slots=True)
class StepSheet:
    """One step before the quantities are known.

    `labor` is minutes per quantity ("fixed" counts once); `wait` the name of a material's time or three minutes
    (low, likely, high); `each`: written once, or for every coat or fill; `mixes`: whose cups it holds.
    """

    id: str
    group: str
    title: str
    per: str
    each: str
    when: tuple[str, ...]
    labor: tuple[tuple[str, float], ...]
    wait: str | tuple[float, float, float] | None
    lift: str
    mixes: str
    needs: tuple[Line, ...]
    do: tuple[Line, ...]
    before: tuple[Line, ...]
    cautions: tuple[CautionLine, ...]


@cache
def step_sheets() -> tuple[StepSheet, ...]:
    """All steps in the order of the work.

    >>> [sheet.id for sheet in step_sheets()[:3]]
    ['receive', 'lay-out', 'clean']
    """
    return tuple(_sheet(table) for name in FILES for table in _read(name)["step"])


@cache
def defer_line() -> str:
    """The sentence that every step with a hazard carries: what comes before this software's reminder."""
    return str(_read("cautions")["defer"])


@cache
def density_g_ml(material: str) -> tuple[float, str]:
    """Density assumed for a solid original [g/ml] and where it is from.

    Parameters
    ----------
    material : what the original is made of, in the maker's words.

    >>> density_g_ml("bronze")[0]
    8.8
    """
    table: Mapping[str, Any] = _read("cautions")["density_g_ml"]
    words = material.lower()
    named = next((key for key in table if key in words), "unknown")
    return float(table[named]), "class default, from memory; a hollow original weighs less"


@cache
def _read(name: str) -> Mapping[str, Any]:
    text = resources.files("moldwright.steps").joinpath("data", f"{name}.toml").read_text(encoding="utf-8")
    return tomllib.loads(text)


def _sheet(table: Mapping[str, Any]) -> StepSheet:
    _known(str(table.get("id")), table)
    wait = table.get("wait")
    return StepSheet(
        id=table["id"],
        group=table["group"],
        title=table["title"],
        per=table["per"],
        each=table.get("each", ""),
        when=_words(table.get("when", ())),
        labor=tuple((key, float(value)) for key, value in table["labor"].items()),
        wait=wait if isinstance(wait, str | None) else (float(wait[0]), float(wait[1]), float(wait[2])),
        lift=table.get("lift", ""),
        mixes=table.get("mixes", ""),
        needs=_lines(table["needs"]),
        do=_lines(table["do"]),
        before=_lines(table["before"]),
        cautions=tuple(_caution(entry) for entry in table["caution"]),
    )


def _known(id_: str, table: Mapping[str, Any]) -> None:
    strange = sorted((set(table) - _KEYS) | (_MUST - set(table)))
    if strange or table["per"] not in PERS or table.get("each", "") not in EACH:
        raise ComputationFailed(
            "step-data-broken", f"{id_}: {strange}", ", ".join(sorted(_KEYS)), remedy="Mend the data."
        )


def _words(when: str | tuple[str, ...] | list[str]) -> tuple[str, ...]:
    return tuple(when.split()) if isinstance(when, str) else tuple(when)


def _lines(entries: list[str | Mapping[str, str]]) -> tuple[Line, ...]:
    return tuple(
        Line(entry) if isinstance(entry, str) else Line(entry["say"], _words(entry.get("when", "")))
        for entry in entries
    )


def _caution(entry: Mapping[str, Any]) -> CautionLine:
    base: Mapping[str, Any] = _read("cautions")["caution"][entry["use"]] if "use" in entry else entry
    if base["severity"] not in SEVERITIES:
        raise ComputationFailed("step-data-broken", base["severity"], ", ".join(SEVERITIES), remedy="Mend the data.")
    return CautionLine(
        base["severity"],
        base["text"],
        base["source"],
        bool(base.get("hazard", False)),
        _words(entry.get("when", "")),
        base.get("again", ""),
        bool(base.get("still", False)),
    )
