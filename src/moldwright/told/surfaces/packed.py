"""How far rubber is packed over the coats at each place, so that the shell draws off."""

from __future__ import annotations

from moldwright.mold.seen import packed_mm
from moldwright.mold.undercut import LEAST_DEPTH_MM
from moldwright.plan.plan import Plan
from moldwright.told.surfaces.quantity import Solid, SurfaceQuantity
from moldwright.units import show_volume
from moldwright.units.system import UnitSystem


def _told(plan: Plan, units: UnitSystem) -> str:
    return (
        "how far rubber is packed over the coats so that the shell draws off: "
        f"{show_volume(plan.glove.fill.volume_ml, units)} in all; hatched where there is any."
    )


QUANTITY = SurfaceQuantity(
    name="packed",
    rank=15,
    title="Packing",
    row="Packed over the coats",
    told=_told,
    colors="thickness",
    on=Solid.RUBBER,
    at=lambda mold, points, normals: packed_mm(mold, points),
    common_mm=lambda plan: None,
    allowed_mm=lambda plan: LEAST_DEPTH_MM,
)
