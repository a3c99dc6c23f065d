"""The legend of a quantity on a solid of the screen, and where it is least and most: for the picture and its table."""

from __future__ import annotations

from moldwright.making.screen.packed_parts import ScreenPart
from moldwright.plan.plan import Plan
from moldwright.told.surfaces.extremes import Ends, ends_of, holding
from moldwright.told.surfaces.legend import SurfaceLegend, legend_of
from moldwright.told.surfaces.quantity import SurfaceQuantity


def seen_legend(quantity: SurfaceQuantity, part: ScreenPart, plan: Plan) -> tuple[SurfaceLegend, Ends]:
    """The legend, and both ends.

    Parameters
    ----------
    quantity : what is shown.
    part : the solid that it is shown on.
    plan : of the mold.
    """
    values, areas = part.quantities[quantity.name], part.areas_mm2
    legend = legend_of(values, areas, plan.units, quantity.common_mm(plan), quantity.scale)
    ends = ends_of(part.vertices, values, areas, quantity.places(plan))
    return holding(legend, ends[1]), ends
