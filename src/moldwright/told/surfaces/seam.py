"""How far each place is from the seam of the shell."""

from __future__ import annotations

from moldwright.plan.plan import Plan
from moldwright.sheets.palettes import Palette
from moldwright.told.surfaces.quantity import Solid, SurfaceQuantity
from moldwright.units import show_length
from moldwright.units.system import UnitSystem
from moldwright.words.marked import words
from moldwright.words.speaker import say


def _told(plan: Plan, units: UnitSystem) -> str:
    return say(
        "how far the nearest seam of the shell is; all seams together run {seam}.",
        seam=show_length(plan.shell.seam_mm, units),
    )


QUANTITY = SurfaceQuantity(
    name="seam",
    rank=30,
    title=words("Seam"),
    row=words("To the nearest seam"),
    told=_told,
    colors=Palette.AWAY,
    on=Solid.RUBBER,
    at="moldwright.mold.seen:seam_away_mm",
)
