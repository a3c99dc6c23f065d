"""The dimensions that a support shell is built to."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class ShellSettings:
    """Dimensions of the shell [mm]. `base_lip_mm` beyond the rubber's edge: TRADE, at least 13 (common practice)."""

    wall_mm: float = 9.0
    seam_flange_mm: float = 25.0
    seam_half_mm: float = 7.0
    base_lip_mm: float = 15.0
    clearance_mm: float = 0.5
