"""How thick the rubber is at each place."""

from __future__ import annotations

from moldwright.mold.seen import rubber_mm
from moldwright.plan.plan import Plan
from moldwright.told.surfaces.quantity import Solid, SurfaceQuantity
from moldwright.units import show_length
from moldwright.units.system import UnitSystem


def _ordered_mm(plan: Plan) -> float:
    return sum(coat.thickness_mm for coat in plan.glove.coats)


def _told(plan: Plan, units: UnitSystem) -> str:
    ordered = show_length(_ordered_mm(plan), units)
    return f"the least way through the rubber to original or board; all coats together are ordered {ordered} thick."


QUANTITY = SurfaceQuantity(
    name="thickness",
    rank=10,
    title="Thickness",
    row="Rubber here",
    told=_told,
    colors="thickness",
    on=Solid.RUBBER,
    at=lambda mold, points, normals: rubber_mm(mold, points),
    common_mm=_ordered_mm,
    allowed_mm=lambda plan: None,
)
