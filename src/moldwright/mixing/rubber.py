"""The mix of a cup of rubber, from its sheet."""

from __future__ import annotations

from moldwright.materials import Rubber, mixed_density_g_ml
from moldwright.materials.kinds import Thixotrope
from moldwright.mixing.order import order_of
from moldwright.mixing.recipe import Ingredient, Recipe, in_order, liquid
from moldwright.mixing.tolerance import ratio_tolerance_of
from moldwright.plan.coats import PigmentColor
from moldwright.plan.mixes import PartKind

PIGMENT_SHARE = 0.001
"""Pigment per gram of mix: a trace on a clean stick; common practice, no source."""
PIGMENT_G_ML = 1.15
"""Density of pigment paste [g/ml]: class default, from memory."""


def rubber_parts(rubber: Rubber) -> tuple[Ingredient, Ingredient | None]:
    """A and B with their shares by weight; B is None for a rubber of one part.

    Parameters
    ----------
    rubber : its sheet

    Source: the sheet's ratio by weight.
    """
    a, b = rubber.ratio_weight
    first = liquid(PartKind.A, a, rubber.density_a_g_ml.range.likely, rubber.part_a)
    if rubber.density_b_g_ml is None or not rubber.two_part:
        return first, None
    return first, liquid(PartKind.B, b, rubber.density_b_g_ml.range.likely, rubber.part_b)


def rubber_density_g_ml(rubber: Rubber) -> float:
    """Density of the mixed rubber [g/ml], from A, B and their ratio; pigment and thixotropic agent are left out.

    Parameters
    ----------
    rubber : its sheet

    Source: rule of mixtures.
    """
    return mixed_density_g_ml(rubber).likely


def rubber_recipe(
    rubber: Rubber, pigment: PigmentColor | None, thixotrope_pct: float, thixotrope: Thixotrope
) -> Recipe:
    """A cup of rubber, its parts in their order; shares of the whole mix sum to one.

    Parameters
    ----------
    rubber : its sheet
    pigment : the coat's color; None for none
    thixotrope_pct : thixotropic agent [% of the mix by weight], 0 to 10
    thixotrope : its sheet

    Source: common practice, no source.
    """
    color = PIGMENT_SHARE if pigment else 0.0
    rest = 1.0 - color - thixotrope_pct / 100.0
    a, b = rubber_parts(rubber)
    whole = a.share + (b.share if b else 0.0)
    parts = (
        liquid(PartKind.A, rest * a.share / whole, a.density_g_ml, a.name),
        liquid(PartKind.B, rest * b.share / whole, b.density_g_ml, b.name) if b else None,
        liquid(PartKind.PIGMENT, color, PIGMENT_G_ML, pigment) if pigment else None,
        liquid(PartKind.THIXOTROPE, thixotrope_pct / 100.0, thixotrope.density_g_ml.likely),
    )
    order = order_of(rubber.chemistry, rubber.pigment_part, rubber.pigment_part)
    return Recipe(in_order(parts, order), ratio_tolerance_of(rubber))


def packing_pct(thixotrope: Thixotrope) -> float:
    """Thixotropic agent in rubber that is packed and must not slump [% of the mix by weight].

    `min(dose's high end, most)`

    Parameters
    ----------
    thixotrope : its sheet

    Source: the sheet; common practice, no source.
    """
    return min(thixotrope.dose_pct.high, thixotrope.dose_max_pct.likely)
