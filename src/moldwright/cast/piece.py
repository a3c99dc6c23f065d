"""The finished piece: its volumes, what it weighs, how much it shrinks."""

from __future__ import annotations

from dataclasses import dataclass

from moldwright.errors import InputRefused
from moldwright.plan.cast import SolidWhy
from moldwright.ranges import Range

SKIN_SPREAD = 0.2
"""How far a hand-swirled skin's volume may be from its plan, either way: common practice, no source."""
SOLID_SHARE, LEAST_CORE_ML = 0.02, 10.0
"""A core in the piece under this share of the cavity, or this volume [ml], is not worth a cup: cast solid in the skin's
mix; common practice, no source."""


@dataclass(frozen=True, slots=True)
class Fill:
    """What goes into the cavity [ml]."""

    skin_ml: float
    backfill_ml: float


def solid_why(cavity_ml: float, core_ml: float, core_kept_ml: float, ordered: bool) -> SolidWhy | None:
    """Why a cast is made solid; None where its core is worth a cup of back-fill, or is left hollow.

    Parameters
    ----------
    cavity_ml : original and plinth [ml], > 0
    core_ml : what is deeper than the skin and reached from the mouth [ml], >= 0
    core_kept_ml : of it what stays in the piece once its plinth is cut off [ml]
    ordered : whether the maker asks for a solid cast

    Source: common practice, no source.

    >>> solid_why(500.0, 380.0, 350.0, False), solid_why(40.0, 2.7, 0.0, False).value
    (None, 'small-core')
    """
    least_ml = max(SOLID_SHARE * cavity_ml, LEAST_CORE_ML)
    if ordered:
        return SolidWhy.ORDERED
    if core_ml <= 0.0:
        return SolidWhy.NO_CORE
    if core_kept_ml >= least_ml:
        return None
    return SolidWhy.IN_PLINTH if core_ml >= least_ml else SolidWhy.SMALL_CORE


def fill_of(cavity_ml: float, skin_ml: float, solid: bool = False) -> Fill:
    """The back-fill is what the skin leaves: `V_cavity - V_skin`; of a solid cast the skin takes all.

    Parameters
    ----------
    cavity_ml : original and plinth [ml], > 0
    skin_ml : all but the core [ml], 0 to cavity_ml
    solid : whether all is cast of the skin's mix

    Source: subtraction of solids.

    >>> fill_of(500.0, 120.0)
    Fill(skin_ml=120.0, backfill_ml=380.0)
    """
    if not (cavity_ml > 0 and -1e-6 <= skin_ml <= cavity_ml * (1 + 1e-6)):
        raise InputRefused(
            "skin-volume",
            round(skin_ml, 3),
            round(cavity_ml, 3),
            "ml",
            "The skin must fit into the cavity: choose a thinner skin.",
        )
    skin = cavity_ml if solid else min(max(skin_ml, 0.0), cavity_ml)
    return Fill(skin, cavity_ml - skin)


def piece_mass_g(kept: Fill, skin_density: Range, backfill_density: Range) -> Range:
    """Weight of the finished piece, its plinth cut off [g].

    The bounds add a skin 20 % thinner or thicker, where something or air lies behind it, and the densities' spread.

    `m = V_skin rho_skin + V_back rho_back`

    Parameters
    ----------
    kept : skin and back-fill that stay on the piece [ml]
    skin_density : density of the skin [g/ml], > 0
    backfill_density : density of the back-fill [g/ml], >= 0 (0 where it stays hollow)

    Source: volume x density; spread of the skin: common practice, no source.

    >>> piece_mass_g(Fill(0.0, 100.0), Range.exactly(2.0), Range.exactly(1.5)).likely
    150.0
    """
    spread = SKIN_SPREAD if kept.backfill_ml > 0 else 0.0
    factors = (1.0 - spread, 1.0 + spread)
    low = min(_mass_g(kept, factor, skin_density.low, backfill_density.low) for factor in factors)
    high = max(_mass_g(kept, factor, skin_density.high, backfill_density.high) for factor in factors)
    likely = _mass_g(kept, 1.0, skin_density.likely, backfill_density.likely)
    return Range(min(low, likely), likely, max(high, likely))


def _mass_g(fill: Fill, skin_factor: float, skin_g_ml: float, back_g_ml: float) -> float:
    whole = fill.skin_ml + fill.backfill_ml
    skin = min(fill.skin_ml * skin_factor, whole)
    return skin * skin_g_ml + (whole - skin) * back_g_ml


def shrinkage_mm(height_mm: float, resin_pct: Range, rubber_pct: Range, powder_vol_pct: float) -> Range:
    """How much shorter the cast stands than its original [mm].

    The rubber's own shrinkage and the skin's add; grains do not shrink, so the resin's counts for its share.

    `d = h (s_rubber + s_resin (1 - phi)) / 100`

    Parameters
    ----------
    height_mm : height of the piece [mm], > 0
    resin_pct : linear shrinkage of the skin's unfilled resin [%]
    rubber_pct : linear shrinkage of the mold rubber [%]
    powder_vol_pct : powder's true volume in the skin [%], 0 to 64

    Source: rule of mixtures, an estimate: powder restrains a resin by about its volume share (from memory).

    >>> shrinkage_mm(100.0, Range(0.2, 0.5, 1.0), Range(0.0, 0.1, 0.1), 20.0).likely
    0.5
    """
    resin_share = 1.0 - powder_vol_pct / 100.0
    return (rubber_pct + resin_pct * resin_share) * (height_mm / 100.0)
