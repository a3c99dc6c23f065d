"""The mix of a skin or a back-fill, from its sheets: what goes in first, and when the powder goes in."""

from __future__ import annotations

from dataclasses import dataclass

from moldwright.cast.filled import FilledMix, filled_mix, loose_powder_ml
from moldwright.materials import Powder, Resin
from moldwright.materials.words import Side
from moldwright.mixing.order import order_of, powder_may_wait
from moldwright.mixing.recipe import Ingredient, Recipe, in_order, liquid
from moldwright.mixing.tolerance import ratio_tolerance_of
from moldwright.plan.mixes import PartKind
from moldwright.ranges import Range

LONG_POT_LIFE_S = 600.0
"""From this likely pot life [s] on powder is sifted into the stirred mix: common practice, no source."""
SIFT_S = 120.0
"""Time to sift and stir the powder in [s]: common practice, no source."""
SKIN_TINT, BACKFILL_TINT = 0.001, 0.003
"""Tint per gram of resin, a few drops: common practice, no source."""
TINT_G_ML = 1.1
"""Density of a resin tint [g/ml]: class default, from memory."""


@dataclass(frozen=True, slots=True)
class ResinMix:
    """A recipe, what it makes, whether the powder was held back by the resin's limit, whether it is sifted into the
    stirred mix, and how long mixing takes [s]."""

    recipe: Recipe
    filled: FilledMix
    thinned: bool
    sifted: bool
    mixing_s: float


def sifted(resin: Resin, powder: Powder | None, pot_life_s: Range) -> bool:
    """Whether the chemistry and the pot life let the powder be sifted into the stirred mix; else it is wetted out
    before.

    Parameters
    ----------
    resin : its sheet
    powder : the powder's sheet; None for an unfilled mix
    pot_life_s : pot life at the shop's temperature [s]

    Source: common practice, no source.
    """
    return powder is not None and powder_may_wait(resin.chemistry) and pot_life_s.likely >= LONG_POT_LIFE_S


def mixing_s(resin: Resin, powder: Powder | None, pot_life_s: Range) -> float:
    """From the first contact of A and B until the mix is stirred [s].

    Parameters
    ----------
    resin : its sheet
    powder : the powder's sheet; None for an unfilled mix
    pot_life_s : pot life at the shop's temperature [s]

    Source: the sheet; sifting takes 120 s: common practice, no source.
    """
    return resin.mix_s.likely + (SIFT_S if sifted(resin, powder, pot_life_s) else 0.0)


def resin_mix(resin: Resin, powder: Powder | None, tint: str, tint_share: float, pot_life_s: Range) -> ResinMix:
    """The cup of a skin or a back-fill.

    Parts go in as `mixing.order` tells; where the pot life is long, powder is sifted into the stirred mix, else it is
    wetted out before the clock starts.

    Parameters
    ----------
    resin : its sheet
    powder : the powder's sheet; None for an unfilled mix
    tint : color of the tint; "" for none
    tint_share : tint per gram of resin, 0 to 0.05
    pot_life_s : pot life at the shop's temperature [s]

    Source: equal volumes of A, B and loose powder, order of parts: common practice, no source.
    """
    first, second = _sides(resin)
    late_powder = sifted(resin, powder, pot_life_s)
    grain, thinned = _powder_part(resin, powder, first, second)
    drops = () if not tint else (liquid(PartKind.TINT, tint_share * (first.share + second.share), TINT_G_ML, tint),)
    order = order_of(resin.chemistry, _leads(resin), resin.tint_part, late_powder)
    recipe = Recipe(in_order((first, second, *drops, *grain), order), ratio_tolerance_of(resin))
    made = _made(first, second, grain)
    return ResinMix(recipe, made, thinned, late_powder, mixing_s(resin, powder, pot_life_s))


def _sides(resin: Resin) -> tuple[Ingredient, Ingredient]:
    a = liquid(PartKind.A, resin.ratio_weight[0], resin.density_a_g_ml.likely, resin.part_a)
    density_b = resin.density_b_g_ml or resin.density_a_g_ml
    return a, liquid(PartKind.B, resin.ratio_weight[1], density_b.likely, resin.part_b)


def _leads(resin: Resin) -> Side:
    """The part that the powder, else the tint, is stirred into."""
    return next((part for part in (resin.powder_part, resin.tint_part) if part in (Side.A, Side.B)), Side.A)


def _powder_part(
    resin: Resin, powder: Powder | None, first: Ingredient, second: Ingredient
) -> tuple[tuple[Ingredient, ...], bool]:
    if powder is None:
        return (), False
    apparent, true = powder.apparent_density_g_ml.likely, powder.true_density_g_ml.likely
    liquid_ml = first.share / first.density_g_ml + second.share / second.density_g_ml
    loose_ml = loose_powder_ml(liquid_ml, apparent, true, resin.powder_max_vol_pct.likely)
    part = Ingredient(PartKind.POWDER, loose_ml * apparent, apparent, true, powder.name)
    return (part,), loose_ml < 0.5 * liquid_ml * (1.0 - 1e-9)


def _made(first: Ingredient, second: Ingredient, grain: tuple[Ingredient, ...]) -> FilledMix:
    loose = grain[0] if grain else Ingredient(PartKind.POWDER, 0.0, 1.0, 1.0, "")
    return filled_mix(
        first.share / first.density_g_ml,
        second.share / second.density_g_ml,
        loose.share / loose.density_g_ml,
        first.density_g_ml,
        second.density_g_ml,
        loose.density_g_ml,
        loose.true_density_g_ml,
    )
