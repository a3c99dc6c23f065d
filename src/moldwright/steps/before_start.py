"""What can ruin this job, told before it begins: the one list that terminal and first sheet print."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from moldwright.plan.cautions import Caution, Severity
from moldwright.plan.plan import Plan
from moldwright.plan.steps import StepPlan


@dataclass(frozen=True, slots=True)
class Warned:
    """A caution of this job and the step that it stands on; `number` counts the steps from 1 as the sheets do."""

    number: int
    step: StepPlan
    caution: Caution


def before_you_start(plan: Plan) -> tuple[Warned, ...]:
    """What belongs to this job and can ruin it: its stops, then what to heed, each in the order of the work.

    A stop that every job of its kind has, and what only costs work, stand on their steps alone. Each caution's own
    lines end with what to do.

    Parameters
    ----------
    plan : the plan.

    Source: house rule.
    """
    numbers = {step.id: (number, step) for number, step in enumerate(plan.steps, start=1)}
    told = [Warned(*numbers[each.step], each) for each in ruinous(plan.cautions) if each.step in numbers]
    return tuple(sorted(told, key=lambda each: (-each.caution.severity.rank, each.number)))


def ruinous(cautions: Iterable[Caution]) -> list[Caution]:
    """Those that belong to this job and can ruin it.

    Parameters
    ----------
    cautions : of all its steps.
    """
    return [
        each
        for each in cautions
        if each.particular and (each.severity is Severity.STOP or (each.ruins and each.severity is Severity.HEED))
    ]
