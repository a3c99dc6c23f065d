"""How far rubber is packed over the coats at each place, so that the shell draws off."""

from __future__ import annotations

from moldwright.mold.measures import LEAST_DEPTH_MM
from moldwright.plan.plan import Plan
from moldwright.sheets.palettes import Palette
from moldwright.told.surfaces.quantity import Solid, SurfaceQuantity
from moldwright.units import show_volume
from moldwright.units.system import UnitSystem
from moldwright.words.marked import words
from moldwright.words.speaker import say


def _told(plan: Plan, units: UnitSystem) -> str:
    return say(
        "how far rubber is packed over the coats so that the shell draws off: {volume} in all; hatched where there is "
        "any.",
        volume=show_volume(plan.glove.fill.volume_ml, units),
    )


QUANTITY = SurfaceQuantity(
    name="packed",
    rank=15,
    title=words("Packing"),
    row=words("Packed over the coats"),
    told=_told,
    colors=Palette.THICKNESS,
    on=Solid.RUBBER,
    at="moldwright.mold.seen:packed_mm",
    allowed_mm=lambda plan: LEAST_DEPTH_MM,
)
