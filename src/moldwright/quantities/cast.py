"""The cast: skin and back-fill by volume and by weight, their cups, the finished piece."""

from __future__ import annotations

from dataclasses import dataclass

from moldwright.cast.piece import Fill, fill_of, piece_mass_g, shrinkage_mm
from moldwright.cast.resin_limits import resin_cup_limit
from moldwright.cast.resin_recipe import BACKFILL_TINT, SKIN_TINT, ResinMix, resin_mix
from moldwright.commission.orders import CastOrder, ShopOrder
from moldwright.materials import Powder, Resin, mixed_density_g_ml
from moldwright.materials.mixture import mixture_density_g_ml
from moldwright.mold.volumes import MoldVolumes
from moldwright.plan.plan import CastPlan, MixPlan, SkinPlan
from moldwright.quantities.chosen import Chosen
from moldwright.quantities.cups import mix_plans
from moldwright.quantities.rubber import POT_RESIDUE
from moldwright.ranges import Range

SKIN, BACKFILL = "skin", "back-fill"
SKIN_COLOR, BACKFILL_COLOR = "brown", "black"


@dataclass(frozen=True, slots=True)
class CastQuantities:
    """One cast: the plan's part, its cups, and what each mix makes; `backfill_mix` None where it stays hollow."""

    cast: CastPlan
    mixes: tuple[MixPlan, ...]
    skin_mix: ResinMix
    backfill_mix: ResinMix | None


def cast_quantities(
    order: CastOrder,
    shop: ShopOrder,
    chosen: Chosen,
    volumes: MoldVolumes,
    pot_lives_s: tuple[Range, Range | None],
) -> CastQuantities:
    """Skin, back-fill and the finished piece of one cast.

    `m = V rho (1 + max(waste, residue))` for each mix, rho the density of the air-free mix.

    Parameters
    ----------
    order : the skin's thickness
    shop : scale, cup, waste
    chosen : the sheets
    volumes : the solids' measures
    pot_lives_s : of the skin's and of the back-fill's resin at the shop's temperature [s]

    Raises NoSafePlan where a resin gels before it is mixed. Source: rule of mixtures; common practice, no source.
    """
    fill = fill_of(volumes.cavity_ml, volumes.skin_ml)
    skin = resin_mix(chosen.resin, chosen.powder, _tint(chosen), SKIN_TINT, pot_lives_s[0])
    back = _backfill_mix(chosen, pot_lives_s[1])
    mixes = _cups(SKIN, fill.skin_ml, chosen.resin, skin, shop, pot_lives_s[0])
    if chosen.backfill is not None and back is not None and pot_lives_s[1] is not None:
        mixes += _cups(BACKFILL, fill.backfill_ml, chosen.backfill, back, shop, pot_lives_s[1])
    return CastQuantities(_plan(order, chosen, volumes, fill, skin), mixes, skin, back)


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
    return "" if "clear" in chosen.resin.tags and chosen.powder is None else SKIN_COLOR


def _backfill_mix(chosen: Chosen, pot_life_s: Range | None) -> ResinMix | None:
    if chosen.backfill is None or pot_life_s is None:
        return None
    return resin_mix(chosen.backfill, None, BACKFILL_COLOR, BACKFILL_TINT, pot_life_s)


def _cups(
    name: str, volume_ml: float, resin: Resin, mix: ResinMix, shop: ShopOrder, pot_life_s: Range
) -> tuple[MixPlan, ...]:
    density = mix.filled.density_g_ml
    limit = resin_cup_limit(
        resin.name, pot_life_s.low, mix.mixing_s, shop.cup_ml, density, name == SKIN, resin.pot_life_mass_g.likely
    )
    return mix_plans(name, needed_g(volume_ml, density, shop.waste), mix.recipe, limit, shop.scale_g)


def _plan(order: CastOrder, chosen: Chosen, volumes: MoldVolumes, fill: Fill, skin: ResinMix) -> CastPlan:
    back_density = mixed_density_g_ml(chosen.backfill) if chosen.backfill else Range.exactly(0.0)
    mass = piece_mass_g(_kept(fill, volumes), skin_density(chosen.resin, chosen.powder, skin), back_density)
    shrinks = shrinkage_mm(
        volumes.height_mm,
        chosen.resin.shrinkage_pct.range,
        chosen.rubber.shrinkage_pct.range,
        skin.filled.loading_vol_pct,
    )
    return CastPlan(
        volume_ml=volumes.cavity_ml,
        skin=SkinPlan(order.skin_mm, fill.skin_ml),
        backfill_ml=fill.backfill_ml if chosen.backfill else 0.0,
        mass_g=_rounded(mass, 2),
        loading_wt_pct=round(skin.filled.loading_wt_pct, 4),
        loading_vol_pct=round(skin.filled.loading_vol_pct, 4),
        yield_pct=round(skin.filled.yield_pct, 4),
        shrinkage_mm=_rounded(shrinks, 4),
    )


def _kept(fill: Fill, volumes: MoldVolumes) -> Fill:
    """What stays on the piece once its plinth is cut off."""
    skin_ml = volumes.original_ml if fill.backfill_ml == 0 else min(volumes.skin_kept_ml, volumes.original_ml)
    return Fill(skin_ml, volumes.original_ml - skin_ml)


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
