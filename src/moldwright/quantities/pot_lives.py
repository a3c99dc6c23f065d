"""Pot lives at the shop's temperature, computed once a plan; a mix that gels before it is stirred is refused here."""

from __future__ import annotations

from dataclasses import dataclass

from moldwright.commission.orders import ShopOrder
from moldwright.cure.lasting import least_life_s, refuse_unless_it_lasts
from moldwright.cure.potlife import ShopLife, shop_life
from moldwright.materials import Library, Rubber
from moldwright.materials.words import Fit
from moldwright.quantities.chosen import Chosen
from moldwright.quantities.resin_fits import NAMED, refuse_unless_fit


@dataclass(frozen=True, slots=True)
class PotLives:
    """Each mix of the job at the shop's temperature; `backfill` None where the cast stays hollow."""

    rubber: ShopLife
    resin: ShopLife
    backfill: ShopLife | None


def pot_lives(chosen: Chosen, shop: ShopOrder, library: Library, solid: bool = False) -> PotLives:
    """How long each mix lasts in this shop.

    Parameters
    ----------
    chosen : the sheets
    shop : its temperature, and how long it mixes a cup of rubber
    library : where slower classes are looked for
    solid : the cast is poured solid, so that nothing is slushed

    Raises NoSafePlan ("pot-life-too-short", and as `refuse_unless_fit`). Source: Arrhenius' law, as `cure.potlife`.
    """
    lives = PotLives(
        shop_life(chosen.rubber, shop.temperature_c),
        shop_life(chosen.resin, shop.temperature_c),
        shop_life(chosen.backfill, shop.temperature_c) if chosen.backfill else None,
    )
    _rubber_lasts(chosen.rubber, lives.rubber, shop, library)
    temperature_c, use = shop.temperature_c, Fit.SOLID if solid else Fit.SKIN
    refuse_unless_fit(use, chosen.resin, chosen.powder, lives.resin, temperature_c, library)
    if chosen.backfill is not None and lives.backfill is not None:
        refuse_unless_fit(Fit.BACK_FILL, chosen.backfill, None, lives.backfill, temperature_c, library)
    return lives


def _rubber_lasts(rubber: Rubber, life: ShopLife, shop: ShopOrder, library: Library) -> None:
    mixes_s = shop.mix_min * 60.0
    if rubber.two_part and life.pot_life_s.low < least_life_s(mixes_s):
        slower = slower_rubbers(library, rubber, shop.temperature_c, mixes_s)
        refuse_unless_it_lasts(rubber.name, life.pot_life_s, mixes_s, shop.temperature_c, slower)


def slower_rubbers(library: Library, rubber: Rubber, temperature_c: float, mixing_s: float) -> tuple[str, ...]:
    """Rubbers of the same chemistry that leave a hand its minute after mixing, nearest in hardness first.

    Parameters
    ----------
    library : all sheets
    rubber : the one that is too fast
    temperature_c : the shop's [degC]
    mixing_s : how long mixing a cup takes [s]

    Source: the sheets; pot life by Arrhenius.
    """
    rubbers = [sheet for sheet in library.all("rubber") if isinstance(sheet, Rubber)]
    fit = [
        sheet
        for sheet in rubbers
        if sheet.chemistry is rubber.chemistry
        and shop_life(sheet, temperature_c).pot_life_s.low >= least_life_s(mixing_s)
    ]
    fit.sort(key=lambda sheet: (abs(sheet.shore_a.likely - rubber.shore_a.likely), sheet.id))
    return tuple(sheet.id for sheet in fit[:NAMED])
