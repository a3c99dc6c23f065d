"""The whole work as steps in order: written from data, with this job's quantities, then made the maker's own."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass

from moldwright.errors import ComputationFailed, InputRefused
from moldwright.plan.plan import Caution, StepPlan
from moldwright.ranges import Range
from moldwright.steps.cautions import caution_lines
from moldwright.steps.context import StepContext
from moldwright.steps.draft import Draft, drafts
from moldwright.steps.flags import holds
from moldwright.steps.masses import lift_kg, show_kg
from moldwright.steps.own import Entry, owned
from moldwright.steps.own_file import own_steps
from moldwright.steps.sheet import CautionLine, Line, StepSheet, defer_line
from moldwright.steps.values import StepValues
from moldwright.steps.waits import named_wait_s


@dataclass(frozen=True, slots=True)
class Work:
    """The steps and the cautions that stand on them, in the same order."""

    steps: tuple[StepPlan, ...]
    cautions: tuple[Caution, ...]


def work_steps(context: StepContext, own_steps_text: str = "") -> tuple[StepPlan, ...]:
    """Every step of the work, in order, with labor, waits, needs, lines and cautions.

    Parameters
    ----------
    context : the order, the materials and the quantities reckoned so far.
    own_steps_text : the maker's own steps file (TOML), "" for none; see `moldwright.steps.own`.

    Labor minutes are common practice, no source; waits are the sheets' at the shop's temperature.
    """
    return work(context, own_steps_text).steps


def work(context: StepContext, own_steps_text: str = "") -> Work:
    """The steps together with their cautions as values, each with its severity and source.

    Parameters
    ----------
    context : the order, the materials and the quantities reckoned so far.
    own_steps_text : the maker's own steps file (TOML), "" for none.
    """
    own, made = own_steps(own_steps_text), drafts(context)
    lines = caution_lines(made, context, own.drop)
    entries = tuple(_entry(draft, said, context) for draft, said in zip(made, lines, strict=True))
    _once_each(entries, len(context.mixes))
    kept = owned(entries, own)
    cautions = tuple(caution for entry in kept for caution in entry.cautions)
    return Work(tuple(entry.step for entry in kept), cautions)


def _entry(draft: Draft, lines: tuple[CautionLine, ...], context: StepContext) -> Entry:
    kg = lift_kg(draft.sheet.lift, context)
    texts = {**draft.values.texts, "lift": show_kg(kg or 0.0, context.commission.shop.units)}
    step_cautions = _cautions(draft.id, lines, texts)
    step = StepPlan(
        id=draft.id,
        title=_said(draft.sheet.title, texts) if draft.stands else draft.sheet.title,
        per=draft.sheet.per,
        labor_min=_labor_min(draft.sheet, draft.values),
        wait_min=_wait_min(draft.sheet, context) if draft.stands else None,
        needs=_lines(draft.sheet.needs, draft, texts),
        do=_lines(draft.sheet.do, draft, texts),
        before=_lines(draft.sheet.before, draft, texts),
        cautions=tuple(caution.text for caution in step_cautions),
        mixes=draft.mixes,
        lift_kg=kg,
    )
    return Entry(step, step_cautions, draft.stands)


def _labor_min(sheet: StepSheet, values: StepValues) -> float:
    return round(sum(minutes * values.numbers[name] for name, minutes in sheet.labor), 1)


def _wait_min(sheet: StepSheet, context: StepContext) -> Range | None:
    """The wait [min]; None where the data has none or the material needs none."""
    if sheet.wait is None:
        return None
    wait = named_wait_s(sheet.wait, context) * (1.0 / 60.0) if isinstance(sheet.wait, str) else Range(*sheet.wait)
    return Range(round(wait.low, 1), round(wait.likely, 1), round(wait.high, 1)) if wait.high > 0.0 else None


def _lines(lines: Iterable[Line], draft: Draft, texts: dict[str, str]) -> tuple[str, ...]:
    if not draft.stands:
        return ()
    return tuple(_said(line.text, texts) for line in lines if holds(line.when, draft.words))


def _cautions(id_: str, lines: tuple[CautionLine, ...], texts: dict[str, str]) -> tuple[Caution, ...]:
    made = [Caution(id_, line.severity, _said(line.text, texts), line.source) for line in lines]
    if any(line.hazard for line in lines):
        made.append(Caution(id_, "note", defer_line(), "common practice, no source"))
    return tuple(made)


def _said(text: str, texts: dict[str, str]) -> str:
    """The line with its quantities; a placeholder that the job has no quantity for is a fault of the data."""
    missing = [name for name in re.findall(r"\{([a-z_.]+)\}", text) if name not in texts]
    if missing:
        raise ComputationFailed("step-data-broken", missing[0], None, "", f"No quantity for it in: {text}")
    said = re.sub(r"\{([a-z_.]+)\}", lambda found: texts[found[1]], text)
    return said[:1].upper() + said[1:]


def _once_each(entries: tuple[Entry, ...], count: int) -> None:
    """Every id once, and every cup in exactly one step that stands."""
    ids = [entry.step.id for entry in entries]
    twice = sorted({id_ for id_ in ids if ids.count(id_) > 1})
    if twice:
        raise InputRefused("step-id-twice", twice[0], None, "", "Give the coats names that differ in their letters.")
    placed = sorted(mix for entry in entries if entry.stands for mix in entry.step.mixes)
    if placed != list(range(count)):
        raise ComputationFailed("mix-without-step", str(placed), count, "cups", "Every cup belongs to one step.")
