"""Cups as the plan holds them."""

from __future__ import annotations

from moldwright.mixing.cup import CupLimit
from moldwright.mixing.cups import Cup, cups_of
from moldwright.mixing.recipe import Recipe
from moldwright.plan.plan import MixPart, MixPlan


def mix_plans(for_: str, total_g: float, recipe: Recipe, limit: CupLimit, step_g: float) -> tuple[MixPlan, ...]:
    """The cups of one coat, skin or back-fill.

    Parameters
    ----------
    for_ : a coat's name, "skin" or "back-fill"
    total_g : all parts together [g], >= 0
    recipe : parts in their order
    limit : what one cup may hold
    step_g : the scale's step [g], > 0

    Source: `mixing.cups.cups_of`.
    """
    return tuple(_plan(for_, cup) for cup in cups_of(total_g, recipe, limit, step_g))


def _plan(for_: str, cup: Cup) -> MixPlan:
    parts = tuple(MixPart(part.name, part.mass_g, part.volume_ml, part.scale_reads_g) for part in cup.parts)
    return MixPlan(
        for_, cup.number, parts, round(cup.work_by_s, 1), round(cup.tolerance_pct, 3), round(cup.smallest_batch_g, 2)
    )
