"""The dimensions that a support shell is built to."""

from __future__ import annotations

from dataclasses import dataclass

from moldwright.geometry.seam_kind import Seam

HELD_EVERY_MM = 100.0
"""One clamp or bolt for so much of an edge at least: common practice, no source."""


@dataclass(frozen=True, slots=True)
class ShellSettings:
    """Dimensions of the shell [mm]. `base_lip_mm` beyond the rubber's edge, `least_lip_mm` at the least: half an inch
    (common practice, no source).

    A seam against a wall has two flanges, `seam_flange_mm` wide, each as thick as the wall; a lapped one has a lip
    of piece 1 over piece 2's outside, `lap_mm` wide at most (at least 25: common practice, no source) and
    `lap_thickness_mm` thick, a layer of plies. `draft_deg`: by how much a piece may be turned and still draws off.
    `bolted`: its flanges are bored and keyed, as they are printed.
    """

    wall_mm: float = 9.0
    seam: Seam = Seam.WALL
    seam_flange_mm: float = 25.0
    lap_mm: float = 40.0
    lap_thickness_mm: float = 3.0
    base_lip_mm: float = 15.0
    least_lip_mm: float = 13.0
    clearance_mm: float = 0.5
    draft_deg: int = 0
    bolted: bool = False

    @property
    def seam_reach_mm(self) -> float:
        """How far the pieces face each other along the seam, from the rubber outward [mm]."""
        return self.seam_flange_mm if self.seam is Seam.WALL else self.wall_mm
