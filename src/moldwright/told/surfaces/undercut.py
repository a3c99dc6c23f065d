"""How far each place would catch the shell before undercuts are packed."""

from __future__ import annotations

from moldwright.mold.measures import LEAST_DEPTH_MM
from moldwright.plan.plan import Plan
from moldwright.sheets.palettes import Palette
from moldwright.told.surfaces.quantity import Solid, SurfaceQuantity
from moldwright.units import show_length
from moldwright.units.system import UnitSystem
from moldwright.words.marked import words
from moldwright.words.speaker import say


def _told(plan: Plan, units: UnitSystem) -> str:
    return say(
        "how far the coats lie in under what overhangs them, seen along the draw of the shell piece over them; "
        "the rubber gives {free}, what is packed deeper than that stops the shell no more.",
        free=show_length(LEAST_DEPTH_MM, units),
    )


QUANTITY = SurfaceQuantity(
    name="undercut",
    rank=20,
    title=words("Undercut depth"),
    row=words("Undercut, before packing"),
    told=_told,
    colors=Palette.HOLD,
    on=Solid.COAT,
    at="moldwright.mold.seen:undercut_mm",
    allowed_mm=lambda plan: LEAST_DEPTH_MM,
)
