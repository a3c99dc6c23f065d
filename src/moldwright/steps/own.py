"""The maker's own steps laid over a job's steps: dropped, timed anew, added.

A step that holds cups cannot be dropped. A dropped step's stop cautions are not lost: they move to the step that
comes after it, and say where they are from.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass, replace

from moldwright.errors import InputRefused
from moldwright.materials.nearest import did_you_mean
from moldwright.plan.cautions import Caution, Severity, caution
from moldwright.plan.ids import StepId, caution_id
from moldwright.plan.lines import Line, own_line
from moldwright.plan.quantity import Dimension, Quantity
from moldwright.plan.steps import StepPlan
from moldwright.ranges import Range
from moldwright.steps.own_file import Added, OwnSteps, Retime
from moldwright.text.shown import short

OWN = "the maker's own steps file"


@dataclass(frozen=True, slots=True)
class StepEntry:
    """A step with its cautions and its plain title; `stands` False: this job does not have it, but its id is known.

    `told_as`: the name by which sentences quote its wait, "" where none does.
    """

    step: StepPlan
    plain: Line
    cautions: tuple[Caution, ...]
    stands: bool
    told_as: str = ""


@dataclass(frozen=True, slots=True)
class Handed:
    """A caution of a step that is left out, and that step's plain title."""

    caution: Caution
    plain: Line


def owned(entries: Sequence[StepEntry], own: OwnSteps, elsewhere: Collection[StepId] = ()) -> tuple[StepEntry, ...]:
    """The steps that stand, after the maker's own wishes.

    Parameters
    ----------
    entries : all steps of the job, those that do not stand included (their ids are known, so one file fits all jobs).
    own : the wishes.
    elsewhere : ids that other jobs may have; to leave them out or to time them anew is no fault.

    Raises InputRefused for an unknown id, an id given twice, or a dropped step that holds cups.
    """
    with_added = _with_added(entries, own.add)
    ids = [*(entry.step.id for entry in with_added), *elsewhere]
    for id_ in (*own.drop, *(retime.id for retime in own.retime)):
        _known(id_, ids)
    times = {retime.id: retime for retime in own.retime}
    return _without(_all_timed(with_added, times), frozenset(own.drop))


def _with_added(entries: Sequence[StepEntry], adds: Iterable[Added]) -> list[StepEntry]:
    made = list(entries)
    last: dict[str, str] = {}
    for added in adds:
        ids: list[str] = [entry.step.id for entry in made]
        _known(added.after, ids)
        if added.id in ids:
            raise InputRefused("own-step-id-taken", added.id, "each id once", "", "Give the added step another id.")
        place = ids.index(last.get(added.after, added.after))
        made.insert(place + 1, _entry(added, made[place].step))
        last[added.after] = added.id
    return made


def _all_timed(entries: Iterable[StepEntry], times: Mapping[str, Retime]) -> list[StepEntry]:
    """The steps with their new times; from a step up to the next that waits for the same, sentences quote its own."""
    own_waits: dict[str, Quantity] = {}
    made = []
    for entry in entries:
        retime = times.get(entry.step.id)
        if entry.told_as and entry.stands:
            own_waits.pop(entry.told_as, None)
            if retime is not None and retime.wait_min is not None:
                own_waits[entry.told_as] = _told(entry.told_as, retime.wait_min)
        made.append(_quoting(_timed(entry, retime), own_waits))
    return made


def _told(name: str, wait_min: Range) -> Quantity:
    """A wait as sentences quote it; one time where the maker gave one."""
    wait_s = wait_min * 60.0
    return Quantity(name, Dimension.DURATION, wait_s if wait_s.low < wait_s.high else wait_s.likely)


def _quoting(entry: StepEntry, own_waits: Mapping[str, Quantity]) -> StepEntry:
    """The step with the maker's own waits in the place of the materials'."""
    if not own_waits:
        return entry

    def anew(quantities: Iterable[Quantity]) -> tuple[Quantity, ...]:
        return tuple(own_waits.get(quantity.name, quantity) for quantity in quantities)

    cautions = tuple(replace(each, quantities=anew(each.quantities)) for each in entry.cautions)
    return replace(entry, step=replace(entry.step, quantities=anew(entry.step.quantities)), cautions=cautions)


def _timed(entry: StepEntry, retime: Retime | None) -> StepEntry:
    if retime is None:
        return entry
    step = entry.step
    labor = step.labor_min if retime.labor_min is None else retime.labor_min
    timed = replace(step, labor_min=labor)
    if retime.wait_min is not None:
        timed = replace(timed, wait_min=retime.wait_min, cures=())
    return replace(entry, step=timed)


def _without(entries: Iterable[StepEntry], drop: frozenset[str]) -> tuple[StepEntry, ...]:
    kept: list[StepEntry] = []
    handed: list[Handed] = []
    for entry in entries:
        if not entry.stands or entry.step.id in drop:
            handed += _handed(entry)
        else:
            kept.append(_taking(entry, handed))
            handed = []
    if kept and handed:
        kept[-1] = _taking(kept[-1], handed)
    return tuple(kept)


def _handed(entry: StepEntry) -> list[Handed]:
    """What a step that is left out hands on: its stops and, where this job has the step, what its materials can do."""
    if entry.stands and entry.step.mixes:
        remedy = "It holds cups, so it stays. Change its times, or change the order for the mold or the cast."
        raise InputRefused("own-step-holds-cups", entry.step.id, "a step without cups", "", remedy)
    heeded = Severity.HEED if entry.stands else Severity.STOP
    return [
        Handed(each, entry.plain)
        for each in entry.cautions
        if each.severity is Severity.STOP or (each.hazard and each.severity is heeded)
    ]


def _taking(entry: StepEntry, handed: Iterable[Handed]) -> StepEntry:
    """The step with the cautions of those left out before it, but for what it says itself."""
    said = {each.rule for each in entry.cautions}
    taken = tuple(_moved(each, entry.step.id) for each in handed if each.caution.rule not in said)
    return replace(entry, cautions=(*{each.id: each for each in taken}.values(), *entry.cautions))


def _moved(handed: Handed, step: StepId) -> Caution:
    """The caution on another step, behind a line that names the one it is from."""
    given, title = handed.caution, handed.plain
    measure = Dimension.TITLE if title.say else Dimension.WORD
    left_out = Quantity("left.out", measure, title.say or title.own)
    return replace(
        given,
        id=caution_id(step, given.rule),
        step=step,
        lines=(Line("caution.moved"), *given.lines),
        quantities=(*given.quantities, left_out),
        moved_from=given.step,
    )


def _entry(added: Added, before: StepPlan) -> StepEntry:
    """An added step stands, behind the place of the step that it names, also where this job lacks that one."""
    id_ = StepId(added.id)
    cautions = tuple(
        caution(id_, f"own-{number}", Severity.HEED, (own_line(text),), OWN)
        for number, text in enumerate(added.cautions, start=1)
    )
    step = StepPlan(
        id=id_,
        phase=before.phase,
        coat=before.coat,
        per=added.per,
        title=own_line(added.title),
        labor_min=added.labor_min,
        wait_min=added.wait_min,
        needs=tuple(map(own_line, added.needs)),
        do=tuple(map(own_line, added.do)),
        before=tuple(map(own_line, added.before)),
        write=(),
        cautions=(),
        mixes=(),
        lift_kg=None,
        quantities=(),
    )
    return StepEntry(step, step.title, cautions, True)


def _known(id_: str, ids: Sequence[str]) -> None:
    if id_ not in ids:
        raise InputRefused("unknown-step", short(id_), "the id of a step", "", did_you_mean(short(id_), ids))
