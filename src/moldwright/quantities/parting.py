"""Wax, clay and talc: what keeps shell and rubber, piece and piece, glove and skin of the hand apart."""

from __future__ import annotations

from moldwright.errors import InputRefused
from moldwright.geometry.seam_kind import Seam
from moldwright.materials import Library, Shell
from moldwright.materials.kinds import Consumable, Wax
from moldwright.mold.measures import ShellMeasures
from moldwright.plan.mold import PartingPlan
from moldwright.quantities.need_rows import coating_g
from moldwright.ranges import Range

TALC, CLAY = "talc", "clay"
"""The consumables' sheets that it is reckoned from."""
CLAY_WALL_MM = 10.0
"""Thickness of the clay wall along the seam: common practice, no source."""
HAND_BREADTH_MM = 90.0
"""How far the piece laid first is waxed outside along a lapped seam, a hand's breadth: common practice, no source."""
CLAY_WALL_SPREAD = 0.25
"""How a wall laid by hand comes out against its plan, as a share: common practice, no source."""


def parting(shell: Shell, wax: Wax, measures: ShellMeasures, library: Library) -> PartingPlan:
    """Wax on all rubber and on the edge of each piece but the last laid, talc on the rubber, clay for the walls along
    the seams of a laid shell.

    `wax = coverage coats (A + s w)`, `talc = rate A`, A the rubber, s the seam and w its flange's width, at a lapped
    seam the breadth that is waxed there

    Parameters
    ----------
    shell : its sheet
    wax : that on rubber and seam
    measures : the shell's
    library : the sheets of talc and clay

    Raises InputRefused ("sheet-incomplete") for clay without a density. Source: the sheets.
    """
    rubber_m2, seam_m2 = measures.area_mm2 * 1e-6, measures.seam_mm * waxed_mm(measures) * 1e-6
    walled = shell.making.by_hand and measures.seam is Seam.WALL
    return PartingPlan(
        wax_g=coating_g(wax, rubber_m2 + seam_m2),
        talc_g=library.consumable(TALC).rate_per_use.range * rubber_m2,
        clay_g=clay_wall_g(measures, library.consumable(CLAY)) if walled else Range.exactly(0.0),
    )


def waxed_mm(measures: ShellMeasures) -> float:
    """How wide the piece laid first is waxed along a seam [mm]: its flange's face, or a hand's breadth and all the lap.

    Parameters
    ----------
    measures : the shell's

    Source: common practice, no source.
    """
    return max(measures.lap_mm, HAND_BREADTH_MM) if measures.seam is Seam.LAP else measures.seam_flange_mm


def clay_wall_g(measures: ShellMeasures, clay: Consumable) -> Range:
    """Clay for a wall along the seam, as high as the seam's flange is wide [g]: `s w t rho`.

    The seam is as long as the steps tell it; in through-holes a divider parts the pieces and no wall stands.

    Parameters
    ----------
    measures : length of the seam and width of its flange
    clay : its sheet, with the density

    Raises InputRefused ("sheet-incomplete"). Source: a wall 10 mm thick, common practice, no source; the sheet.
    """
    if clay.density_g_ml is None:
        raise InputRefused("sheet-incomplete", f"{clay.id}.density_g_ml", "a value", remedy="Add it to the sheet.")
    wall_ml = measures.seam_mm * measures.seam_flange_mm * CLAY_WALL_MM / 1000.0
    low, likely, high = (clay.density_g_ml.low, clay.density_g_ml.likely, clay.density_g_ml.high)
    laid_ml = Range.about(wall_ml, CLAY_WALL_SPREAD)
    return Range(laid_ml.low * low, laid_ml.likely * likely, laid_ml.high * high)
