"""The whole work as steps in order: written from data, with this job's quantities, then made the maker's own."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace

from moldwright.errors import ComputationFailed
from moldwright.materials import Library
from moldwright.plan.cautions import Caution, Severity
from moldwright.plan.ids import NOWHERE, StepId, caution_id, coat_mix_step
from moldwright.plan.lines import Line
from moldwright.plan.mixes import MixPlan
from moldwright.plan.needs import NeedPlan
from moldwright.plan.steps import Shows, StepPlan
from moldwright.quantities.quantities import Quantities
from moldwright.ranges import Range
from moldwright.steps.closing import closing, cured_in
from moldwright.steps.draft import Draft, drafts, steps_of_other_jobs
from moldwright.steps.finding_cautions import finding_cautions
from moldwright.steps.flags import holds
from moldwright.steps.gear import gear_needs
from moldwright.steps.hazard_cautions import hazard_cautions
from moldwright.steps.job_cautions import job_cautions
from moldwright.steps.lip_cautions import lip_cautions
from moldwright.steps.own import StepEntry, owned
from moldwright.steps.own_file import own_steps
from moldwright.steps.placeholders import quantities_in
from moldwright.steps.shape_cautions import ShapeFindings, shape_cautions
from moldwright.steps.sheet import Sentence
from moldwright.steps.step_cautions import StepCautions, step_cautions
from moldwright.steps.sure_lines import sure_cautions
from moldwright.steps.thin_cautions import thin_cautions
from moldwright.steps.waits import COUNTED, TOLD_AS, Wait, wait_s, waits_within


@dataclass(frozen=True, slots=True)
class Work:
    """The steps, and the cautions that stand on them, in the steps' order; those that stand on none come last; and what
    they ask to wear."""

    steps: tuple[StepPlan, ...]
    cautions: tuple[Caution, ...]
    gear: tuple[NeedPlan, ...]


def work(job: Quantities, library: Library, shape: ShapeFindings, own_steps_text: str = "") -> Work:
    """Every step of the work, in order, with labor, waits, needs, lines and cautions.

    Parameters
    ----------
    job : the order, the materials and the quantities.
    library : the sheets with their findings.
    shape : what the solids ask care for.
    own_steps_text : the maker's own steps file (TOML), "" for none; see `moldwright.steps.own_file`.

    Labor minutes are common practice, no source; waits are the sheets' at the shop's temperature.
    """
    own, made = own_steps(own_steps_text), drafts(job)
    said = {draft.id: each for draft, each in zip(made, step_cautions(made, own.drop), strict=True)}
    standing = {draft.id: said[draft.id] for draft in made if draft.stands}
    of_job = _of_job(job, library, shape, standing)
    entries = tuple(
        _entry(draft, (*said[draft.id].cautions, *_on(draft.id, of_job)), job, [d for d in made[n + 1 :] if d.stands])
        for n, draft in enumerate(made)
    )
    _once_each(entries, job.mixes)
    steps, cautions = _together(owned(entries, own, steps_of_other_jobs()), of_job)
    order = job.commission
    return Work(steps, cautions, gear_needs(steps, cautions, order.shop.people, order.edition.count, library))


def _of_job(
    job: Quantities, library: Library, shape: ShapeFindings, standing: Mapping[StepId, StepCautions]
) -> list[Caution]:
    """This job's cautions, behind the steps' own."""
    first = job.rubber.coats[0].id
    told = {caution.rule for said in standing.values() for caution in said.cautions}
    return [
        *shape_cautions(shape, job.measures.piece, job.measures.peel.slit),
        *sure_cautions(shape.doubt, coat_mix_step(job.rubber.coats[-1].id)),
        *finding_cautions(job.basis.findings, first, told, standing),
        *hazard_cautions(job, first, standing),
        *job_cautions(job, library),
        *thin_cautions(job),
        *lip_cautions(job),
    ]


def _entry(draft: Draft, said: tuple[Caution, ...], job: Quantities, later: Sequence[Draft]) -> StepEntry:
    sheet = draft.sheet
    needs, do, before, write = (_held(lines, draft) for lines in (sheet.needs, sheet.do, sheet.before, sheet.write))
    title, plain = _titles(draft)
    every = (title, *needs, *do, *before, *write) if draft.stands else ()
    step = StepPlan(
        id=draft.id,
        phase=draft.phase,
        coat=draft.coat,
        per=sheet.per,
        title=Line(title.key),
        labor_min=round(sum(minutes * draft.numbers[name] for name, minutes in sheet.labor), 1),
        wait_min=_wait_min(draft, job) if draft.stands else None,
        needs=_keys(needs),
        do=_keys(do),
        before=_keys(before),
        write=_keys(write),
        cautions=(),
        mixes=draft.mixes,
        lift_kg=draft.lift_kg,
        quantities=quantities_in(every, draft.quoted),
        people=sheet.people,
        waits_within=isinstance(sheet.wait, Wait) and waits_within(sheet.wait, job),
        cures=cured_in(draft, job),
        shows=_shown(draft, job),
    )
    if draft.stands:
        step = closing(draft, step, later, job)
    told_as = TOLD_AS.get(sheet.wait, "") if isinstance(sheet.wait, Wait) else ""
    return StepEntry(step, Line(plain.key), said, draft.stands, told_as)


def _shown(draft: Draft, job: Quantities) -> Shows | None:
    """The step's table, where this job has what it tells."""
    return draft.sheet.shows if draft.stands and (job.bandage is not None or job.mats is not None) else None


def _titles(draft: Draft) -> tuple[Sentence, Sentence]:
    """The title and the plain one, or the first of the others whose words hold."""
    sheet = draft.sheet
    other = next((each for each in sheet.titles if holds(each.when, draft.flags)), None)
    return (sheet.title, sheet.plain) if other is None else (other, other)


def _held(sentences: Iterable[Sentence], draft: Draft) -> tuple[Sentence, ...]:
    if not draft.stands:
        return ()
    return tuple(sentence for sentence in sentences if holds(sentence.when, draft.flags))


def _keys(sentences: Iterable[Sentence]) -> tuple[Line, ...]:
    return tuple(Line(sentence.key) for sentence in sentences)


def _wait_min(draft: Draft, job: Quantities) -> Range | None:
    """The wait [min]; None where the data has none or the material needs none."""
    wait = draft.sheet.wait
    if wait is None:
        return None
    times = draft.numbers[COUNTED[wait]] if wait in COUNTED else 1.0
    asked = wait_s(wait, job) * (times / 60.0) if isinstance(wait, Wait) else Range(*wait)
    return Range(round(asked.low, 1), round(asked.likely, 1), round(asked.high, 1)) if asked.high > 0.0 else None


def _once_each(entries: Iterable[StepEntry], mixes: Sequence[MixPlan]) -> None:
    """Every id once, and every cup in exactly one step that stands."""
    ids = [entry.step.id for entry in entries]
    placed = Counter(mix for entry in entries if entry.stands for mix in entry.step.mixes)
    if len(set(ids)) < len(ids) or placed != Counter(mix.id for mix in mixes):
        raise ComputationFailed("mix-without-step", len(placed), len(mixes), "cups", "Please report this commission.")


def _together(kept: Sequence[StepEntry], of_job: Iterable[Caution]) -> tuple[tuple[StepPlan, ...], tuple[Caution, ...]]:
    """Each caution on its step, once; on none what is no stop and whose step the maker left out."""
    cautions = [caution for entry in kept for caution in entry.cautions]
    rules = {caution.rule for caution in cautions}
    cautions += [_nowhere(each) for each in of_job if each.rule not in rules]
    if any(each.step == NOWHERE and each.severity is Severity.STOP for each in cautions):
        raise ComputationFailed("stop-without-step", "none", "a step", remedy="Please report this commission.")
    twice = [id_ for id_, count in Counter(each.id for each in cautions).items() if count > 1]
    if twice:
        raise ComputationFailed("caution-twice", twice[0], 1, "times", "Please report this commission.")
    steps = tuple(replace(e.step, cautions=tuple(c.id for c in cautions if c.step == e.step.id)) for e in kept)
    return steps, tuple(cautions)


def _on(step: StepId, cautions: Iterable[Caution]) -> tuple[Caution, ...]:
    return tuple(each for each in cautions if each.step == step)


def _nowhere(given: Caution) -> Caution:
    return replace(given, id=caution_id(NOWHERE, given.rule), step=NOWHERE)
