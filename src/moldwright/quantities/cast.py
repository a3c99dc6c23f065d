"""The cast: skin and back-fill by volume and by weight, their cups, the finished piece."""

from __future__ import annotations

from dataclasses import dataclass

from moldwright.cast.piece import Fill, fill_of, piece_mass_g, shrinkage_mm, solid_why
from moldwright.cast.resin_limits import resin_cup_limit
from moldwright.cast.resin_recipe import BACKFILL_TINT, SKIN_TINT, ResinMix, resin_mix
from moldwright.commission.orders import CastOrder, ShopOrder
from moldwright.cure.potlife import ShopLife
from moldwright.materials import Powder, Resin, mixed_density_g_ml
from moldwright.materials.mixture import mixture_density_g_ml
from moldwright.materials.words import Tag
from moldwright.mold.measures import MoldMeasures
from moldwright.plan.cast import CastPlan, CastWay, SkinPlan, SolidWhy
from moldwright.plan.mixes import BACK_FILL, SKIN, MixFor, MixPlan
from moldwright.quantities.cast_doubt import CastDoubt, cast_doubt
from moldwright.quantities.chosen import Chosen
from moldwright.quantities.measured_cups import measured_cups
from moldwright.quantities.mixed import POT_RESIDUE
from moldwright.quantities.pot_lives import PotLives
from moldwright.ranges import Amount, Range

SKIN_COLOR, BACKFILL_COLOR = "brown", "black"


@dataclass(frozen=True, slots=True)
class CastQuantities:
    """One cast: the plan's part, its cups, what the mix of the skin and that of the back-fill make, and how uncertain
    all that is."""

    cast: CastPlan
    mixes: tuple[MixPlan, ...]
    skin_mix: ResinMix
    backfill_mix: ResinMix | None
    doubt: CastDoubt


def cast_quantities(
    order: CastOrder, shop: ShopOrder, chosen: Chosen, measures: MoldMeasures, lives: PotLives
) -> CastQuantities:
    """Skin, back-fill and the finished piece of one cast.

    `m = V rho (1 + max(waste, residue))` for each mix, rho the density of the air-free mix.

    Parameters
    ----------
    order : the skin's thickness, and whether a solid cast is asked for
    shop : scale, cup, waste
    chosen : the sheets
    measures : the solids' measures
    lives : pot lives at the shop's temperature, longer than mixing

    Source: rule of mixtures; common practice, no source.
    """
    why = solid_by(order, measures)
    fill = fill_of(measures.cavity.volume_ml, measures.skin.whole_ml, why is not None)
    skin = resin_mix(chosen.resin, chosen.powder, _tint(chosen), SKIN_TINT, lives.resin.pot_life_s)
    mixes = _cups(SKIN, fill.skin_ml, chosen.resin, skin, shop, lives.resin, swirled=why is None)
    back = None
    if why is None and chosen.backfill is not None and lives.backfill is not None:
        back = resin_mix(chosen.backfill, None, BACKFILL_COLOR, BACKFILL_TINT, lives.backfill.pot_life_s)
        mixes += _cups(BACK_FILL, fill.backfill_ml, chosen.backfill, back, shop, lives.backfill, swirled=False)
    doubt = _doubt(chosen, measures, fill, skin)
    return CastQuantities(_plan(order, chosen, measures, fill, skin, doubt), mixes, skin, back, doubt)


def solid_by(order: CastOrder, measures: MoldMeasures) -> SolidWhy | None:
    """Why this cast is made solid, all of it in the skin's mix; None for one with a back-fill or a hollow.

    Parameters
    ----------
    order : whether a solid cast is asked for
    measures : the solids' measures

    Source: `cast.piece.solid_why`.
    """
    cavity_ml = measures.cavity.volume_ml
    return solid_why(cavity_ml, cavity_ml - measures.skin.whole_ml, measures.skin.core_kept_ml, order.solid)


def needed_g(volume_ml: float, density_g_ml: float, waste: float) -> float:
    """What must be mixed so that `volume_ml` ends in the mold [g]: `V rho (1 + max(waste, residue))`.

    Parameters
    ----------
    volume_ml : in the mold [ml], >= 0
    density_g_ml : of the mix [g/ml], > 0
    waste : the shop's, as a share

    Source: common practice, no source.

    >>> round(needed_g(100.0, 1.1, 0.08), 2)
    118.8
    """
    return volume_ml * density_g_ml * (1.0 + max(waste, POT_RESIDUE.likely))


def _tint(chosen: Chosen) -> str:
    """A clear cast stays clear; everything else takes a few drops."""
    return "" if Tag.CLEAR in chosen.resin.tags and chosen.powder is None else SKIN_COLOR


def _cups(
    for_: MixFor, volume_ml: float, resin: Resin, mix: ResinMix, shop: ShopOrder, life: ShopLife, swirled: bool
) -> tuple[MixPlan, ...]:
    density = mix.filled.density_g_ml
    limit = resin_cup_limit(
        life.pot_life_s.low, mix.mixing_s, shop.cup_ml, density, swirled, resin.pot_life_mass_g.likely
    )
    return measured_cups(shop, resin, for_, needed_g(volume_ml, density, shop.waste), mix.recipe, limit)


def _doubt(chosen: Chosen, measures: MoldMeasures, fill: Fill, skin: ResinMix) -> CastDoubt:
    dense = skin_density(chosen.resin, chosen.powder, skin).likely
    return cast_doubt(measures, fill, _kept(fill, measures), dense, _back_density(chosen).likely)


def _back_density(chosen: Chosen) -> Range:
    return mixed_density_g_ml(chosen.backfill) if chosen.backfill else Range.exactly(0.0)


def _plan(
    order: CastOrder, chosen: Chosen, measures: MoldMeasures, fill: Fill, skin: ResinMix, doubt: CastDoubt
) -> CastPlan:
    why = solid_by(order, measures)
    dense = skin_density(chosen.resin, chosen.powder, skin)
    mass = piece_mass_g(_kept(fill, measures), dense, _back_density(chosen)).doubted(doubt.mass)
    shrinks = shrinkage_mm(
        measures.piece.height_mm,
        chosen.resin.shrinkage_pct.range,
        chosen.rubber.shrinkage_pct.range,
        skin.filled.loading_vol_pct,
    )
    return CastPlan(
        volume_ml=_amount(measures.cavity.volume_ml, doubt.cavity),
        skin=SkinPlan(order.skin_mm, _amount(fill.skin_ml, doubt.skin)),
        backfill_ml=0.0 if why or chosen.backfill is None else _amount(fill.backfill_ml, doubt.backfill),
        mass_g=_rounded(mass, 2),
        loading_wt_pct=round(skin.filled.loading_wt_pct, 4),
        loading_vol_pct=round(skin.filled.loading_vol_pct, 4),
        yield_pct=round(skin.filled.yield_pct, 4),
        shrinkage_mm=_rounded(shrinks, 4),
        way=CastWay.SOLID if why else CastWay.FILLED if chosen.backfill else CastWay.HOLLOW,
        solid_why=why,
        closed_ml=0.0 if why else round(measures.skin.closed_ml, 2),
    )


def _amount(volume_ml: float, doubt: Range) -> Amount:
    """A plain number where nothing is in doubt."""
    return volume_ml if doubt.low == doubt.high else doubt * volume_ml


def _kept(fill: Fill, measures: MoldMeasures) -> Fill:
    """What stays on the piece once its plinth is cut off."""
    whole_ml = measures.piece.volume_ml
    core_ml = 0.0 if fill.backfill_ml == 0 else min(measures.skin.core_kept_ml, whole_ml)
    return Fill(whole_ml - core_ml, core_ml)


def skin_density(resin: Resin, powder: Powder | None, mix: ResinMix) -> Range:
    """Density of the skin [g/ml], from the spread of the resin's and the powder's densities.

    Weighed parts fix the loading by weight, so only the densities of resin and grains are uncertain.

    Parameters
    ----------
    resin : its sheet
    powder : the powder's sheet; None for an unfilled skin
    mix : the skin's mix

    Source: rule of mixtures.
    """
    alone = mixed_density_g_ml(resin)
    if powder is None:
        return alone
    shares = (100.0 - mix.filled.loading_wt_pct, mix.filled.loading_wt_pct)
    grain = powder.true_density_g_ml
    low, likely, high = (
        mixture_density_g_ml(shares, pair)
        for pair in ((alone.low, grain.low), (alone.likely, grain.likely), (alone.high, grain.high))
    )
    return Range(low, likely, high)


def _rounded(value: Range, places: int) -> Range:
    return Range(round(value.low, places), round(value.likely, places), round(value.high, places))
