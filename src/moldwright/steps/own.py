"""The maker's own steps laid over a job's steps: dropped, timed anew, added.

A step that holds cups cannot be dropped. A dropped step's stop cautions are not lost: they move to the step that
comes after it, and say where they are from.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from moldwright.errors import InputRefused
from moldwright.materials.nearest import did_you_mean
from moldwright.plan.plan import Caution, StepPlan
from moldwright.steps.own_file import Added, OwnSteps, Retime
from moldwright.text.shown import short

OWN = "the maker's own steps file"


@dataclass(frozen=True, slots=True)
class Entry:
    """A step with its cautions; `stands` False: this job does not have it, but its id is known."""

    step: StepPlan
    cautions: tuple[Caution, ...]
    stands: bool


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
        id_ = added.id
        if id_ in ids:
            raise InputRefused("own-step-id-taken", id_, "each id once", "", "Give the added step another id.")
        made.insert(ids.index(last.get(added.after, added.after)) + 1, _entry(added))
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
        raise InputRefused("own-step-holds-cups", entry.step.id, "a step without cups", "", remedy)
    return [(entry.step.title, caution) for caution in entry.cautions if caution.severity == "stop"]


def _taking(entry: Entry, handed: Iterable[tuple[str, Caution]]) -> Entry:
    told = tuple(
        Caution(entry.step.id, caution.severity, f"From the step left out, {title}: {caution.text}", caution.source)
        for title, caution in handed
        if caution.text not in entry.step.cautions
    )
    cautions = told + entry.cautions
    return replace(entry, cautions=cautions, step=replace(entry.step, cautions=tuple(c.text for c in cautions)))


def _entry(added: Added) -> Entry:
    cautions = tuple(Caution(added.id, "heed", text, OWN) for text in added.cautions)
    step = StepPlan(
        id=added.id,
        title=added.title,
        per=added.per,
        labor_min=added.labor_min,
        wait_min=added.wait_min,
        needs=added.needs,
        do=added.do,
        before=added.before,
        cautions=added.cautions,
        mixes=(),
        lift_kg=None,
    )
    return Entry(step, cautions, True)


def _known(id_: str, ids: Sequence[str]) -> None:
    if id_ not in ids:
        raise InputRefused("unknown-step", short(id_), "the id of a step", "", did_you_mean(short(id_), ids))
