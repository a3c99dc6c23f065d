"""Cups without a scale: parts by volume, to the marks of a cup; a hardener by syringe; powder loose, to the mark."""

from __future__ import annotations

from dataclasses import replace
from functools import lru_cache
from math import inf

from moldwright.errors import NoSafePlan
from moldwright.mixing.cup import CupLimit, cup_count
from moldwright.mixing.cups import MOST_SURPLUS, MOST_SURPLUS_G
from moldwright.mixing.marked_portion import Marked, in_syringes, rising, unit_ml
from moldwright.mixing.recipe import Recipe
from moldwright.plan.mixes import MixFor, MixPlan, PartKind, mix_id
from moldwright.ways import figure, named_key

TAKEN = 0.05
"""The least share by which a ratio that is measured to marks may be off: who measures so takes it; common practice, no
source."""
MORE_TO_MARKS = 1.1
"""By how much more a cup to marks may hold than one from two syringes: common practice, no source."""
USUAL_MARKS_ML = (100.0, 50.0, 25.0, 20.0, 10.0, 5.0, 2.0, 1.0)
"""Steps of the usual marked cups [ml]: common practice, no source."""


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
    held = (made.mass_g for made in rising(recipe, 0.0, marks_ml) if made.tolerance <= allowed(recipe))
    return next(held, inf)


def _held(recipe: Recipe, from_g: float, most_g: float, marks_ml: float) -> Marked | None:
    """The least cup of at least this mass whose ratio is held, and that can be stirred; a small one from two syringes,
    where its marks ask for much more."""
    to_marks = next((made for made in rising(recipe, from_g, marks_ml) if _ends(made, recipe, most_g)), None)
    drawn = next((made for made in in_syringes(recipe, from_g) if _ends(made, recipe, most_g)), None)
    ways = [made for made in (to_marks, drawn) if made is not None and _holds(made, recipe, most_g)]
    if len(ways) > 1 and ways[0].mass_g <= MORE_TO_MARKS * ways[1].mass_g:
        return ways[0]
    return min(ways, key=lambda made: made.mass_g, default=None)


def _holds(made: Marked, recipe: Recipe, most_g: float) -> bool:
    return made.tolerance <= allowed(recipe) and made.mass_g <= most_g + 1e-9


def _ends(made: Marked, recipe: Recipe, most_g: float) -> bool:
    """Whether it holds, or no larger one can be stirred."""
    return made.tolerance <= allowed(recipe) or made.mass_g > most_g + 1e-9


def _fits(made: Marked, total_g: float, count: int, limit: CupLimit) -> bool:
    over_g = made.mass_g * count - total_g
    in_time = total_g / count * limit.clock.hand_s_per_g <= limit.clock.left_s(made.mass_g)
    return over_g <= max(MOST_SURPLUS_G, MOST_SURPLUS * total_g) and in_time


def _numbered(
    for_: MixFor, count: int, made: Marked, need_g: float, recipe: Recipe, limit: CupLimit, marks_ml: float
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
        ratio_within_pct=round(100.0 * allowed(recipe), 3),
        most_g=round(max(limit.holds_g(need_g), made.mass_g), 1),
    )
    return tuple(replace(first, id=mix_id(for_, cup), cup=cup) for cup in range(1, count + 1))


def _ratio(recipe: Recipe) -> float | None:
    """Milliliters of the later part for one of the earlier."""
    if not recipe.two_part:
        return None
    first, second = recipe.pair
    return round(unit_ml(second) / unit_ml(first), 6)


def _refusal(need_g: float, recipe: Recipe, limit: CupLimit, marks_ml: float) -> NoSafePlan:
    """What would do instead: finer marks, where some of the usual ones do, else a scale."""
    best = min(made.tolerance for _, made in zip(range(3), rising(recipe, need_g, marks_ml), strict=False))
    finer = (usual_ml for usual_ml in USUAL_MARKS_ML if usual_ml < marks_ml)
    does = next((fine_ml for fine_ml in finer if _does(recipe, need_g, limit, fine_ml)), None)
    cup, larger = figure(round(need_g, 1), "g"), named_key("shop.cup")
    if does:
        remedy = (
            f"In a cup of {cup} marks every {figure(marks_ml, 'ml')} do not hold the ratio. Take cups marked every "
            f"{figure(does, 'ml')} ({named_key('shop.marks')}), or a slower class in larger cups ({larger})."
        )
    else:
        remedy = (
            f"In a cup of {cup} marks every {figure(marks_ml, 'ml')} do not hold the ratio. Weigh it "
            f"({named_key('shop.measure')}), or a slower class in larger cups ({larger})."
        )
    return NoSafePlan(
        "ratio-not-held",
        round(100.0 * best, 1),
        round(100.0 * allowed(recipe), 1),
        "%",
        remedy,
    )


def _does(recipe: Recipe, need_g: float, limit: CupLimit, marks_ml: float) -> bool:
    made = _held(recipe, need_g, limit.cup_g, marks_ml)
    return made is not None and _fits(made, need_g, 1, limit)
