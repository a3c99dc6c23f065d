"""The mouth: where the original meets the board, through which one pours and peels; and the plinth that widens it."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from shapely import MultiPolygon, Polygon

from moldwright.geometry.mesh import Mesh
from moldwright.geometry.outline import least_rectangle_sides, narrowest_width, prism, section
from moldwright.geometry.solid import exportable, mesh_of, solid_of
from moldwright.mold.flange import corners
from moldwright.plan.original import PlinthPlan

SECTION_MM = 0.5
SECTIONS = 48


@dataclass(frozen=True, slots=True)
class MouthLimits:
    """Below these a plinth is planned; how it is made. Common practice, no source."""

    narrowest_mm: float = 20.0
    share_of_largest: float = 0.10
    most_feet: int = 1
    plinth_rise_mm: float = 12.0
    plinth_embed_mm: float = 2.0


@dataclass(frozen=True, slots=True)
class Mouth:
    """Where the bare original meets the board: area [mm2], width of the narrowest foot [mm], feet, their outlines."""

    area_mm2: float
    narrowest_mm: float
    feet: int
    loops: int
    largest_section_mm2: float


@dataclass(frozen=True, slots=True, eq=False)
class Mounted:
    """The original on the board or on its plinth; `body` is both as one solid, what the rubber is brushed on."""

    mouth: Mouth
    original: Mesh
    plinth: Mesh | None
    plinth_height_mm: float
    body: Mesh


def measure_mouth(original: Mesh) -> Mouth:
    """Area, narrowest width and outlines of the contact with the board, and the largest level section.

    Parameters
    ----------
    original : closed, standing on z = 0 [mm].

    Source: our own.
    """
    solid = solid_of(original)
    top = float(original.bounds_mm[1][2])
    foot = section(solid, min(SECTION_MM, 0.01 * top))
    heights = np.linspace(0, top, SECTIONS + 1)[:-1] + top / SECTIONS / 2
    largest = max(float(solid.slice(float(z)).area()) for z in heights)
    loops = sum(1 + len(polygon.interiors) for polygon in foot.geoms)
    return Mouth(float(foot.area), narrowest_width(foot), len(foot.geoms), loops, max(largest, float(foot.area)))


def mount(original: Mesh, limits: MouthLimits) -> Mounted:
    """Dimension the mouth and, where it is too small or in several feet, raise the original on a plinth.

    The plinth's outline is the hull of the feet, grown until it is as wide and as large as `limits` ask; it rises
    round the feet by `plinth_embed_mm`.

    Parameters
    ----------
    original : closed, standing on z = 0 [mm].
    limits : from which mouth on no plinth is needed.

    Source: common practice, no source.
    """
    mouth = measure_mouth(original)
    enough = (
        mouth.narrowest_mm >= limits.narrowest_mm
        and mouth.area_mm2 >= limits.share_of_largest * mouth.largest_section_mm2
        and mouth.feet <= limits.most_feet
    )
    if enough:
        return Mounted(mouth, original, None, 0.0, original)
    lift = limits.plinth_rise_mm
    raised = solid_of(original.moved((0.0, 0.0, lift)))
    height = lift + limits.plinth_embed_mm
    outline = _plinth_outline(section(raised, height), mouth, limits)
    block = prism(outline, 0.0, height)
    body = block + raised
    plinth = block - raised
    return Mounted(mouth, exportable(raised), exportable(plinth), height, mesh_of(body))


def plinth_plan(mounted: Mounted) -> PlinthPlan | None:
    """The block that is to be made; None where there is none.

    Parameters
    ----------
    mounted : the original on the board or on its plinth.

    Source: our own.
    """
    plinth = mounted.plinth
    if plinth is None:
        return None
    outline = section(solid_of(plinth), SECTION_MM).geoms[0]
    length_mm, breadth_mm = least_rectangle_sides(outline)
    return PlinthPlan(mounted.plinth_height_mm, length_mm, breadth_mm, corners(outline), plinth.volume_ml)


def _plinth_outline(feet: MultiPolygon, mouth: Mouth, limits: MouthLimits) -> Polygon:
    """The hull of the feet with a rim of 2 mm, grown until it satisfies the limits with a little to spare."""
    hull = feet.convex_hull.buffer(2.0)
    need_mm2 = 1.05 * limits.share_of_largest * mouth.largest_section_mm2
    need_mm = 1.05 * limits.narrowest_mm
    grown = hull
    for growth in np.arange(0.0, 200.0, 0.5):
        grown = hull.buffer(float(growth))
        if grown.area >= need_mm2 and narrowest_width(MultiPolygon([grown])) >= need_mm:
            break
    return grown.simplify(0.02)
