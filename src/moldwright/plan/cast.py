"""The cast, as the plan tells it."""

from __future__ import annotations

from dataclasses import dataclass

from moldwright.ranges import Range


@dataclass(frozen=True, slots=True)
class SkinPlan:
    thickness_mm: float
    volume_ml: float


@dataclass(frozen=True, slots=True)
class CastPlan:
    """`volume_ml` is the cavity; `mass_g` the finished piece; `shrinkage_mm` on its height."""

    volume_ml: float
    skin: SkinPlan
    backfill_ml: float
    mass_g: Range
    loading_wt_pct: float
    loading_vol_pct: float
    yield_pct: float
    shrinkage_mm: Range
