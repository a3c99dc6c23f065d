"""The steps of another kind of mold: the plan's own, but those that a brushed glove alone has, and its own work."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from typing import Any

from moldwright.plan.ids import StepId
from moldwright.plan.lines import Line
from moldwright.plan.steps import StepPlan
from moldwright.plan.strategies import Strategy
from moldwright.quantities.quantities import Quantities
from moldwright.ranges import Range
from moldwright.steps.coat_quoted import Numbers, job_numbers
from moldwright.steps.draft import drafts
from moldwright.steps.sheet import read_data
from moldwright.steps.waits import Wait, wait_s

MM_M, MM2_DM2 = 1e3, 1e4
OWN = "other-mold-{}"


@dataclass(frozen=True, slots=True)
class Lengths:
    """What the labor of another kind of mold counts besides the job's figures: walls of its box [mm2], its cut and the
    line between its halves [mm]."""

    walls_mm2: float = 0.0
    cut_mm: float = 0.0
    parting_mm: float = 0.0


def steps_of(strategy: Strategy, job: Quantities, steps: Sequence[StepPlan], lengths: Lengths) -> tuple[StepPlan, ...]:
    """The steps that a kind of mold takes, as far as minutes and waits go.

    Parameters
    ----------
    strategy : which kind; of a glove the steps stay as they are.
    job : the quantities of that kind.
    steps : that the plan would write of them.
    lengths : what its own work counts.

    Minutes are common practice, no source; waits are the sheets'.
    """
    if strategy is Strategy.GLOVE:
        return tuple(steps)
    data, homes = _data(strategy), {draft.id: draft.sheet.id for draft in drafts(job)}
    numbers = {**job_numbers(job), **_numbers(lengths)}
    return tuple(_woven(steps, homes, data, numbers, job))


def _woven(
    steps: Sequence[StepPlan], homes: Mapping[StepId, str], data: Mapping[str, Any], numbers: Numbers, job: Quantities
) -> Iterator[StepPlan]:
    """The steps that stay, each with the work that follows it; also that which follows one that is left out."""
    for step in steps:
        home = homes[step.id]
        if home not in data["without"]:
            yield step
        for number, work in enumerate(data["work"]):
            if work["after"] == home:
                yield _own(step, number, work, numbers, job)


def _own(after: StepPlan, number: int, work: Mapping[str, Any], numbers: Numbers, job: Quantities) -> StepPlan:
    """Done as often as what it follows."""
    return StepPlan(
        id=StepId(OWN.format(number)),
        phase=after.phase,
        coat=None,
        per=after.per,
        title=Line("", work["what"]),
        labor_min=round(sum(minutes * numbers[name] for name, minutes in work["labor"].items()), 1),
        wait_min=_wait_min(work.get("wait"), job),
        needs=(),
        do=(),
        before=(),
        write=(),
        cautions=(),
        mixes=(),
        lift_kg=None,
        quantities=(),
    )


def _wait_min(wait: Any, job: Quantities) -> Range | None:
    if wait is None:
        return None
    return wait_s(Wait(wait), job) * (1.0 / 60.0) if isinstance(wait, str) else Range(*map(float, wait))


def _numbers(lengths: Lengths) -> Numbers:
    return {
        "box.dm2": lengths.walls_mm2 / MM2_DM2,
        "cut.m": lengths.cut_mm / MM_M,
        "parting.m": lengths.parting_mm / MM_M,
    }


@cache
def _data(strategy: Strategy) -> Mapping[str, Any]:
    found: Mapping[str, Any] = read_data("other_molds")[strategy]
    return found
