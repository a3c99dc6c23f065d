"""From an amount and a recipe to cups: every part with its mass, volume and the scale's running total."""

from __future__ import annotations

from itertools import accumulate
from math import inf

from moldwright.mixing.cup import CupClock, CupLimit, equal_cups
from moldwright.mixing.recipe import Recipe
from moldwright.mixing.scale_steps import apportion, grams, steps_of
from moldwright.mixing.weighing import mass_tolerance, ratio_tolerance, smallest_batch_g
from moldwright.plan.mixes import TRACES, MeasuredBy, MixFor, MixPart, MixPlan, PartKind, mix_id

RATIO_TOLERANCE = 0.02
"""By how much a mix ratio may be off before a smaller batch is cautioned against: common practice, no source."""


def cups_of(for_: MixFor, total_g: float, recipe: Recipe, limit: CupLimit, step_g: float) -> tuple[MixPlan, ...]:
    """Equal cups that together hold `total_g`, all parts counted.

    Running totals are rounded to the scale's step and the parts are their differences, so a sheet asks only for what
    the scale can show; the cups sum to the total, itself rounded to the scale's step.

    Parameters
    ----------
    for_ : what they are for
    total_g : mass needed, all parts together [g], >= 0
    recipe : the parts in their order
    limit : what one cup may hold
    step_g : the scale's step [g], > 0

    Source: arithmetic; tolerance and smallest batch by JCGM 100:2008, F.2.2.1 (from memory).

    >>> from moldwright.mixing.recipe import Recipe, liquid
    >>> from moldwright.mixing.cup import CupClock
    >>> from moldwright.plan.mixes import SKIN, TaskKind
    >>> mix = Recipe((liquid(PartKind.A, 1, 1.0), liquid(PartKind.B, 1, 1.0)))
    >>> limit = CupLimit(100.0, CupClock(900.0, 60.0, TaskKind.POUR, 0.1))
    >>> [part.scale_reads_g for part in cups_of(SKIN, 82.8, mix, limit, 0.1)[0].parts]
    [41.4, 82.8]
    """
    masses = equal_cups(total_g, limit.max_g, step_g)
    least_g = round(_smallest_g(recipe, step_g), 2)
    return tuple(
        MixPlan(
            id=mix_id(for_, number),
            for_=for_,
            cup=number,
            parts=_parts(mass_g, recipe, step_g),
            tasks=limit.clock.tasks(mass_g, mass_g),
            work_by_s=_work_by_s(limit.clock, mass_g),
            tolerance_pct=round(_tolerance_pct(mass_g, recipe, step_g), 3),
            smallest_batch_g=least_g,
        )
        for number, mass_g in enumerate(masses, start=1)
    )


def _work_by_s(clock: CupClock, mass_g: float) -> float | None:
    by_s = clock.work_by_s(mass_g)
    return None if by_s == inf else round(by_s, 1)


def _parts(mass_g: float, recipe: Recipe, step_g: float) -> tuple[MixPart, ...]:
    split = apportion(steps_of(mass_g, step_g), tuple(part.share for part in recipe.ingredients))
    masses = [grams(steps, step_g) for steps in split]
    risen = accumulate(mass / part.true_density_g_ml for mass, part in zip(masses, recipe.ingredients, strict=True))
    return tuple(
        MixPart(
            kind=part.kind,
            name=part.name,
            mass_g=mass,
            volume_ml=round(mass / part.density_g_ml, 2),
            scale_reads_g=grams(read, step_g),
            by=MeasuredBy.STICK if part.kind in TRACES else MeasuredBy.SCALE,
            reads_ml=round(risen_ml, 2),
        )
        for part, mass, read, risen_ml in zip(recipe.ingredients, masses, accumulate(split), risen, strict=True)
    )


def _tolerance_pct(mass_g: float, recipe: Recipe, step_g: float) -> float:
    """The correlated form even where a trace of pigment lies between the two parts: it is never too small."""
    if not recipe.two_part:
        return 100.0 * mass_tolerance(step_g, mass_g)
    a, b = (mass_g * recipe.fraction(kind) for kind in (PartKind.A, PartKind.B))
    return 100.0 * ratio_tolerance(step_g, a, b)


def _smallest_g(recipe: Recipe, step_g: float) -> float:
    """Smallest batch, all parts counted [g]."""
    if not recipe.two_part:
        return mass_tolerance(step_g, 1.0) / RATIO_TOLERANCE
    a, b = (recipe.fraction(kind) for kind in (PartKind.A, PartKind.B))
    return smallest_batch_g(step_g, (a, b), RATIO_TOLERANCE) / (a + b)
