"""One cup without a scale, part by part: to a mark, by syringe, or a trace on a stick."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import accumulate
from math import ceil, sqrt

from moldwright.mixing.recipe import Ingredient, Recipe
from moldwright.mixing.syringe import Syringe, part_uncertainty_ml, that_hold
from moldwright.mixing.weighing import COVERAGE, mass_tolerance, part_uncertainty_g, ratio_tolerance
from moldwright.plan.mixes import DRY, TRACES, MeasuredBy, MixPart, PartKind

MET_WITHIN = 0.5
"""A cup is filled *to* a mark, met within a quarter of a step either way: half the step that a reading would be off;
common practice, no source."""
SYRINGE_MOST = 0.15
"""Up to this share of A and B by volume the smaller is drawn by syringe: common practice, no source."""
MOST_DRAWN_ML = 20.0
"""Up to so much of A and of B is drawn by syringe [ml]: common practice, no source."""
MOST_MARKS = 2000


@dataclass(frozen=True, slots=True)
class _Amount:
    volume_ml: float
    by: MeasuredBy
    syringe: Syringe | None = None


@dataclass(frozen=True, slots=True)
class Marked:
    """One cup, and the share by which its ratio (of one part alone its amount) may be off."""

    parts: tuple[MixPart, ...]
    mass_g: float
    tolerance: float


def rising(recipe: Recipe, from_g: float, marks_ml: float) -> Iterator[Marked]:
    """Cups of one more mark of their leading part each, from this mass on.

    Parameters
    ----------
    recipe : the parts
    from_g : the least mass, all parts together [g], >= 0
    marks_ml : the step of the marks [ml], > 0

    Source: common practice, no source; tolerance by JCGM 100:2008, F.2.2.1 (from memory).
    """
    lead = _lead(recipe)
    per_mark_g = marks_ml * lead.density_g_ml * recipe.whole / lead.share
    first = max(ceil(from_g / per_mark_g - 1e-9), 1)
    for marks in range(first, first + MOST_MARKS):
        made = _cup(recipe, lead, marks * marks_ml, marks_ml)
        if made.mass_g >= from_g - 1e-9:
            yield made


def in_syringes(recipe: Recipe, mass_g: float) -> Iterator[Marked]:
    """Small cups of at least this mass, rising, A and B each from a syringe; none where that is too much to draw.

    Parameters
    ----------
    recipe : the parts
    mass_g : all parts together [g], > 0

    Source: common practice, no source; tolerance by JCGM 100:2008, F.2.2.1 (from memory).
    """
    if not recipe.two_part or any(part.kind in DRY for part in recipe.pair):
        return
    small, large = _by_size(recipe)
    ratio, need_ml = unit_ml(large) / unit_ml(small), mass_g / recipe.whole * unit_ml(small)
    while need_ml * ratio <= MOST_DRAWN_ML:
        few = _drawn(need_ml, up=True)
        yield _from_two(recipe, few, _drawn(few.volume_ml * ratio, up=False))
        need_ml = few.volume_ml + (few.syringe.step_ml if few.syringe else need_ml)


def _from_two(recipe: Recipe, few: _Amount, many: _Amount) -> Marked:
    """The whole cup round what two syringes hold of A and B."""
    small, large = _by_size(recipe)
    pair, per_share = {small.kind: few, large.kind: many}, few.volume_ml / unit_ml(small)
    amounts = [
        pair.get(part.kind) or _amount(part, per_share * unit_ml(part), recipe, 1.0) for part in recipe.ingredients
    ]
    off = abs(many.volume_ml / few.volume_ml / (unit_ml(large) / unit_ml(small)) - 1.0)
    read = COVERAGE * sqrt(sum((_read_ml(each) / each.volume_ml) ** 2 for each in (few, many)))
    parts = _parts(recipe, amounts)
    return Marked(parts, round(sum(part.mass_g for part in parts), 9), off + read)


def _lead(recipe: Recipe) -> Ingredient:
    """The part whose marks are counted: the smaller one of A and B, the larger where the smaller is drawn by syringe;
    else the first."""
    if not recipe.two_part:
        return recipe.ingredients[0]
    small, large = _by_size(recipe)
    return large if _drawn_apart(small, large) else small


def _by_size(recipe: Recipe) -> tuple[Ingredient, Ingredient]:
    first, second = recipe.pair
    return (first, second) if unit_ml(first) < unit_ml(second) else (second, first)


def unit_ml(part: Ingredient) -> float:
    """What its share takes up [ml], on the recipe's scale.

    Parameters
    ----------
    part : an ingredient

    Source: arithmetic.
    """
    return part.share / part.density_g_ml


def _drawn_apart(small: Ingredient, large: Ingredient) -> bool:
    return unit_ml(small) / (unit_ml(small) + unit_ml(large)) <= SYRINGE_MOST


def _cup(recipe: Recipe, lead: Ingredient, lead_ml: float, marks_ml: float) -> Marked:
    per_share = lead_ml / unit_ml(lead)
    amounts = [
        _Amount(lead_ml, MeasuredBy.MARKS)
        if part is lead
        else _amount(part, per_share * unit_ml(part), recipe, marks_ml)
        for part in recipe.ingredients
    ]
    parts = _parts(recipe, amounts)
    return Marked(parts, round(sum(part.mass_g for part in parts), 9), _tolerance(recipe, amounts, marks_ml))


def _amount(part: Ingredient, volume_ml: float, recipe: Recipe, marks_ml: float) -> _Amount:
    if part.kind in TRACES:
        return _Amount(volume_ml, MeasuredBy.STICK)
    if _by_syringe(part, recipe):
        for syringe in that_hold(volume_ml):
            return _Amount(max(round(volume_ml / syringe.step_ml), 1) * syringe.step_ml, MeasuredBy.SYRINGE, syringe)
    return _Amount(max(round(volume_ml / marks_ml), 1) * marks_ml, MeasuredBy.MARKS)


def _by_syringe(part: Ingredient, recipe: Recipe) -> bool:
    """A hardener, or a little of another liquid."""
    if part.kind in DRY or part.kind is PartKind.WATER:
        return False
    return part not in recipe.pair or _drawn_apart(*_by_size(recipe))


def _drawn(volume_ml: float, up: bool) -> _Amount:
    """So much in whole steps of the smallest syringe that holds it, no less where it counts up."""
    syringe = next(iter(that_hold(volume_ml)))
    steps = volume_ml / syringe.step_ml
    whole = ceil(steps - 1e-9) if up else round(steps)
    return _Amount(max(whole, 1) * syringe.step_ml, MeasuredBy.SYRINGE, syringe)


def _read_ml(amount: _Amount) -> float:
    return part_uncertainty_ml(amount.syringe) if amount.syringe else 0.0


def _parts(recipe: Recipe, amounts: list[_Amount]) -> tuple[MixPart, ...]:
    masses = [
        round(amount.volume_ml * part.density_g_ml, 4) for part, amount in zip(recipe.ingredients, amounts, strict=True)
    ]
    risen = accumulate(mass / part.true_density_g_ml for part, mass in zip(recipe.ingredients, masses, strict=True))
    return tuple(
        MixPart(
            kind=part.kind,
            name=part.name,
            mass_g=mass_g,
            volume_ml=round(amount.volume_ml, 4),
            scale_reads_g=round(reads_g, 4),
            by=amount.by,
            reads_ml=round(reads_ml, 2),
            syringe_ml=amount.syringe.size_ml if amount.syringe else None,
        )
        for part, amount, mass_g, reads_g, reads_ml in zip(
            recipe.ingredients, amounts, masses, accumulate(masses), risen, strict=True
        )
    )


def _tolerance(recipe: Recipe, amounts: list[_Amount], marks_ml: float) -> float:
    """What rounding does to the ratio and, at k = 2, what reading may."""
    met_ml = MET_WITHIN * marks_ml
    if not recipe.two_part:
        return mass_tolerance(met_ml, amounts[0].volume_ml)
    small, large = _by_size(recipe)
    few, many = (amounts[recipe.ingredients.index(part)] for part in (small, large))
    off = abs(many.volume_ml / few.volume_ml / (unit_ml(large) / unit_ml(small)) - 1.0)
    if few.syringe is None:
        return off + ratio_tolerance(met_ml, many.volume_ml, few.volume_ml)
    drawn = part_uncertainty_ml(few.syringe) / few.volume_ml
    return off + COVERAGE * sqrt((part_uncertainty_g(met_ml) / many.volume_ml) ** 2 + drawn**2)
