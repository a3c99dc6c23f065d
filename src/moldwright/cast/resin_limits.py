"""How much resin one cup may hold: pouring is fast, and a skin needs most of its pot life to be swirled."""

from __future__ import annotations

from math import inf

from moldwright.cure.lasting import HAND_S
from moldwright.mixing.cup import CupClock, CupLimit, cup_limit
from moldwright.plan.mixes import TaskKind

POUR_G_PER_MIN = 600.0
"""How fast a cup is poured through the mouth [g/min]: common practice, no source."""
SKIN_POUR_SHARE = 1 / 3
"""Share of the time left after mixing that pouring a skin may take; the rest swirls it: common practice, no source."""


LONGEST_SLUSH_S = 1200.0
"""Longest likely pot life of a slushed skin [s]: a hand keeps a mold moving for some ten minutes, twenty at most;
common practice, no source."""


def pour_share(skin: bool) -> float:
    """Share of the time left after mixing that pouring may take.

    Parameters
    ----------
    skin : a skin is swirled after pouring

    Source: common practice, no source.
    """
    return SKIN_POUR_SHARE if skin else 1.0


def resin_cup_limit(
    pot_life_low_s: float,
    mixing_s: float,
    cup_ml: float,
    density_g_ml: float,
    skin: bool,
    stated_g: float = inf,
) -> CupLimit:
    """The most resin in one cup.

    Pouring may take `f t_pot - t_mix` for a back-fill, a third of it for a skin, f by the mass in the cup; then as
    `mixing.cup.cup_limit`.

    Parameters
    ----------
    pot_life_low_s : low end of the pot life at the shop's temperature [s]
    mixing_s : from the first contact of A and B until the mix is stirred [s]
    cup_ml : the cup's whole volume [ml]
    density_g_ml : density of the mix [g/ml]
    skin : a skin is swirled after pouring, a back-fill is not
    stated_g : mass that the pot life is stated for [g]: a heavier cup heats itself and gels sooner

    Source: common practice, no source.

    >>> resin_cup_limit(150.0, 30.0, 5000.0, 1.08, True).max_g
    400.0
    """
    share = pour_share(skin)
    clock = CupClock(pot_life_low_s, mixing_s, TaskKind.POUR, 60.0 / POUR_G_PER_MIN, stated_g, share, HAND_S)
    return cup_limit(clock, cup_ml, density_g_ml)
