"""The cast, as the plan tells it."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from moldwright.ranges import Amount, Range

CLOSED_FROM_ML = 1.0
"""Less than this behind closed necks is not told: our own."""


class CastWay(StrEnum):
    """What stands behind the skin: back-fill, air, or nothing, as all is cast of the skin's mix."""

    FILLED = "filled"
    HOLLOW = "hollow"
    SOLID = "solid"


class SolidWhy(StrEnum):
    """Why a cast is solid: ordered; no core is reached; that in the piece is too small; it lies in the plinth."""

    ORDERED = "ordered"
    NO_CORE = "no-core"
    SMALL_CORE = "small-core"
    IN_PLINTH = "in-plinth"


@dataclass(frozen=True, slots=True)
class SkinPlan:
    thickness_mm: float
    volume_ml: Amount


@dataclass(frozen=True, slots=True)
class CastPlan:
    """`volume_ml` is the cavity; `mass_g` the finished piece; `shrinkage_mm` on its height.

    `skin` holds all that is cast of its mix: of a solid cast the whole, and of any other `closed_ml` that lies deeper
    than the skin behind gaps that no back-fill passes. Volumes are ranges where the original was not scanned.
    """

    volume_ml: Amount
    skin: SkinPlan
    backfill_ml: Amount
    mass_g: Range
    loading_wt_pct: float
    loading_vol_pct: float
    yield_pct: float
    shrinkage_mm: Range
    way: CastWay = CastWay.FILLED
    solid_why: SolidWhy | None = None
    closed_ml: float = 0.0
