"""How thick a wet layer each place holds."""

from __future__ import annotations

from moldwright.mold.seen import held_mm
from moldwright.plan.plan import Plan
from moldwright.told.surfaces.quantity import Solid, SurfaceQuantity
from moldwright.units import show_length
from moldwright.units.printing import show_range
from moldwright.units.system import UnitSystem


def _told(plan: Plan, units: UnitSystem) -> str:
    if not plan.glove.holds:
        return "nobody knows how this surface slopes."
    last = plan.glove.holds[-1]
    layer, wall = show_length(last.layer_mm, units), show_range(last.wall_mm, "length", units)
    return (
        f"the thickest layer of the last coat's mix that stays here, wet: it is laid {layer} thick, and an upright "
        f"wall holds {wall}. Where it is less the coat slides off or drips."
    )


QUANTITY = SurfaceQuantity(
    name="hold",
    rank=25,
    title="Hold",
    row="Holds, wet",
    told=_told,
    colors="hold",
    on=Solid.COAT,
    at=lambda mold, points, normals: held_mm(mold, normals),
    common_mm=lambda plan: None,
    allowed_mm=lambda plan: None,
)
