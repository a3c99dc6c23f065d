"""Whether a resin does for what it is asked: its class, a minute for the hand, a skin that gels while it is turned."""

from __future__ import annotations

from moldwright.cast.resin_limits import LONGEST_SLUSH_S, pour_share
from moldwright.cast.resin_recipe import mixing_s
from moldwright.cure.lasting import least_life_s, refuse_unless_it_lasts
from moldwright.cure.potlife import ShopLife, shop_life
from moldwright.errors import NoSafePlan
from moldwright.materials import Library, Powder, Resin
from moldwright.materials.words import Fit
from moldwright.ways import figure, named_key, stands, word

NAMED = 3
"""How many classes a refusal names."""
KEYS = {Fit.SKIN: "cast.resin", Fit.BACK_FILL: "cast.backfill", Fit.SOLID: "cast.resin"}
"""Where the commission names the resin."""


def refuse_unless_fit(
    use: Fit, resin: Resin, powder: Powder | None, life: ShopLife, temperature_c: float, library: Library
) -> None:
    """Refuse a resin that its class does not make for this, that leaves the hand no minute, or, as a skin, has to be
    turned for longer than a hand can.

    Parameters
    ----------
    use : what it is asked for
    resin : its sheet
    powder : the powder's sheet; None for an unfilled mix
    life : at the shop's temperature
    temperature_c : the shop's [degC]
    library : where classes that would do are looked for

    Raises NoSafePlan ("resin-not-fit", "pot-life-too-short", "slush-too-long"). Source: the sheets; common practice,
    no source.
    """
    do = resins_that_do(use, resin, powder, temperature_c, library)
    named = (
        f"Take another ({named_key(KEYS[use])}: {', '.join(do)})"
        if do
        else f"Take another class ({named_key(KEYS[use])})"
    )
    if use is Fit.SKIN and Fit.SOLID in resin.fit:
        named += f", or pour it solid ({stands('cast.solid', 'true')})"
    if use not in resin.fit:
        raise NoSafePlan(
            "resin-not-fit", str(use), ", ".join(resin.fit), "", f"{word(resin.name)} is no {word(use)}. {named}."
        )
    mixes_s, share = mixing_s(resin, powder, life.pot_life_s), pour_share(use is Fit.SKIN)
    refuse_unless_it_lasts(resin.name, life.pot_life_s, mixes_s, temperature_c, do, share)
    if use is Fit.SKIN and life.pot_life_s.likely > LONGEST_SLUSH_S:
        raise NoSafePlan(
            "slush-too-long",
            round(life.pot_life_s.likely),
            round(LONGEST_SLUSH_S),
            "s",
            f"{word(resin.name)} runs for about {figure(round(life.pot_life_s.likely / 60.0), 'min')} at "
            f"{figure(temperature_c, 'degC')}, and no "
            f"hand keeps a mold moving so long. {named}, or warm the shop, the mold and the parts.",
        )


def resins_that_do(
    use: Fit, asked: Resin, powder: Powder | None, temperature_c: float, library: Library
) -> tuple[str, ...]:
    """Resins that do at this temperature, those of the same chemistry first, then of the nearest pot life.

    Parameters
    ----------
    use : what they are asked for
    asked : the one that does not
    powder : the powder's sheet; None for an unfilled mix
    temperature_c : the shop's [degC]
    library : all sheets

    Source: the sheets; pot life by Arrhenius.
    """
    resins = [sheet for sheet in library.all("resin") if isinstance(sheet, Resin)]
    do = [sheet for sheet in resins if sheet.id != asked.id and _does(use, sheet, powder, temperature_c)]
    do.sort(key=lambda sheet: (*_apart(sheet, asked), sheet.id))
    return tuple(sheet.id for sheet in do[:NAMED])


def _does(use: Fit, resin: Resin, powder: Powder | None, temperature_c: float) -> bool:
    life_s = shop_life(resin, temperature_c).pot_life_s
    skin = use is Fit.SKIN
    lasts = life_s.low >= least_life_s(mixing_s(resin, powder, life_s), pour_share(skin))
    return use in resin.fit and lasts and not (skin and life_s.likely > LONGEST_SLUSH_S)


def _apart(resin: Resin, asked: Resin) -> tuple[bool, bool, float]:
    family = resin.chemistry.urethane_resin is asked.chemistry.urethane_resin
    other = resin.chemistry is not asked.chemistry
    return other, not family, abs(resin.pot_life_s.likely - asked.pot_life_s.likely)
