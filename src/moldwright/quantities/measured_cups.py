"""Cups as the shop measures them: on its scale, or to marks without one."""

from __future__ import annotations

from moldwright.commission.orders import ShopOrder
from moldwright.materials.kinds import TwoPart
from moldwright.mixing.cup import CupLimit
from moldwright.mixing.cups import cups_of
from moldwright.mixing.marked import in_volumes, marked_cups_of
from moldwright.mixing.recipe import Recipe
from moldwright.plan.mixes import MixFor, MixPlan


def measured_cups(
    shop: ShopOrder, sheet: TwoPart, for_: MixFor, total_g: float, recipe: Recipe, limit: CupLimit
) -> tuple[MixPlan, ...]:
    """The cups of a mix of A and B, by weight or, in a shop without a scale, by volume.

    Parameters
    ----------
    shop : its measure, its scale, its marks
    sheet : where the ratio by volume stands
    for_ : what they are for
    total_g : mass needed, all parts together [g], >= 0
    recipe : the parts in their order, by weight
    limit : what one cup may hold

    Source: the sheet's ratio by weight or by volume.
    """
    if not shop.by_volume:
        return cups_of(for_, total_g, recipe, limit, shop.scale_g)
    return marked_cups_of(for_, total_g, in_volumes(recipe, sheet.ratio_volume), limit, shop.marks_ml)
