"""What the mold's solids measure: the numbers that quantities are reckoned from."""

from __future__ import annotations

from dataclasses import dataclass

Point = tuple[float, float, float]


@dataclass(frozen=True, slots=True)
class FillSpot:
    """One connected place that is packed with rubber so that the shell can draw.

    `depth_mm` is its greatest depth under the surface it makes; `kind` is "crevice" (bridged) or "undercut".
    """

    at: Point
    depth_mm: float
    volume_ml: float
    kind: str


@dataclass(frozen=True, slots=True)
class MoldVolumes:
    """Volumes [ml], areas [mm2] and lengths [mm] of the finished solids.

    coat_ml : rubber of each coat on the walls, first coat first, from offset solids (flange and fill apart).
    flange_ml : rubber of the flange beyond the coats; the coats' thicknesses apply to it in their proportion.
    fill_ml : crevices bridged and undercuts packed; `spots` says where (spots below 0.1 ml are left out of it).
    glove_ml : the whole glove = sum(coat_ml) + flange_ml + fill_ml.
    cavity_ml : original and plinth together, what a full cast fills.
    cavity_area_mm2 : its surface above the board.
    shell_area_mm2 : the gloved surface that the support shell covers, flange and base lip included.
    seam_mm : length of the seam; seam_flange_mm: width of the seam's flange; base_lip_mm: shell beyond the rubber.
    height_mm : the original's own height, its plinth not counted; widest_mm: its greatest width in plan.
    skin_ml : between the cavity's wall and its inner offset at the skin's thickness (offset solid, not area x t).
    skin_kept_ml : its part over the plinth, on the piece once the plinth is cut off; skin_ml without a plinth.
    """

    coat_ml: tuple[float, ...]
    flange_ml: float
    fill_ml: float
    glove_ml: float
    spots: tuple[FillSpot, ...]
    original_ml: float
    original_area_mm2: float
    plinth_ml: float
    plinth_height_mm: float
    cavity_ml: float
    cavity_area_mm2: float
    mouth_area_mm2: float
    flange_area_mm2: float
    shell_area_mm2: float
    shell_ml: float
    seam_mm: float
    seam_flange_mm: float
    base_lip_mm: float
    height_mm: float
    widest_mm: float
    handles: int
    skin_ml: float
    skin_kept_ml: float
