"""Cups without a scale: parts by volume, to the marks of a cup; a hardener by syringe; powder loose, to the mark."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import lru_cache
from itertools import accumulate
from math import ceil, inf, sqrt

from moldwright.errors import NoSafePlan
from moldwright.mixing.cup import CupLimit, cup_count
from moldwright.mixing.cups import MOST_SURPLUS, MOST_SURPLUS_G
from moldwright.mixing.recipe import Ingredient, Recipe
from moldwright.mixing.syringe import Syringe, part_uncertainty_ml, that_hold
from moldwright.mixing.weighing import COVERAGE, mass_tolerance, part_uncertainty_g, ratio_tolerance
from moldwright.plan.mixes import DRY, TRACES, MeasuredBy, MixFor, MixPart, MixPlan, PartKind, mix_id
from moldwright.text.shown import number

MET_WITHIN = 0.5
"""A cup is filled *to* a mark, met within a quarter of a step either way: half the step that a reading would be off;
common practice, no source."""
TAKEN = 0.05
"""The least share by which a ratio that is measured to marks may be off: who measures so takes it; common practice, no
source."""
SYRINGE_MOST = 0.15
"""Up to this share of A and B by volume the smaller is drawn by syringe: common practice, no source."""
USUAL_MARKS_ML = (100.0, 50.0, 25.0, 20.0, 10.0, 5.0, 2.0, 1.0)
"""Steps of the usual marked cups [ml]: common practice, no source."""
MOST_MARKS = 2000


@dataclass(frozen=True, slots=True)
class _Amount:
    volume_ml: float
    by: MeasuredBy
    syringe: Syringe | None = None


@dataclass(frozen=True, slots=True)
class _Marked:
    """One cup, and the share by which its ratio (of one part alone its amount) may be off."""

    parts: tuple[MixPart, ...]
    mass_g: float
    tolerance: float


def in_volumes(recipe: Recipe, ratio_volume: tuple[float, float]) -> Recipe:
    """The recipe with A and B in their ratio by volume, together as heavy as before.

    `share_a = (a + b) v_a rho_a / (v_a rho_a + v_b rho_b)`

    Parameters
    ----------
    recipe : the parts; one without A and B stays as it is
    ratio_volume : A to B, from the sheet

    Source: the sheet.
    """
    if not recipe.two_part:
        return recipe
    volume = dict(zip((PartKind.A, PartKind.B), ratio_volume, strict=True))
    heavy = {part.kind: volume[part.kind] * part.density_g_ml for part in recipe.pair}
    each = sum(part.share for part in recipe.pair) / sum(heavy.values())
    parts = (replace(p, share=heavy[p.kind] * each) if p.kind in heavy else p for p in recipe.ingredients)
    return replace(recipe, ingredients=tuple(parts))


def marked_cups_of(
    for_: MixFor, total_g: float, recipe: Recipe, limit: CupLimit, marks_ml: float
) -> tuple[MixPlan, ...]:
    """Equal cups that together hold at least `total_g`, every part to a mark.

    The fewest that can be used up in time; where the marks do not hold the ratio in so small a cup, a larger one, if
    what is over is little.

    Parameters
    ----------
    for_ : what they are for
    total_g : mass needed, all parts together [g], >= 0
    recipe : the parts in their order, A and B in their ratio by volume
    limit : what one cup may hold
    marks_ml : the step of the cup's marks [ml], > 0

    Raises NoSafePlan ("ratio-not-held", "too-many-cups"). Source: common practice, no source; tolerance by JCGM
    100:2008, F.2.2.1 (from memory).
    """
    if total_g <= 0.0:
        return ()
    fewest = cup_count(total_g, limit.max_g, 0.0)
    for count in range(fewest, 2 * fewest + 2):
        made = _held(recipe, total_g / count, limit.cup_g, marks_ml)
        if made is not None and _fits(made, total_g, count, limit):
            return _numbered(for_, count, made, total_g / count, recipe, limit, marks_ml)
    raise _refusal(total_g / fewest, recipe, limit, marks_ml)


def allowed(recipe: Recipe) -> float:
    """The share by which the ratio may be off when it is measured to marks.

    Parameters
    ----------
    recipe : the parts and their own tolerance

    Source: the recipe's; 5 % at least: common practice, no source.
    """
    return max(recipe.tolerance, TAKEN)


@lru_cache(maxsize=256)
def smallest_marked_g(recipe: Recipe, marks_ml: float) -> float:
    """The least cup whose ratio the marks hold [g]; of one part alone, whose amount they hold; inf where none does.

    Parameters
    ----------
    recipe : the parts
    marks_ml : the step of the marks [ml], > 0

    Source: JCGM 100:2008, F.2.2.1 (from memory).
    """
    held = (made.mass_g for made in _rising(recipe, 0.0, marks_ml) if made.tolerance <= allowed(recipe))
    return next(held, inf)


def _held(recipe: Recipe, from_g: float, most_g: float, marks_ml: float) -> _Marked | None:
    """The least cup of at least this mass whose ratio is held, and that can be stirred."""
    for made in _rising(recipe, from_g, marks_ml):
        if made.mass_g > most_g + 1e-9:
            return None
        if made.tolerance <= allowed(recipe):
            return made
    return None


def _fits(made: _Marked, total_g: float, count: int, limit: CupLimit) -> bool:
    over_g = made.mass_g * count - total_g
    in_time = total_g / count * limit.clock.hand_s_per_g <= limit.clock.left_s(made.mass_g)
    return over_g <= max(MOST_SURPLUS_G, MOST_SURPLUS * total_g) and in_time


def _numbered(
    for_: MixFor, count: int, made: _Marked, need_g: float, recipe: Recipe, limit: CupLimit, marks_ml: float
) -> tuple[MixPlan, ...]:
    by_s = limit.clock.work_by_s(made.mass_g)
    first = MixPlan(
        id=mix_id(for_, 1),
        for_=for_,
        cup=1,
        parts=made.parts,
        tasks=limit.clock.tasks(made.mass_g, need_g),
        work_by_s=None if by_s == inf else round(by_s, 1),
        tolerance_pct=round(100.0 * made.tolerance, 3),
        smallest_batch_g=round(smallest_marked_g(recipe, marks_ml), 2),
        surplus_g=round(made.mass_g - need_g, 2),
        ratio=_ratio(recipe),
    )
    return tuple(replace(first, id=mix_id(for_, cup), cup=cup) for cup in range(1, count + 1))


def _ratio(recipe: Recipe) -> float | None:
    """Milliliters of the later part for one of the earlier."""
    if not recipe.two_part:
        return None
    first, second = recipe.pair
    return round(_ml(second) / _ml(first), 6)


def _rising(recipe: Recipe, from_g: float, marks_ml: float) -> Iterator[_Marked]:
    """Cups of one more mark of their leading part each, from this mass on."""
    lead = _lead(recipe)
    per_mark_g = marks_ml * lead.density_g_ml * recipe.whole / lead.share
    first = max(ceil(from_g / per_mark_g - 1e-9), 1)
    for marks in range(first, first + MOST_MARKS):
        made = _cup(recipe, lead, marks * marks_ml, marks_ml)
        if made.mass_g >= from_g - 1e-9:
            yield made


def _lead(recipe: Recipe) -> Ingredient:
    """The part whose marks are counted: the smaller one of A and B, the larger where the smaller is drawn by syringe;
    else the first."""
    if not recipe.two_part:
        return recipe.ingredients[0]
    small, large = _by_size(recipe)
    return large if _drawn_apart(small, large) else small


def _by_size(recipe: Recipe) -> tuple[Ingredient, Ingredient]:
    first, second = recipe.pair
    return (first, second) if _ml(first) < _ml(second) else (second, first)


def _ml(part: Ingredient) -> float:
    return part.share / part.density_g_ml


def _drawn_apart(small: Ingredient, large: Ingredient) -> bool:
    return _ml(small) / (_ml(small) + _ml(large)) <= SYRINGE_MOST


def _cup(recipe: Recipe, lead: Ingredient, lead_ml: float, marks_ml: float) -> _Marked:
    per_share = lead_ml / _ml(lead)
    amounts = [
        _Amount(lead_ml, MeasuredBy.MARKS) if part is lead else _amount(part, per_share * _ml(part), recipe, marks_ml)
        for part in recipe.ingredients
    ]
    parts = _parts(recipe, amounts)
    return _Marked(parts, round(sum(part.mass_g for part in parts), 9), _tolerance(recipe, amounts, marks_ml))


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
    off = abs(many.volume_ml / few.volume_ml / (_ml(large) / _ml(small)) - 1.0)
    if few.syringe is None:
        return off + ratio_tolerance(met_ml, many.volume_ml, few.volume_ml)
    drawn = part_uncertainty_ml(few.syringe) / few.volume_ml
    return off + COVERAGE * sqrt((part_uncertainty_g(met_ml) / many.volume_ml) ** 2 + drawn**2)


def _refusal(need_g: float, recipe: Recipe, limit: CupLimit, marks_ml: float) -> NoSafePlan:
    """What would do instead: finer marks, where some of the usual ones do, else a scale."""
    best = min(made.tolerance for _, made in zip(range(3), _rising(recipe, need_g, marks_ml), strict=False))
    finer = (usual_ml for usual_ml in USUAL_MARKS_ML if usual_ml < marks_ml)
    does = next((fine_ml for fine_ml in finer if _does(recipe, need_g, limit, fine_ml)), None)
    cups = f"Take cups marked every {number(does)} ml (shop.marks)" if does else "Weigh it (shop.measure)"
    return NoSafePlan(
        "ratio-not-held",
        round(100.0 * best, 1),
        round(100.0 * allowed(recipe), 1),
        "%",
        f"In a cup of {number(round(need_g, 1))} g marks every {number(marks_ml)} ml do not hold the ratio. {cups}, or "
        "a slower class in larger cups (shop.cup).",
    )


def _does(recipe: Recipe, need_g: float, limit: CupLimit, marks_ml: float) -> bool:
    made = _held(recipe, need_g, limit.cup_g, marks_ml)
    return made is not None and _fits(made, need_g, 1, limit)
