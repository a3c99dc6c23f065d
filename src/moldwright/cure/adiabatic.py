"""How hot a cast may get: all heat of its cure kept in it."""

from __future__ import annotations

from math import sqrt

from moldwright.ranges import Range

RESIN_MM2_S = 0.116
"""How heat spreads in cured polyurethane: 0.25 W/mK over 1200 kg/m3 and 1800 J/kgK (from memory) [mm2/s]."""
RESIN_J_GK, METAL_J_GK, MINERAL_J_GK = 1.8, 0.38, 0.9
"""Heat that a gram takes up per kelvin: cured resin; copper and its alloys; stone and gypsum (from memory)."""


def adiabatic_rise_k(heat_j_g: float, filler_share: float = 0.0, filler_j_gk: float = METAL_J_GK) -> float:
    """By how much a mix that cures warms up where none of its heat is lost [K].

    `dT = (1 - w) Q / ((1 - w) c_resin + w c_filler)`

    Parameters
    ----------
    heat_j_g : heat Q of cure of the bare resin [J/g], >= 0.
    filler_share : powder w by weight, 0 to 1.
    filler_j_gk : what a gram of the powder takes up [J/gK].

    >>> round(adiabatic_rise_k(150.0), 1)
    83.3

    Source: heat balance; heats of 1 g and 1 K from memory.
    """
    resin = 1.0 - filler_share
    return resin * heat_j_g / (resin * RESIN_J_GK + filler_share * filler_j_gk)


def hottest_c(shop_c: float, heat_j_g: Range, filler_share: float, filler_j_gk: float, kept: float = 1.0) -> Range:
    """How hot a cast may get, from the shop's temperature up [°C].

    Parameters
    ----------
    shop_c : temperature of the shop [°C].
    heat_j_g : heat of cure of the bare resin [J/g].
    filler_share, filler_j_gk : as in `adiabatic_rise_k`.
    kept : share of its heat that it keeps, 0 to 1.

    Source: heat balance.
    """
    heats = heat_j_g.low, heat_j_g.likely, heat_j_g.high
    return Range(*(shop_c + kept * adiabatic_rise_k(heat, filler_share, filler_j_gk) for heat in heats))


def kept_share(half_mm: float, cure_s: float) -> float:
    """The share of its heat that a cast keeps while it cures: all where it is thicker than heat spreads in that time.

    `min(1, V / A / sqrt(a t))`

    Parameters
    ----------
    half_mm : its volume V over its surface A [mm], > 0.
    cure_s : time t of its cure [s], > 0.

    >>> kept_share(14.7, 900.0), round(kept_share(5.1, 900.0), 2)
    (1.0, 0.5)

    Source: the length of diffusion (Carslaw & Jaeger, from memory); an estimate.
    """
    return min(1.0, half_mm / sqrt(RESIN_MM2_S * cure_s))
