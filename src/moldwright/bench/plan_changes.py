"""What changes where a run goes on by a plan that was made anew. Ids hold: nothing is renumbered."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from math import isclose

from moldwright.bench.acts import Act, PlannedAct
from moldwright.bench.done import Acts, written
from moldwright.bench.frame import bodies, frame_of_standing
from moldwright.bench.laid import laid_out
from moldwright.bench.plan_changed import Altered, CoatChange, CupChange, PartChange, PlanChanges, StepChange
from moldwright.bench.run import acts_of_run
from moldwright.log.event import Event
from moldwright.log.run_events import CupRef, Poured, Weighed
from moldwright.log.standing import standing
from moldwright.plan.coats import CoatPlan
from moldwright.plan.ids import StepId
from moldwright.plan.mixes import MixPart, MixPlan, PartKind
from moldwright.plan.plan import Plan
from moldwright.plan.steps import StepPlan


def plan_changes(old: Plan, new: Plan, events: Iterable[Event] = ()) -> PlanChanges:
    """What changes for a run that goes on by a new plan.

    Parameters
    ----------
    old, new : by which it went, and goes on.
    events : of the run, in any order.
    """
    stands = standing(events)
    frame = frame_of_standing(stands)
    before, after = acts_of_run(old, frame), acts_of_run(new, frame)
    entries, _ = written(laid_out((*before, *after)), stands)
    steps, of_old = {each.id for each in new.steps}, {each.id for each in old.steps}
    mixes, cups = {each.id: each for each in new.mixes}, {each.id: each for each in old.mixes}
    changed = tuple(each for id_, mix in cups.items() if id_ in mixes for each in _cup(mix, mixes[id_]))
    weighed = _weighed(stands)
    return PlanChanges(
        steps_gone=tuple(each.id for each in old.steps if each.id not in steps),
        steps_new=tuple(each.id for each in new.steps if each.id not in of_old),
        steps=tuple(_steps(old.steps, new.steps)),
        cups_gone=tuple(id_ for id_ in cups if id_ not in mixes),
        cups_new=tuple(id_ for id_ in mixes if id_ not in cups),
        cups=changed,
        coats=tuple(_coats(old.glove.coats, new.glove.coats)),
        rubber=None if old.rubber == new.rubber else (old.rubber, new.rubber),
        temperature_c=None if old.temperature_c == new.temperature_c else (old.temperature_c, new.temperature_c),
        done_gone=tuple(_done_gone(before, after, entries)),
        weighed_gone=tuple(ref for ref in weighed if ref.mix in cups and ref.mix not in mixes),
        weighed_other=tuple(ref for ref in weighed if ref.mix in {each.cup for each in changed}),
        new_before=_new_before(before, after, entries),
    )


def _weighed(events: Sequence[Event]) -> tuple[CupRef, ...]:
    cups = [*(body.cup for body, _ in bodies(events, Weighed)), *(body.cup for body, _ in bodies(events, Poured))]
    return tuple(dict.fromkeys(cups))


def _steps(old: Sequence[StepPlan], new: Sequence[StepPlan]) -> Iterator[StepChange]:
    before, after = {each.id: each for each in old}, {each.id: each for each in new}
    moved = _moved([id_ for id_ in before if id_ in after], [id_ for id_ in after if id_ in before])
    for id_, step in before.items():
        if id_ in after:
            altered = (*_altered(step, after[id_]), *((Altered.PLACE,) if id_ in moved else ()))
            if altered:
                yield StepChange(id_, altered)


def _moved(old: Sequence[StepId], new: Sequence[StepId]) -> frozenset[StepId]:
    """Those that stand elsewhere: all but the longest run of them that kept its order."""
    place = {id_: n for n, id_ in enumerate(new)}
    rows: list[tuple[StepId, ...]] = []
    for id_ in old:
        before = [row for row in rows if place[row[-1]] < place[id_]]
        rows.append((*_longest(before), id_))
    return frozenset(old) - set(_longest(rows))


def _longest(rows: Sequence[tuple[StepId, ...]]) -> tuple[StepId, ...]:
    return max(rows, key=lambda row: (len(row), row), default=())


def _altered(old: StepPlan, new: StepPlan) -> Iterator[Altered]:
    compared: Mapping[Altered, Callable[[StepPlan], object]] = {
        Altered.WORDS: lambda s: (s.title, s.needs, s.do, s.before, s.write, s.quantities),
        Altered.LABOR: lambda s: (s.labor_min, s.people),
        Altered.WAIT: lambda s: (s.wait_min, s.waits_within, s.closes_min, s.closes_for),
        Altered.CUPS: lambda s: s.mixes,
        Altered.CAUTIONS: lambda s: s.cautions,
        Altered.PLACE: lambda s: (s.phase, s.per, s.coat),
    }
    return (each for each, of in compared.items() if of(old) != of(new))


def _cup(old: MixPlan, new: MixPlan) -> Iterator[CupChange]:
    before, after = ({part.kind: part for part in mix.parts} for mix in (old, new))
    parts = tuple(_parts(before, after))
    if parts or old.work_by_s != new.work_by_s:
        yield CupChange(old.id, parts, old.work_by_s, new.work_by_s)


def _parts(old: Mapping[PartKind, MixPart], new: Mapping[PartKind, MixPart]) -> Iterator[PartChange]:
    for kind in dict.fromkeys((*old, *new)):
        one, other = old.get(kind), new.get(kind)
        if one is None or other is None or not _same_part(one, other):
            yield PartChange(
                kind,
                one.mass_g if one else None,
                other.mass_g if other else None,
                one.stuff if one else None,
                other.stuff if other else None,
            )


def _same_part(one: MixPart, other: MixPart) -> bool:
    return isclose(one.mass_g, other.mass_g, rel_tol=1e-6) and one.stuff == other.stuff


def _coats(old: Sequence[CoatPlan], new: Sequence[CoatPlan]) -> Iterator[CoatChange]:
    before, after = ({coat.id: coat.thickness_mm for coat in coats} for coats in (old, new))
    for coat in dict.fromkeys((*before, *after)):
        if before.get(coat) != after.get(coat):
            yield CoatChange(coat, before.get(coat), after.get(coat))


def _done_gone(old: Sequence[PlannedAct], new: Sequence[PlannedAct], entries: Acts) -> Iterator[Act]:
    there = {each.act for each in new}
    return (each.act for each in old if each.act not in there and entries[each.act].touched)


def _new_before(old: Sequence[PlannedAct], new: Sequence[PlannedAct], entries: Acts) -> tuple[Act, ...]:
    """Acts of the new plan alone that something needs, over however many others, that is begun or done."""
    known = {each.act for each in old}
    passed: set[Act] = set()
    for planned in reversed(new):
        if planned.act in passed or entries[planned.act].touched:
            passed.update(planned.needs)
    return tuple(e.act for e in new if e.act in passed and e.act not in known and not entries[e.act].touched)
