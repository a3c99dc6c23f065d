"""How far each place is from the seam of the shell."""

from __future__ import annotations

from moldwright.mold.seen import seam_away_mm
from moldwright.plan.plan import Plan
from moldwright.told.surfaces.quantity import Solid, SurfaceQuantity
from moldwright.units import show_length
from moldwright.units.system import UnitSystem


def _told(plan: Plan, units: UnitSystem) -> str:
    return f"how far the nearest seam of the shell is; all seams together run {show_length(plan.shell.seam_mm, units)}."


QUANTITY = SurfaceQuantity(
    name="seam",
    rank=30,
    title="Seam",
    row="To the nearest seam",
    told=_told,
    colors="air",
    on=Solid.RUBBER,
    at=lambda mold, points, normals: seam_away_mm(mold, points),
    common_mm=lambda plan: None,
    allowed_mm=lambda plan: None,
)
