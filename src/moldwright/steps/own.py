"""The maker's own steps: steps dropped, timed anew or added, in a file of their own.

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
A step that holds cups cannot be dropped. A dropped step's stop cautions are not lost: they move to the step that
comes after it, and say where they are from.
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

from moldwright.errors import InputRefused
from moldwright.materials.nearest import did_you_mean
from moldwright.plan.plan import Caution, StepPlan
from moldwright.ranges import Range
from moldwright.units import duration_s

_TOP = ("drop", "retime", "add")
_TIME = ("labor", "wait")
_ADD = ("after", "id", "title", "per", "labor", "wait", "needs", "do", "before", "cautions")
_PERS = ("mold", "cast", "edition")
OWN = "the maker's own steps file"


@dataclass(frozen=True, slots=True)
class Entry:
    """A step with its cautions; `stands` False: this job does not have it, but its id is known."""

    step: StepPlan
    cautions: tuple[Caution, ...]
    stands: bool


@dataclass(frozen=True, slots=True)
class Retime:
    """New times of one step [min]; None: as it was."""

    id: str
    labor_min: float | None
    wait_min: Range | None


@dataclass(frozen=True, slots=True)
class Added:
    """A step of the maker's own and the step it comes after."""

    after: str
    entry: Entry


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
    text : TOML as in this module's head; "" asks for nothing.

    Raises InputRefused for what it cannot read, with the nearest known key.

    >>> own_steps('drop = ["base-felt"]').drop
    ('base-felt',)
    """
    try:
        table = tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise InputRefused(
            "own-steps-unreadable", str(error), remedy="Mend the own steps file at that line."
        ) from error
    _only(table, _TOP, "the own steps file")
    retimes, adds = table.get("retime", {}), table.get("add", [])
    if not isinstance(retimes, dict) or not isinstance(adds, list) or not all(isinstance(add, dict) for add in adds):
        raise InputRefused("own-steps-unclear", "retime / add", "[retime] and [[add]]", remedy="Write them as tables.")
    return OwnSteps(
        _texts(table.get("drop", []), "drop"),
        tuple(_retime(id_, value) for id_, value in retimes.items()),
        tuple(_added(add) for add in adds),
    )


def owned(entries: Sequence[Entry], own: OwnSteps) -> tuple[Entry, ...]:
    """The steps that stand, after the maker's own wishes.

    Parameters
    ----------
    entries : all steps of the job, those that do not stand included (their ids are known, so one file fits all jobs).
    own : the wishes.

    Raises InputRefused for an unknown id, an id given twice, or a dropped step that holds cups.
    """
    with_added = _with_added(entries, own.add)
    ids = [entry.step.id for entry in with_added]
    for id_ in (*own.drop, *(retime.id for retime in own.retime)):
        _known(id_, ids)
    times = {retime.id: retime for retime in own.retime}
    timed = [_timed(entry, times.get(entry.step.id)) for entry in with_added]
    return _without(tuple(entry for entry in timed if entry.stands), frozenset(own.drop))


def _with_added(entries: Sequence[Entry], adds: Iterable[Added]) -> list[Entry]:
    made = list(entries)
    last: dict[str, str] = {}
    for added in adds:
        ids = [entry.step.id for entry in made]
        _known(added.after, ids)
        id_ = added.entry.step.id
        if id_ in ids:
            raise InputRefused("own-step-id-taken", id_, remedy="Give the added step another id.")
        made.insert(ids.index(last.get(added.after, added.after)) + 1, added.entry)
        last[added.after] = id_
    return made


def _timed(entry: Entry, retime: Retime | None) -> Entry:
    if retime is None:
        return entry
    step = entry.step
    labor = step.labor_min if retime.labor_min is None else retime.labor_min
    wait = step.wait_min if retime.wait_min is None else retime.wait_min
    return replace(entry, step=replace(step, labor_min=labor, wait_min=wait))


def _without(entries: tuple[Entry, ...], drop: frozenset[str]) -> tuple[Entry, ...]:
    kept: list[Entry] = []
    handed: list[tuple[str, Caution]] = []
    for entry in entries:
        if entry.step.id in drop:
            handed += _handed(entry)
        else:
            kept.append(_taking(entry, handed))
            handed = []
    if kept and handed:
        kept[-1] = _taking(kept[-1], handed)
    return tuple(kept)


def _handed(entry: Entry) -> list[tuple[str, Caution]]:
    if entry.step.mixes:
        remedy = "It holds cups, so it stays. Change its times, or change the order for the mold or the cast."
        raise InputRefused("own-step-holds-cups", entry.step.id, remedy=remedy)
    return [(entry.step.title, caution) for caution in entry.cautions if caution.severity == "stop"]


def _taking(entry: Entry, handed: Iterable[tuple[str, Caution]]) -> Entry:
    told = tuple(
        Caution(entry.step.id, caution.severity, f"From the step left out, {title}: {caution.text}", caution.source)
        for title, caution in handed
        if caution.text not in entry.step.cautions
    )
    cautions = told + entry.cautions
    return replace(entry, cautions=cautions, step=replace(entry.step, cautions=tuple(c.text for c in cautions)))


def _retime(id_: str, value: Any) -> Retime:
    if isinstance(value, str):
        return Retime(id_, _minutes(value, f"retime.{id_}"), None)
    if not isinstance(value, dict):
        raise InputRefused("own-steps-unclear", f"retime.{id_} = {value!r}", "a time", remedy='Write it as "20 min".')
    _only(value, _TIME, f"retime.{id_}")
    labor = _minutes(value["labor"], f"retime.{id_}.labor") if "labor" in value else None
    return Retime(id_, labor, _wait(value["wait"], f"retime.{id_}.wait") if "wait" in value else None)


def _added(table: Mapping[str, Any]) -> Added:
    where = f"add {table.get('title', '')!r}"
    _only(table, _ADD, where)
    missing = [key for key in ("after", "title", "labor") if not isinstance(table.get(key), str)]
    if missing:
        raise InputRefused("own-step-incomplete", where, missing[0], remedy=f'Give it {missing[0]} = "...".')
    per = table.get("per", "mold")
    if per not in _PERS:
        raise InputRefused("own-steps-unclear", f"per = {per!r}", ", ".join(_PERS), remedy="Say how often it is done.")
    id_ = str(table.get("id") or re.sub(r"[^a-z0-9]+", "-", table["title"].lower()).strip("-"))
    if not re.fullmatch(r"[a-z0-9]+(-[a-z0-9]+)*", id_):
        raise InputRefused(
            "own-steps-unclear", f"id = {id_!r}", "lower case, joined by -", remedy="Give it another id."
        )
    cautions = tuple(Caution(id_, "heed", text, OWN) for text in _texts(table.get("cautions", []), "cautions"))
    step = StepPlan(
        id=id_,
        title=table["title"],
        per=per,
        labor_min=_minutes(table["labor"], f"{where}.labor"),
        wait_min=_wait(table["wait"], f"{where}.wait") if "wait" in table else None,
        needs=_texts(table.get("needs", []), "needs"),
        do=_texts(table.get("do", []), "do"),
        before=_texts(table.get("before", []), "before"),
        cautions=tuple(caution.text for caution in cautions),
        mixes=(),
        lift_kg=None,
    )
    return Added(table["after"], Entry(step, cautions, True))


def _minutes(value: Any, where: str) -> float:
    if not isinstance(value, str):
        raise InputRefused("own-steps-unclear", f"{where} = {value!r}", "a time", remedy='Write it as "20 min".')
    minutes = duration_s(value) / 60.0
    if minutes < 0.0:
        raise InputRefused("own-steps-unclear", f"{where} = {value!r}", 0, "min", "A time is not below zero.")
    return minutes


def _wait(value: Any, where: str) -> Range:
    if not isinstance(value, list):
        return Range.exactly(_minutes(value, where))
    if len(value) != 3:
        raise InputRefused("own-steps-unclear", f"{where}: {len(value)} times", 3, remedy="Write low, likely and high.")
    low, likely, high = (_minutes(each, where) for each in value)
    return Range(low, likely, high)


def _texts(value: Any, where: str) -> tuple[str, ...]:
    if not isinstance(value, list) or not all(isinstance(text, str) for text in value):
        raise InputRefused(
            "own-steps-unclear", f"{where} = {value!r}", "a list of texts", remedy='Write ["...", "..."].'
        )
    return tuple(value)


def _only(table: Mapping[str, Any], known: Sequence[str], where: str) -> None:
    for key in table:
        if key not in known:
            raise InputRefused("unknown-key", f"{where}: {key}", remedy=did_you_mean(key, known))


def _known(id_: str, ids: Sequence[str]) -> None:
    if id_ not in ids:
        raise InputRefused("unknown-step", id_, remedy=did_you_mean(id_, ids))
