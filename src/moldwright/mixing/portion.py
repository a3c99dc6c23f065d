"""One cup, part by part: how much of each, measured how, and how well that holds the ratio.

The smaller one of A and B is taken first, in whole steps of what measures it, then the larger from the ratio: what the
rounding does to the ratio is half a step of the larger part.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import lru_cache
from itertools import accumulate, islice
from math import ceil, sqrt

from moldwright.mixing.recipe import Ingredient, Recipe
from moldwright.mixing.scale_steps import grams, steps_of
from moldwright.mixing.syringe import SYRINGES, Syringe, part_uncertainty_ml, that_hold
from moldwright.mixing.weighing import (
    COVERAGE,
    mass_tolerance,
    part_uncertainty_g,
    ratio_tolerance,
    smallest_batch_g,
    smallest_weighed_g,
)
from moldwright.plan.mixes import TRACES, MeasuredBy, MixPart

SYRINGE_SHARE = 0.035
"""Up to this share of A and B, or of the mix, a liquid part is measured by syringe rather than on the scale: common
practice, no source (hardeners of 1 to 3 %)."""
SYRINGE_MOST = 0.15
"""Up to this share of A and B one of them is measured by syringe where the scale does not hold the ratio: a hardener or
catalyst, not a thick base; common practice, no source."""
ROUGHLY = 0.2
"""How far a thixotropic agent may be off: common practice, no source (a little more or less of it)."""
STEPS_TRIED = 50


@dataclass(frozen=True, slots=True)
class Portion:
    """The parts of one cup, and the share by which their ratio (of one part alone its mass) may be off as measured."""

    parts: tuple[MixPart, ...]
    mass_g: float
    tolerance: float


@dataclass(frozen=True, slots=True)
class _Amount:
    """What goes in of one part, and how it is measured."""

    mass_g: float
    by: MeasuredBy
    volume_ml: float
    syringe: Syringe | None = None


def portion(recipe: Recipe, mass_g: float, step_g: float) -> Portion | None:
    """A cup of at least this mass whose ratio is held; None where neither scale nor syringe holds it. One part alone
    has no ratio.

    Parameters
    ----------
    recipe : the parts in their order, and by how much their ratio may be off
    mass_g : all parts together [g], > 0; a little more is taken where the small part's step asks for it
    step_g : the scale's step [g], > 0

    Source: common practice, no source; tolerances by JCGM 100:2008 (from memory).
    """
    ways = _ways(recipe, mass_g, step_g)
    return next((made for made in ways if not recipe.two_part or made.tolerance <= recipe.tolerance), None)


def best_tolerance(recipe: Recipe, mass_g: float, step_g: float) -> float:
    """The least share by which the ratio of a cup of this mass may be off, whatever measures it.

    Parameters
    ----------
    recipe : the parts
    mass_g : all parts together [g], > 0
    step_g : the scale's step [g], > 0

    Source: JCGM 100:2008 (from memory).
    """
    return min(made.tolerance for made in _ways(recipe, mass_g, step_g))


@lru_cache(maxsize=256)
def smallest(recipe: Recipe, step_g: float, from_g: float = 0.0) -> Portion:
    """The least cup whose ratio is held; of one part alone, whose mass is known as well.

    Parameters
    ----------
    recipe : the parts, and by how much their ratio may be off
    step_g : the scale's step [g], > 0
    from_g : no lighter than this [g]

    Source: JCGM 100:2008 (from memory).
    """
    if not recipe.two_part:
        return next(_ways(recipe, max(smallest_weighed_g(step_g, recipe.tolerance), from_g), step_g))
    small, _ = _pair(recipe)
    least_g = from_g * small.share / recipe.whole
    found: list[Portion] = []
    for smalls in _candidates(recipe, step_g, least_g):
        heavy = (small_g * recipe.whole / small.share for small_g in smalls if small_g >= least_g)
        made = (portion(recipe, mass_g, step_g) for mass_g in heavy)
        found += islice((each for each in made if each is not None), 1)
    return min(found, key=lambda each: each.mass_g)


def _candidates(recipe: Recipe, step_g: float, from_g: float) -> Iterator[list[float]]:
    """Masses of the small part from which on the scale, or a syringe, may hold the ratio [g], each list rising; the
    first one's last surely does."""
    small, large = _pair(recipe)
    ratio = large.share / small.share
    least_g = max(smallest_batch_g(step_g, (ratio, 1.0), recipe.tolerance) / (1.0 + ratio), from_g)
    first = max(int(least_g / step_g), 1)
    yield [*(grams(first + extra, step_g) for extra in range(STEPS_TRIED)), 4.0 * least_g + step_g]
    for syringe in SYRINGES:
        marks = round(syringe.size_ml / syringe.step_ml)
        yield [mark * syringe.step_ml * small.density_g_ml for mark in range(1, marks + 1)]


def _ways(recipe: Recipe, mass_g: float, step_g: float) -> Iterator[Portion]:
    """The ways to measure the small part, the usual one first."""
    if not recipe.two_part:
        alone = ceil(mass_g * recipe.ingredients[0].share / recipe.whole / step_g - 1e-6)
        first = _weighed(recipe.ingredients[0], grams(max(alone, 1), step_g))
        made = _made(recipe, {0: first}, first.mass_g / recipe.ingredients[0].share, step_g)
        yield Portion(made, _whole(made), mass_tolerance(step_g, first.mass_g))
        return
    small, large = _pair(recipe)
    share = small.share / (small.share + large.share)
    need_g = mass_g * small.share / recipe.whole
    sizes = that_hold(need_g / small.density_g_ml) if share <= SYRINGE_MOST else ()
    by_syringe = [_drawn(small, need_g, syringe) for syringe in sizes]
    on_scale = _weighed(small, grams(max(ceil(need_g / step_g - 1e-6), 1), step_g))
    for amount in [*by_syringe, on_scale] if share <= SYRINGE_SHARE else [on_scale, *by_syringe]:
        yield _with(recipe, small, large, amount, step_g)


def _with(recipe: Recipe, small: Ingredient, large: Ingredient, amount: _Amount, step_g: float) -> Portion:
    """The whole cup round an amount of the small part."""
    ratio = large.share / small.share
    rest = _weighed(large, grams(max(steps_of(amount.mass_g * ratio, step_g), 1), step_g))
    places = {recipe.ingredients.index(small): amount, recipe.ingredients.index(large): rest}
    made = _made(recipe, places, amount.mass_g / small.share, step_g)
    off = abs(rest.mass_g / amount.mass_g / ratio - 1.0)
    return Portion(made, _whole(made), off + _read_within(amount, rest, step_g))


def _read_within(small: _Amount, large: _Amount, step_g: float) -> float:
    """The share by which readings may put the ratio off, k = 2."""
    if small.syringe is None:
        return ratio_tolerance(step_g, large.mass_g, small.mass_g)
    drawn = part_uncertainty_ml(small.syringe) / small.volume_ml
    return COVERAGE * sqrt((part_uncertainty_g(step_g) / large.mass_g) ** 2 + drawn**2)


def _pair(recipe: Recipe) -> tuple[Ingredient, Ingredient]:
    """The smaller one of A and B, and the larger."""
    first, second = recipe.pair
    return (first, second) if first.share < second.share else (second, first)


def _made(recipe: Recipe, places: dict[int, _Amount], grams_per_share: float, step_g: float) -> tuple[MixPart, ...]:
    amounts = [
        places.get(number) or _extra(part, part.share * grams_per_share, step_g, recipe)
        for number, part in enumerate(recipe.ingredients)
    ]
    told = list(zip(recipe.ingredients, amounts, strict=True))
    reads_g = accumulate(amount.mass_g for amount in amounts)
    reads_ml = accumulate(amount.mass_g / part.true_density_g_ml for part, amount in told)
    return tuple(
        MixPart(
            kind=part.kind,
            name=part.name,
            mass_g=amount.mass_g,
            volume_ml=round(amount.volume_ml, 2),
            scale_reads_g=grams(steps_of(read_g, step_g), step_g),
            by=amount.by,
            reads_ml=round(read_ml, 2),
            syringe_ml=amount.syringe.size_ml if amount.syringe else None,
        )
        for (part, amount), read_g, read_ml in zip(told, reads_g, reads_ml, strict=True)
    )


def _extra(part: Ingredient, mass_g: float, step_g: float, recipe: Recipe) -> _Amount:
    """A part that is neither A nor B: a trace on a stick, a few milliliters by syringe, else on the scale."""
    if part.kind in TRACES:
        return _Amount(round(mass_g, 4), MeasuredBy.STICK, mass_g / part.density_g_ml)
    if part.liquid and part.share / recipe.whole <= SYRINGE_SHARE:
        for syringe in that_hold(mass_g / part.density_g_ml):
            drawn = _drawn(part, mass_g, syringe)
            if COVERAGE * part_uncertainty_ml(syringe) <= ROUGHLY * drawn.volume_ml:
                return drawn
    return _weighed(part, grams(steps_of(mass_g, step_g), step_g))


def _weighed(part: Ingredient, mass_g: float) -> _Amount:
    return _Amount(mass_g, MeasuredBy.SCALE, mass_g / part.density_g_ml)


def _drawn(part: Ingredient, mass_g: float, syringe: Syringe) -> _Amount:
    """At least this mass in whole steps of a syringe."""
    marks = max(ceil(mass_g / part.density_g_ml / syringe.step_ml - 1e-6), 1)
    volume_ml = round(marks * syringe.step_ml, 4)
    return _Amount(round(volume_ml * part.density_g_ml, 4), MeasuredBy.SYRINGE, volume_ml, syringe)


def _whole(parts: Iterable[MixPart]) -> float:
    return round(sum(part.mass_g for part in parts), 9)
