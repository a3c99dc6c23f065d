"""The steps as they stand in the data files: read once, checked word by word."""

from __future__ import annotations

import tomllib
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from enum import StrEnum
from functools import cache
from importlib import resources
from typing import Any

from moldwright.errors import ComputationFailed
from moldwright.materials.gear import Gear
from moldwright.plan.cautions import Severity
from moldwright.plan.mixes import MixKind
from moldwright.plan.steps import Per, Phase, Shows
from moldwright.steps.flags import Condition, condition
from moldwright.steps.lifts import Lift
from moldwright.steps.waits import Wait

FILES = ("original", "rubber", "shell", "cast", "finish")
"""The data files in the order of the work."""
DEFER = "defer"
"""The rule of the caution that names what comes before this software's reminder; every step with a hazard has it."""
_MUST = frozenset(("id", "phase", "group", "title", "per", "labor", "needs", "do", "before", "caution"))
_KEYS = _MUST | {"write", "plain", "titles", "each", "when", "wait", "lift", "people", "mixes", "shows"}


class Each(StrEnum):
    """Whether a step is written once, or for every coat or fill, or for every piece of the shell."""

    ONCE = ""
    COAT = "coat"
    FILL = "fill"
    PIECE = "piece"


class Listed(StrEnum):
    """Where the shopping list has a need: a row buys it (or the work, its people and its papers bring it), or it is one
    of the small things behind the rows, used up or of the shop."""

    ROW = "row"
    USED = "used"
    SHOP = "shop"


@dataclass(frozen=True, slots=True)
class Sentence:
    """One sentence of the data by its key, said only where all words of `when` hold.

    `listed`: of a need, where the shopping list has it.
    """

    key: str
    text: str
    when: tuple[Condition, ...] = ()
    listed: Listed = Listed.SHOP


@dataclass(frozen=True, slots=True)
class CautionSheet:
    """A caution before its quantities are known; `hazard`: it can hurt someone, so the step also defers.

    `again`: what stands where the same group of steps has said it before (None for the same words), one grade lower
    unless it is `still` as grave. `covers`: tags of sheets about which it says enough. `lift`: it is about the weight.
    `gear`: what it asks to wear.
    """

    rule: str
    severity: Severity
    full: Sentence
    again: Sentence | None
    source: str
    hazard: bool
    still: bool
    when: tuple[Condition, ...]
    covers: tuple[str, ...]
    lift: bool
    gear: tuple[Gear, ...]


@dataclass(frozen=True, slots=True)
class StepSheet:
    """One step before the quantities are known.

    `titles` stand in the place of the title and of `plain` where their words hold; they quote nothing.
    `plain` is the title without quantities, as other steps and tables name it; `labor` is minutes per quantity ("fixed"
    counts once); `wait` a material's time or three minutes (low, likely, high); `each`: written once, or for every
    coat, fill or piece of the shell; `people`: how many it takes at the least; `mixes`: whose cups it holds; `write`:
    what is written down, the label of its box; `shows`: the table under its lines.
    """

    id: str
    phase: Phase
    group: str
    title: Sentence
    plain: Sentence
    titles: tuple[Sentence, ...]
    per: Per
    each: Each
    when: tuple[Condition, ...]
    labor: tuple[tuple[str, float], ...]
    wait: Wait | tuple[float, float, float] | None
    lift: Lift | None
    people: int
    mixes: MixKind | None
    shows: Shows | None
    needs: tuple[Sentence, ...]
    do: tuple[Sentence, ...]
    before: tuple[Sentence, ...]
    write: tuple[Sentence, ...]
    cautions: tuple[CautionSheet, ...]


@cache
def step_sheets() -> tuple[StepSheet, ...]:
    """All steps in the order of the work.

    >>> [sheet.id for sheet in step_sheets()[:3]]
    ['receive', 'lay-out', 'patch-test']
    """
    return tuple(_sheet(table) for name in FILES for table in read_data(name)["step"])


@cache
def read_data(name: str) -> Mapping[str, Any]:
    """A data file of this room.

    Parameters
    ----------
    name : its name without its ending.
    """
    text = resources.files("moldwright.steps").joinpath("data", f"{name}.toml").read_text(encoding="utf-8")
    return tomllib.loads(text)


def _sheet(table: Mapping[str, Any]) -> StepSheet:
    id_ = str(table.get("id"))
    try:
        _known(table)
        return _read(id_, table)
    except (ValueError, KeyError, TypeError) as error:
        raise ComputationFailed("step-data-broken", f"{id_}: {error}", "steps/data", remedy="Mend the data.") from error


def _read(id_: str, table: Mapping[str, Any]) -> StepSheet:
    title = Sentence(f"{id_}.title", table["title"])
    return StepSheet(
        id=id_,
        phase=Phase(table["phase"]),
        group=table["group"],
        title=title,
        plain=Sentence(f"{id_}.plain", table["plain"]) if "plain" in table else title,
        titles=_sentences(f"{id_}.titles", table.get("titles", [])),
        per=Per(table["per"]),
        each=Each(table.get("each", "")),
        when=_words(table.get("when", ())),
        labor=tuple((key, float(value)) for key, value in table["labor"].items()),
        wait=_wait(table.get("wait")),
        lift=Lift(table["lift"]) if "lift" in table else None,
        people=int(table.get("people", 1)),
        mixes=MixKind(table["mixes"]) if "mixes" in table else None,
        shows=Shows(table["shows"]) if "shows" in table else None,
        needs=_sentences(f"{id_}.needs", table["needs"]),
        do=_sentences(f"{id_}.do", table["do"]),
        before=_sentences(f"{id_}.before", table["before"]),
        write=_sentences(f"{id_}.write", table.get("write", [])),
        cautions=tuple(_caution(id_, entry) for entry in table["caution"]),
    )


def _known(table: Mapping[str, Any]) -> None:
    strange = sorted((set(table) - _KEYS) | (_MUST - set(table)))
    if strange:
        raise ValueError(f"keys {strange}")


def _wait(wait: Any) -> Wait | tuple[float, float, float] | None:
    if wait is None:
        return None
    return Wait(wait) if isinstance(wait, str) else (float(wait[0]), float(wait[1]), float(wait[2]))


def _words(when: str | Iterable[str]) -> tuple[Condition, ...]:
    return tuple(condition(word) for word in (when.split() if isinstance(when, str) else when))


def _sentences(key: str, entries: list[str | Mapping[str, Any]]) -> tuple[Sentence, ...]:
    return tuple(
        Sentence(f"{key}.{n}", entry)
        if isinstance(entry, str)
        else Sentence(f"{key}.{n}", entry["say"], _words(entry.get("when", "")), _listed(entry))
        for n, entry in enumerate(entries, start=1)
    )


def _listed(entry: Mapping[str, Any]) -> Listed:
    if not entry.get("extra", True):
        return Listed.ROW
    return Listed.USED if entry.get("used", False) else Listed.SHOP


def _caution(id_: str, entry: Mapping[str, Any]) -> CautionSheet:
    """A caution of the step's own, or one of the usual ones that it names."""
    if "use" in entry:
        return caution_sheet(entry["use"], "caution", read_data("cautions")["caution"][entry["use"]], entry)
    return caution_sheet(entry["rule"], id_, entry, entry)


def caution_sheet(rule: str, home: str, base: Mapping[str, Any], entry: Mapping[str, Any]) -> CautionSheet:
    """A caution as the data tells it.

    Parameters
    ----------
    rule : what it is about.
    home : where its sentences stand: a step's id, or "caution" for the usual ones.
    base : its texts, severity and source.
    entry : its condition on this step.
    """
    key = f"{home}.{rule}"
    again = Sentence(f"{key}.again", base["again"]) if "again" in base else None
    return CautionSheet(
        rule=rule,
        severity=Severity(base["severity"]),
        full=Sentence(key, base["text"]),
        again=again,
        source=base["source"],
        hazard=bool(base.get("hazard", False)),
        still=bool(base.get("still", False)),
        when=_words(entry.get("when", "")),
        covers=tuple(base.get("covers", ())),
        lift=bool(base.get("lift", False)),
        gear=tuple(map(Gear, base.get("gear", ()))),
    )
