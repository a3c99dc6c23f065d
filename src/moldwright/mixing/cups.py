"""From an amount and a recipe to cups: every part with its mass, volume and the scale's running total."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import accumulate

from moldwright.mixing.cup import CupLimit, equal_cups
from moldwright.mixing.recipe import Recipe
from moldwright.mixing.scale_steps import apportion, grams, steps_of
from moldwright.mixing.weighing import mass_tolerance, ratio_tolerance, smallest_batch_g

RATIO_TOLERANCE = 0.02
"""By how much a mix ratio may be off before a smaller batch is cautioned against: common practice, no source."""


@dataclass(frozen=True, slots=True)
class CupPart:
    """One part in its order; `scale_reads_g` with the empty cup zeroed once."""

    name: str
    mass_g: float
    volume_ml: float
    scale_reads_g: float


@dataclass(frozen=True, slots=True)
class Cup:
    """One cup, counted from 1."""

    number: int
    parts: tuple[CupPart, ...]
    work_by_s: float
    tolerance_pct: float
    smallest_batch_g: float

    @property
    def mass_g(self) -> float:
        return self.parts[-1].scale_reads_g


def cups_of(total_g: float, recipe: Recipe, limit: CupLimit, step_g: float) -> tuple[Cup, ...]:
    """Equal cups that together hold `total_g`, all parts counted.

    Running totals are rounded to the scale's step and the parts are their differences, so a sheet asks only for what
    the scale can show; the cups sum to the total, itself rounded to the scale's step.

    Parameters
    ----------
    total_g : mass needed, all parts together [g], >= 0
    recipe : the parts in their order
    limit : what one cup may hold
    step_g : the scale's step [g], > 0

    Source: arithmetic; tolerance and smallest batch by JCGM 100:2008, F.2.2.1 (from memory).

    >>> from moldwright.mixing.recipe import Recipe, liquid
    >>> mix = Recipe((liquid("A", 1, 1.0), liquid("B", 1, 1.0)), ("A", "B"))
    >>> [part.scale_reads_g for part in cups_of(82.8, mix, CupLimit(100.0, "cup", 900.0), 0.1)[0].parts]
    [41.4, 82.8]
    """
    masses = equal_cups(total_g, limit.max_g, step_g)
    least = _smallest_g(recipe, step_g)
    return tuple(_cup(i + 1, mass_g, recipe, limit, step_g, least) for i, mass_g in enumerate(masses))


def _cup(number: int, mass_g: float, recipe: Recipe, limit: CupLimit, step_g: float, least_g: float) -> Cup:
    split = apportion(steps_of(mass_g, step_g), tuple(part.share for part in recipe.ingredients))
    reads = accumulate(split)
    parts = tuple(
        CupPart(
            part.name, grams(steps, step_g), round(grams(steps, step_g) / part.density_g_ml, 2), grams(read, step_g)
        )
        for part, steps, read in zip(recipe.ingredients, split, reads, strict=True)
    )
    return Cup(number, parts, limit.work_by_of(mass_g), _tolerance_pct(mass_g, recipe, step_g), least_g)


def _tolerance_pct(mass_g: float, recipe: Recipe, step_g: float) -> float:
    """The correlated form even where a trace of pigment lies between the two parts: it is never too small."""
    if recipe.pair is None:
        return 100.0 * mass_tolerance(step_g, mass_g)
    a, b = (mass_g * recipe.fraction(name) for name in recipe.pair)
    return 100.0 * ratio_tolerance(step_g, a, b)


def _smallest_g(recipe: Recipe, step_g: float) -> float:
    """Smallest batch, all parts counted [g]."""
    if recipe.pair is None:
        return mass_tolerance(step_g, 1.0) / RATIO_TOLERANCE
    a, b = (recipe.fraction(name) for name in recipe.pair)
    return smallest_batch_g(step_g, (a, b), RATIO_TOLERANCE) / (a + b)
