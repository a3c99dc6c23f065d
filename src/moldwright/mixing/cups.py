"""From an amount and a recipe to cups: every part with its mass, volume, measure and the scale's running total."""

from __future__ import annotations

from dataclasses import replace
from math import inf

from moldwright.errors import NoSafePlan
from moldwright.mixing.cup import CupLimit, cup_count
from moldwright.mixing.portion import Portion, best_tolerance, portion, smallest
from moldwright.mixing.recipe import Recipe
from moldwright.mixing.scale_steps import steps_of
from moldwright.plan.mixes import MixFor, MixPlan, mix_id
from moldwright.ways import figure, named_key

MOST_SURPLUS_G, MOST_SURPLUS = 100.0, 0.25
"""How much more than the work needs may be mixed only so that the ratio is held: grams, or this share where that is
more; our own limit, no source."""
USUAL_STEPS_G = (5.0, 1.0, 0.5, 0.1, 0.05, 0.01, 0.001)
"""Steps of the usual scales [g]: common practice, no source."""


def cups_of(for_: MixFor, total_g: float, recipe: Recipe, limit: CupLimit, step_g: float) -> tuple[MixPlan, ...]:
    """Equal cups that together hold at least `total_g`, all parts counted; what is mixed is their sum.

    They are the fewest that can be used up in time. Where neither scale nor syringe holds the ratio in so small a cup,
    a larger one is mixed, if what is over is little.

    Parameters
    ----------
    for_ : what they are for
    total_g : mass needed, all parts together [g], >= 0
    recipe : the parts in their order
    limit : what one cup may hold
    step_g : the scale's step [g], > 0

    Raises NoSafePlan ("ratio-not-held", "cup-below-scale", "too-many-cups"). Source: arithmetic; tolerance and smallest
    batch by JCGM 100:2008, F.2.2.1 (from memory).

    >>> from moldwright.mixing.cup import CupClock
    >>> from moldwright.mixing.recipe import Recipe, liquid
    >>> from moldwright.plan.mixes import SKIN, PartKind, TaskKind
    >>> mix = Recipe((liquid(PartKind.A, 1, 1.0), liquid(PartKind.B, 1, 1.0)))
    >>> limit = CupLimit(100.0, 100.0, CupClock(900.0, 60.0, TaskKind.POUR, 0.1))
    >>> [part.scale_reads_g for part in cups_of(SKIN, 82.8, mix, limit, 0.1)[0].parts]
    [41.4, 82.8]
    """
    if steps_of(total_g, step_g) == 0:
        return ()
    fewest = cup_count(total_g, limit.max_g, step_g)
    for count in range(fewest, 2 * fewest + 2):
        each = portion(recipe, total_g / count, step_g)
        if each is not None and each.mass_g <= limit.max_g + 1e-9:
            return _numbered(for_, count, each, recipe, limit, step_g, 0.0)
        larger = smallest(recipe, step_g, total_g / count) if each is None else None
        if larger is not None and _fits(larger, total_g, count, limit):
            return _numbered(for_, count, larger, recipe, limit, step_g, larger.mass_g - total_g / count)
    raise _refusal(total_g, fewest, recipe, step_g)


def _numbered(
    for_: MixFor, count: int, each: Portion, recipe: Recipe, limit: CupLimit, step_g: float, surplus_g: float
) -> tuple[MixPlan, ...]:
    by_s = limit.clock.work_by_s(each.mass_g)
    first = MixPlan(
        id=mix_id(for_, 1),
        for_=for_,
        cup=1,
        parts=each.parts,
        tasks=limit.clock.tasks(each.mass_g, each.mass_g - surplus_g),
        work_by_s=None if by_s == inf else round(by_s, 1),
        tolerance_pct=round(100.0 * each.tolerance, 3),
        smallest_batch_g=round(smallest(recipe, step_g).mass_g, 2),
        surplus_g=round(surplus_g, 2),
        ratio=None if recipe.ratio is None else round(recipe.ratio, 6),
        ratio_within_pct=round(100.0 * recipe.tolerance, 3),
        most_g=round(max(limit.holds_g(each.mass_g - surplus_g), each.mass_g), 1),
    )
    return tuple(replace(first, id=mix_id(for_, number), cup=number) for number in range(1, count + 1))


def _fits(each: Portion, total_g: float, count: int, limit: CupLimit) -> bool:
    over_g = each.mass_g * count - total_g
    in_time = total_g / count * limit.clock.hand_s_per_g <= limit.clock.left_s(each.mass_g)
    return over_g <= max(MOST_SURPLUS_G, MOST_SURPLUS * total_g) and each.mass_g <= limit.cup_g + 1e-9 and in_time


def _refusal(total_g: float, count: int, recipe: Recipe, step_g: float) -> NoSafePlan:
    """What would do instead: a finer scale, where one of the usual ones does, and a larger cup or a slower class."""
    finer = (usual_g for usual_g in USUAL_STEPS_G if usual_g < step_g)
    does = next((fine_g for fine_g in finer if portion(recipe, total_g / count, fine_g) is not None), None)
    cup, reads = figure(round(total_g / count, 1), "g"), figure(step_g, "g")
    scale, larger = named_key("shop.scale"), named_key("shop.cup")
    if does is None and count == 1:
        remedy = (
            f"Neither a scale of {reads} nor a syringe holds the ratio in a cup of {cup}. Use a finer scale ({scale})."
        )
    elif does is None:
        remedy = (
            f"Neither a scale of {reads} nor a syringe holds the ratio in a cup of {cup}. Use a finer scale ({scale}), "
            f"or fewer and larger cups: a larger cup ({larger}) or a slower class."
        )
    elif count == 1:
        shows = figure(does, "g")
        remedy = (
            f"Neither a scale of {reads} nor a syringe holds the ratio in a cup of {cup}. Use a scale that shows "
            f"{shows} ({scale})."
        )
    else:
        shows = figure(does, "g")
        remedy = (
            f"Neither a scale of {reads} nor a syringe holds the ratio in a cup of {cup}. Use a scale that shows "
            f"{shows} ({scale}), or fewer and larger cups: a larger cup ({larger}) or a slower class."
        )
    off_pct = 100.0 * best_tolerance(recipe, total_g / count, step_g)
    return NoSafePlan(
        "ratio-not-held",
        round(off_pct, 1),
        round(100.0 * recipe.tolerance, 1),
        "%",
        remedy,
    )
