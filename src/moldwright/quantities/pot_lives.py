"""Pot lives at the shop's temperature, computed once a plan; a mix that gels before it is stirred is refused here."""

from __future__ import annotations

from dataclasses import dataclass

from moldwright.cast.resin_recipe import mixing_s
from moldwright.commission.orders import ShopOrder
from moldwright.cure.lasting import refuse_unless_it_lasts
from moldwright.cure.potlife import ShopLife, shop_life
from moldwright.materials import Library, Powder, Resin, Rubber
from moldwright.quantities.chosen import Chosen

NAMED = 3
"""How many slower classes a refusal names."""


@dataclass(frozen=True, slots=True)
class PotLives:
    """Each mix of the job at the shop's temperature; `backfill` None where the cast stays hollow."""

    rubber: ShopLife
    resin: ShopLife
    backfill: ShopLife | None


def pot_lives(chosen: Chosen, shop: ShopOrder, library: Library) -> PotLives:
    """How long each mix lasts in this shop.

    Parameters
    ----------
    chosen : the sheets
    shop : its temperature, and how long it mixes a cup of rubber
    library : where slower classes are looked for

    Raises NoSafePlan ("pot-life-too-short"). Source: Arrhenius' law, as `cure.potlife`.
    """
    lives = PotLives(
        shop_life(chosen.rubber, shop.temperature_c),
        shop_life(chosen.resin, shop.temperature_c),
        shop_life(chosen.backfill, shop.temperature_c) if chosen.backfill else None,
    )
    _rubber_lasts(chosen.rubber, lives.rubber, shop, library)
    _resin_lasts(chosen.resin, chosen.powder, lives.resin, shop)
    if chosen.backfill is not None and lives.backfill is not None:
        _resin_lasts(chosen.backfill, None, lives.backfill, shop)
    return lives


def _rubber_lasts(rubber: Rubber, life: ShopLife, shop: ShopOrder, library: Library) -> None:
    mixes_s = shop.mix_min * 60.0
    if rubber.two_part and life.pot_life_s.low <= mixes_s:
        slower = slower_rubbers(library, rubber, shop.temperature_c, mixes_s)
        refuse_unless_it_lasts(rubber.name, life.pot_life_s, mixes_s, shop.temperature_c, slower)


def _resin_lasts(resin: Resin, powder: Powder | None, life: ShopLife, shop: ShopOrder) -> None:
    mixes_s = mixing_s(resin, powder, life.pot_life_s)
    refuse_unless_it_lasts(resin.name, life.pot_life_s, mixes_s, shop.temperature_c)


def slower_rubbers(library: Library, rubber: Rubber, temperature_c: float, mixing_s: float) -> tuple[str, ...]:
    """Rubbers of the same chemistry that outlast their mixing, nearest in hardness first.

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
        if sheet.chemistry is rubber.chemistry and shop_life(sheet, temperature_c).pot_life_s.low > mixing_s
    ]
    fit.sort(key=lambda sheet: (abs(sheet.shore_a.likely - rubber.shore_a.likely), sheet.id))
    return tuple(sheet.id for sheet in fit[:NAMED])
