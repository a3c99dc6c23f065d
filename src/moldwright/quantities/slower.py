"""A rubber that gels before it is stirred is refused, and slower classes are named."""

from __future__ import annotations

from moldwright.commission.orders import ShopOrder
from moldwright.cure.potlife import pot_life_s
from moldwright.errors import NoSafePlan
from moldwright.materials import Library, Rubber
from moldwright.quantities.chosen import Chosen
from moldwright.ranges import Range

NAMED = 3


def refuse_fast(shop: ShopOrder, chosen: Chosen, rubber_life_s: Range, library: Library) -> None:
    """Refuse a rubber whose pot life, at its low end, is not longer than mixing a cup of it.

    Parameters
    ----------
    shop : its mixing time and temperature
    chosen : the sheets
    rubber_life_s : the rubber's pot life at the shop's temperature [s]
    library : where slower classes of the same chemistry are looked for

    Raises NoSafePlan ("pot-life-too-short"). Source: common practice, no source.
    """
    mixing_s = shop.mix_min * 60.0
    if rubber_life_s.low > mixing_s:
        return
    slower = slower_rubbers(library, chosen.rubber, shop.temperature_c, mixing_s)
    choose = f"Choose a slower class ({', '.join(slower)})" if slower else "Choose a slower class"
    raise NoSafePlan(
        "pot-life-too-short",
        round(rubber_life_s.low),
        round(mixing_s),
        "s",
        f"{chosen.rubber.name} may gel after {rubber_life_s.low:.0f} s at {shop.temperature_c:g} degC, and mixing it "
        f"takes {mixing_s:.0f} s. {choose}, cool the shop and the parts, or shorten the mixing time (shop.mixing).",
    )


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
        if sheet.chemistry == rubber.chemistry and pot_life_s(sheet, temperature_c).low > mixing_s
    ]
    fit.sort(key=lambda sheet: (abs(sheet.shore_a.likely - rubber.shore_a.likely), sheet.id))
    return tuple(sheet.id for sheet in fit[:NAMED])
