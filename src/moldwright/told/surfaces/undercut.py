"""How far each place would catch the shell before undercuts are packed."""

from __future__ import annotations

from moldwright.mold.seen import undercut_mm
from moldwright.mold.undercut import LEAST_DEPTH_MM
from moldwright.plan.plan import Plan
from moldwright.told.surfaces.quantity import Solid, SurfaceQuantity
from moldwright.units import show_length
from moldwright.units.system import UnitSystem


def _told(plan: Plan, units: UnitSystem) -> str:
    free = show_length(LEAST_DEPTH_MM, units)
    return (
        "how far the coats lie in under what overhangs them, seen along the draw of the shell piece over them; "
        f"the rubber gives {free}, what is packed deeper than that stops the shell no more."
    )


QUANTITY = SurfaceQuantity(
    name="undercut",
    rank=20,
    title="Undercut depth",
    row="Undercut, before packing",
    told=_told,
    colors="hold",
    on=Solid.COAT,
    at=undercut_mm,
    common_mm=lambda plan: None,
    allowed_mm=lambda plan: LEAST_DEPTH_MM,
)
