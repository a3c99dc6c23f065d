"""What a step prints, as texts."""

from __future__ import annotations

from dataclasses import asdict, dataclass
from typing import Any

from moldwright.plan.cautions import Caution
from moldwright.plan.plan import Plan
from moldwright.plan.quantity import Dimension
from moldwright.plan.steps import Per, StepPlan
from moldwright.sheets.step_tables import step_tables
from moldwright.sheets.walls import Place, places
from moldwright.sheets.wording import Wording, show_lift
from moldwright.sheets.words import labor_text
from moldwright.steps.lifts import LIFT_FROM_KG, TWO_LIFT_FROM_KG
from moldwright.steps.sheet import DEFER
from moldwright.units import show_range
from moldwright.units.system import UnitSystem
from moldwright.words.marked import words
from moldwright.words.speaker import say

HOW_OFTEN = {Per.MOLD: "", Per.BATCH: words("each casting day"), Per.CAST: "", Per.EDITION: "once, at the end"}
"""What stands behind a step's time; steps of a cast stand on sheets of their own."""


@dataclass(frozen=True, slots=True)
class Numbered:
    """A step with its number on all sheets and its place in the wall."""

    number: int
    step: StepPlan
    place: Place


def numbered(plan: Plan) -> tuple[Numbered, ...]:
    """The plan's steps, counted from 1.

    Parameters
    ----------
    plan : the plan.
    """
    rows = zip(plan.steps, places(plan), strict=True)
    return tuple(Numbered(number, step, place) for number, (step, place) in enumerate(rows, start=1))


def step_texts(plan: Plan, words: Wording, its: Numbered) -> dict[str, Any]:
    """One step's texts for the form.

    Parameters
    ----------
    plan : the plan, for its cautions.
    words : the reader's wording.
    its : the step.
    """
    step, place = its.step, its.place
    needs, before, do, write = (
        [words.line(line, step.quantities) for line in lines]
        for lines in (step.needs, step.before, step.do, step.write)
    )
    return {
        "number": its.number, "title": words.line(step.title, step.quantities),
        "wall": place.wall, "low": place.layer, "high": place.layer, "group": place.group,
        "time": _beside(step, plan.units),
        "at_hand": _listed(needs), "before": before, "do": do, "write": write,
        "cautions": _cautions(plan, words, step),
        "lift": _heavy(step, plan.units),
        "tables": [asdict(table) for table in step_tables(plan, step)],
        "wait": _wait(step), "within": step.waits_within, "reused": step.per is Per.CAST,
    }  # fmt: skip


def _labor(step: StepPlan) -> str:
    return labor_text(step.labor_min) if step.labor_min > 0 else ""


def _listed(things: list[str]) -> str:
    """Things in one sentence: "Soft brush, timer."

    >>> _listed(["Soft brush", "Timer", "A and B"])
    'Soft brush, timer, A and B.'
    """
    rest = [t[0].lower() + t[1:] if t[1:2].islower() else t for t in things[1:]]
    return ", ".join([*things[:1], *rest]) + ("." if things else "")


def _beside(step: StepPlan, units: UnitSystem) -> str:
    """What stands beside the title: time, how often, and a weight that no caution tells."""
    light = step.lift_kg is not None and step.lift_kg < LIFT_FROM_KG
    lift = say("lifts {weight}", weight=show_lift(step.lift_kg, units)) if light and step.lift_kg is not None else ""
    return ", ".join(filter(None, (_labor(step), say(HOW_OFTEN[step.per]), lift)))


def _heavy(step: StepPlan, units: UnitSystem) -> str:
    """A weight that wants two, whatever its caution says."""
    if step.lift_kg is None or step.lift_kg < TWO_LIFT_FROM_KG:
        return ""
    return say("{show_lift}. Two people, or a lifting aid.", show_lift=show_lift(step.lift_kg, units))


def _cautions(plan: Plan, words: Wording, step: StepPlan) -> list[dict[str, str]]:
    return [{"severity": each.severity, "text": words.caution_set(each)} for each in cautions_of(plan, step)]


def cautions_of(plan: Plan, step: StepPlan) -> tuple[Caution, ...]:
    """The cautions that stand on a step, gravest first: the foot of every sheet says what comes before this software's
    reminder, the first sheet all that is told in full.

    Parameters
    ----------
    plan : the plan.
    step : of it.
    """
    own = [plan.caution(id_) for id_ in step.cautions]
    told = [each for each in own if each.rule != DEFER and not tells_in_full(each)]
    return tuple(sorted(told, key=lambda each: -each.severity.rank))


def tells_in_full(caution: Caution) -> bool:
    """Whether a caution is the hazard statements of materials in full, which the first sheet prints.

    Parameters
    ----------
    caution : any caution.
    """
    return any(quantity.measure is Dimension.CODES_IN_FULL for quantity in caution.quantities)


def _wait(step: StepPlan) -> str:
    return "" if step.wait_min is None or step.wait_min.high <= 0 else show_range(step.wait_min * 60.0, "duration")
