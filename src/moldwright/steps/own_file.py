"""The maker's own steps, read from a file of their own: steps dropped, timed anew or added.

```toml
drop = ["base-felt"]
[retime]
clean = "20 min"                                  # labor
cure-rubber = { wait = ["8 h", "10 h", "14 h"] }  # low, likely, high; or one time
[[add]]
after = "clean"
title = "Show it to the client"
labor = "15 min"
do = ["Set it under the lamp."]                   # and: id, wait, per, needs, before, cautions
```
Only the file's own words are checked here; whether a step of that id exists is told where the wishes meet the steps.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from moldwright.errors import InputRefused
from moldwright.materials.nearest import did_you_mean
from moldwright.plan.steps import Per
from moldwright.ranges import Range
from moldwright.text.harmless import is_line
from moldwright.text.shown import short, shown
from moldwright.text.toml import toml_tables
from moldwright.units import duration_s

LONGEST_FILE, LONGEST_LINE, LONGEST_TITLE, LONGEST_ID = 200_000, 400, 80, 120
MOST_STEPS, MOST_LINES = 200, 60
MOST_MIN = 90 * 24 * 60.0
"""Our own bounds, wide: ninety days is longer than any cure."""
_TOP = ("drop", "retime", "add")
_TIME = ("labor", "wait")
_ADD = ("after", "id", "title", "per", "labor", "wait", "needs", "do", "before", "cautions")
_EXAMPLE = {"after": "clean", "title": "Show it to the client", "labor": "15 min"}
_ID = re.compile(r"[a-z0-9]+(?:-[a-z0-9]+)*")


@dataclass(frozen=True, slots=True)
class Retime:
    """New times of one step [min]; None: as it was."""

    id: str
    labor_min: float | None
    wait_min: Range | None


@dataclass(frozen=True, slots=True)
class Added:
    """A step of the maker's own, and the id of the step that it comes after."""

    after: str
    id: str
    title: str
    per: Per
    labor_min: float
    wait_min: Range | None
    needs: tuple[str, ...]
    do: tuple[str, ...]
    before: tuple[str, ...]
    cautions: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class OwnSteps:
    """What the file asks for."""

    drop: tuple[str, ...] = ()
    retime: tuple[Retime, ...] = ()
    add: tuple[Added, ...] = ()


def own_steps(text: str) -> OwnSteps:
    """Read the maker's own steps file.

    Parameters
    ----------
    text : TOML as in this module's head, at most 200,000 characters; "" asks for nothing.

    Raises InputRefused for what it cannot read, with the nearest known key.

    >>> own_steps('drop = ["base-felt"]').drop
    ('base-felt',)

    Source: our own.
    """
    table = toml_tables(text, "list of steps", "own-steps-unreadable", LONGEST_FILE)
    _only(table, _TOP, "the own steps file")
    retimes, adds = table.get("retime", {}), table.get("add", [])
    if not isinstance(retimes, dict) or not isinstance(adds, list) or not all(isinstance(add, dict) for add in adds):
        raise _unclear("retime / add", "[retime] and [[add]]", "Write them as tables.")
    drop = _lines(table.get("drop", []), "drop", MOST_STEPS)
    for name, given in (("drop", drop), ("retime", retimes), ("add", adds)):
        if len(given) > MOST_STEPS:
            raise InputRefused("own-steps-unclear", len(given), MOST_STEPS, "steps", f"Name fewer steps in {name}.")
    return OwnSteps(
        drop,
        tuple(_retime(id_, value) for id_, value in retimes.items()),
        tuple(_added(add, f"add[{n}]") for n, add in enumerate(adds)),
    )


def _retime(id_: str, value: Any) -> Retime:
    where = f"retime.{short(id_)}"
    if not is_line(id_, LONGEST_ID):
        raise _unclear(where, f"the id of a step, 1 to {LONGEST_ID} characters", "docs/steps.md lists the ids.")
    if isinstance(value, str):
        return Retime(id_, _minutes(value, where), None)
    if not isinstance(value, dict):
        raise _unclear(f"{where} = {shown(value)}", "a time", 'Write it as "20 min".')
    _only(value, _TIME, where)
    labor = _minutes(value["labor"], f"{where}.labor") if "labor" in value else None
    return Retime(id_, labor, _wait(value["wait"], f"{where}.wait") if "wait" in value else None)


def _added(table: Mapping[str, Any], where: str) -> Added:
    _only(table, _ADD, where)
    for key in ("after", "title", "labor"):
        if not isinstance(table.get(key), str):
            raise InputRefused("own-step-incomplete", where, key, "", f'Give it {key} = "{_EXAMPLE[key]}".')
    title = _line(table["title"], f"{where}.title", LONGEST_TITLE)
    return Added(
        after=_line(table["after"], f"{where}.after", LONGEST_ID),
        id=_id(table.get("id", _id_from(title) or _id_from(where)), where),
        title=title,
        per=_per(table.get("per", Per.MOLD), where),
        labor_min=_minutes(table["labor"], f"{where}.labor"),
        wait_min=_wait(table["wait"], f"{where}.wait") if "wait" in table else None,
        needs=_lines(table.get("needs", []), f"{where}.needs"),
        do=_lines(table.get("do", []), f"{where}.do"),
        before=_lines(table.get("before", []), f"{where}.before"),
        cautions=_lines(table.get("cautions", []), f"{where}.cautions"),
    )


def _id_from(title: str) -> str:
    """A title in plain small letters: "Prüfen, 2nd" -> "prufen-2nd"; empty for one without Latin letters or digits."""
    letters = "".join(c for c in unicodedata.normalize("NFKD", title.lower()) if not unicodedata.combining(c))
    return re.sub(r"[^a-z0-9]+", "-", letters).strip("-")


def _id(value: Any, where: str) -> str:
    if not isinstance(value, str) or len(value) > LONGEST_ID or not _ID.fullmatch(value):
        wanted = f"small letters and digits joined by -, at most {LONGEST_ID}"
        raise _unclear(f"{where}.id = {shown(value)}", wanted, 'Give it another id, such as id = "second-look".')
    return value


def _per(value: Any, where: str) -> Per:
    if not isinstance(value, str) or value not in list(Per):
        raise _unclear(f"{where}.per = {shown(value)}", ", ".join(Per), "Say how often it is done.")
    return Per(value)


def _minutes(value: Any, where: str) -> float:
    if not isinstance(value, str):
        raise _unclear(f"{where} = {shown(value)}", "a time", 'Write it as "20 min".')
    minutes = duration_s(value, where) / 60.0
    if not 0.0 <= minutes <= MOST_MIN:
        remedy = f"{where} is a time from 0 to {MOST_MIN / 1440:g} days."
        raise InputRefused("own-steps-unclear", float(f"{minutes:.6g}"), 0 if minutes < 0 else MOST_MIN, "min", remedy)
    return minutes


def _wait(value: Any, where: str) -> Range:
    if not isinstance(value, list):
        return Range.exactly(_minutes(value, where))
    if len(value) != 3:
        raise InputRefused("own-steps-unclear", len(value), 3, "times", f"Write {where} as low, likely and high.")
    low, likely, high = (_minutes(each, where) for each in value)
    return Range(low, likely, high)


def _lines(value: Any, where: str, most: int = MOST_LINES) -> tuple[str, ...]:
    if not isinstance(value, list) or not all(isinstance(text, str) for text in value):
        raise _unclear(f"{where} = {shown(value)}", "a list of texts", 'Write ["...", "..."].')
    if len(value) > most:
        raise InputRefused("own-steps-unclear", len(value), most, "lines", f"Write fewer lines in {where}.")
    return tuple(_line(text, where, LONGEST_LINE) for text in value)


def _line(text: str, where: str, longest: int) -> str:
    if not is_line(text, longest):
        wanted = f"one line of 1 to {longest} characters that can be read"
        raise _unclear(f"{where} = {shown(text)}", wanted, "Write one plain line there, without control characters.")
    return text.strip()


def _only(table: Mapping[str, Any], known: Sequence[str], where: str) -> None:
    for key in table:
        if key not in known:
            raise InputRefused(
                "unknown-key", f"{where}: {short(key)}", ", ".join(known), "", did_you_mean(short(key), known)
            )


def _unclear(actual: str, limit: str, remedy: str) -> InputRefused:
    return InputRefused("own-steps-unclear", actual, limit, "", remedy)
