"""What a step's wait is the cure of, and how long the next may be put off before it is too late."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from types import MappingProxyType

from moldwright.plan.clocks import CurePlan, Curing
from moldwright.plan.mixes import MixKind
from moldwright.plan.steps import StepPlan
from moldwright.quantities.quantities import Quantities
from moldwright.ranges import Range
from moldwright.steps.draft import Draft
from moldwright.steps.waits import Wait, wait_s

CURED_IN: Mapping[Wait, tuple[Curing, ...]] = MappingProxyType(
    {
        Wait.TACK_WINDOW: (Curing.RUBBER,),
        Wait.COAT_LAYERS: (Curing.RUBBER,),
        Wait.FILL_LAYERS: (Curing.RUBBER,),
        Wait.RUBBER_DEMOLD: (Curing.RUBBER,),
        Wait.RUBBER_FULL_CURE: (Curing.RUBBER,),
        Wait.RESIN_TACK: (Curing.SKIN,),
        Wait.FILL_TACK: (Curing.BACK_FILL,),
        Wait.CAST_DEMOLD: (Curing.SKIN, Curing.BACK_FILL),
    }
)
"""Whose cure a wait is; what is not here dries or sets, or does both after a cure."""


def cures(job: Quantities) -> tuple[CurePlan, ...]:
    """What cures by itself in this job.

    Parameters
    ----------
    job : the chosen sheets and their lives in this shop.
    """
    chosen, lives = job.basis.chosen, job.basis.lives
    told = [
        CurePlan(Curing.RUBBER, chosen.rubber.activation_kj_mol.range, lives.rubber.pot_life_s),
        CurePlan(Curing.SKIN, chosen.resin.activation_kj_mol.range, lives.resin.pot_life_s),
    ]
    if chosen.backfill is not None and lives.backfill is not None:
        energy = chosen.backfill.activation_kj_mol.range
        told.append(CurePlan(Curing.BACK_FILL, energy, lives.backfill.pot_life_s))
    return tuple(told)


def cured_in(draft: Draft, job: Quantities) -> tuple[Curing, ...]:
    """Whose cure a step's wait is.

    Parameters
    ----------
    draft : the step.
    job : the chosen sheets.
    """
    wait = draft.sheet.wait
    there = {each.of for each in cures(job)}
    return tuple(each for each in CURED_IN.get(wait, ()) if each in there) if isinstance(wait, Wait) else ()


def closing(draft: Draft, step: StepPlan, later: Sequence[Draft], job: Quantities) -> StepPlan:
    """The step with what must have begun while its own work is tacky: the next coat, else what is packed on the last;
    the back-fill behind a skin. A rubber that dries bonds to its own later layers.

    Parameters
    ----------
    draft, step : the step, which stands.
    later : those after it that stand.
    job : the chosen sheets and their lives in this shop.

    Source: the sheets' tack windows.
    """
    wait = draft.sheet.wait
    if wait in (Wait.TACK_WINDOW, Wait.FILL_LAYERS) and job.basis.chosen.rubber.two_part:
        coat, fill = (_next_with(kind, later, job) for kind in (MixKind.COAT, MixKind.FILL))
        return _within(step, wait_s(Wait.TACK_LATEST, job), coat or fill)
    if wait is Wait.RESIN_TACK and step.wait_min is not None:
        last_s = Range.exactly(step.wait_min.high * 60.0)
        return _within(step, last_s, _next_with(MixKind.BACK_FILL, later, job))
    return step


def _next_with(kind: MixKind, later: Sequence[Draft], job: Quantities) -> Draft | None:
    cups = {mix.id for mix in job.mixes if mix.for_.kind is kind}
    return next((draft for draft in later if cups.intersection(draft.mixes)), None)


def _within(step: StepPlan, latest_s: Range, next_: Draft | None) -> StepPlan:
    if next_ is None:
        return step
    latest = Range(*(round(each / 60.0, 1) for each in (latest_s.low, latest_s.likely, latest_s.high)))
    return replace(step, closes_min=latest, closes_for=next_.id)
