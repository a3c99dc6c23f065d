"""The finished piece: its volumes, what it weighs, how much it shrinks."""

from __future__ import annotations

from dataclasses import dataclass

from moldwright.errors import InputRefused
from moldwright.ranges import Range

SKIN_SPREAD = 0.2
"""How far a hand-swirled skin's volume may be from its plan, either way: common practice, no source."""
SOLID_SHARE = 0.02
"""A hollow smaller than this share of the cavity closes by itself: cast solid in the skin's mix; no source."""


@dataclass(frozen=True, slots=True)
class Fill:
    """What goes into the cavity [ml]."""

    skin_ml: float
    backfill_ml: float


def fill_of(cavity_ml: float, skin_ml: float) -> Fill:
    """The back-fill is what the skin leaves: `V_cavity - V_skin`; under 2 % of the cavity the skin takes all of it.

    Parameters
    ----------
    cavity_ml : original and plinth [ml], > 0
    skin_ml : skin from the inner offset solid [ml], 0 to cavity_ml

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
    skin = min(max(skin_ml, 0.0), cavity_ml)
    return Fill(skin, cavity_ml - skin) if cavity_ml - skin >= SOLID_SHARE * cavity_ml else Fill(cavity_ml, 0.0)


def piece_mass_g(kept: Fill, skin_density: Range, backfill_density: Range) -> Range:
    """Weight of the finished piece, its plinth cut off [g].

    The bounds add a skin 20 % thinner or thicker and the densities' spread.

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
    factors = (1.0 - SKIN_SPREAD, 1.0 + SKIN_SPREAD)
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
