"""How far the sheet of rubber itself is strained as the glove comes off, in the middle of its thickness."""

from __future__ import annotations

from moldwright.plan.peel import elongation_pct
from moldwright.plan.plan import Plan
from moldwright.plan.thickness import LengthAt
from moldwright.sheets.palettes import Palette
from moldwright.sheets.seam_words import UNIT, point_text
from moldwright.told.surfaces.quantity import Solid, SurfaceQuantity
from moldwright.told.surfaces.scale import PERCENT, show_percent
from moldwright.units.system import UnitSystem
from moldwright.words.marked import words
from moldwright.words.speaker import say


def _told(plan: Plan, units: UnitSystem) -> str:
    strain = plan.glove.strain
    if strain is None:
        return say("the glove is slit: nobody computed it.")
    most, allowed = show_percent(strain.most_99_pct), show_percent(_allowed(plan))
    return say(
        "how much longer a sheet of the rubber gets here, in the middle of its thickness, drawn up off the piece "
        "inside out: {most} or less nearly everywhere. A third of the elongation at break, {allowed}, is the limit. "
        "The sheet has no flange and no limbs too thin for it: the map of the stretch tells those.",
        most=most, allowed=allowed,
    )  # fmt: skip


def _at_bench(plan: Plan, units: UnitSystem) -> str:
    strain = plan.glove.strain
    if strain is None or not strain.places:
        return ""
    told = (
        f"{show_percent(place.elongation_pct)} ({point_text(place.at, plan.flange.frame, units)})"
        for place in strain.places
    )
    return say(
        "Go slowest where it is darkest. The most first, each with its place (right, back, up, in {unit}): {places}.",
        unit=UNIT[units], places="; ".join(told),
    )  # fmt: skip


def _places(plan: Plan) -> tuple[None, LengthAt] | None:
    """The mark of the map stands at the place that is told first, with what is told there."""
    strain = plan.glove.strain
    if strain is None or not strain.places:
        return None
    return None, LengthAt(strain.places[0].elongation_pct, strain.places[0].at)


def _allowed(plan: Plan) -> float:
    return elongation_pct(plan.glove.peel.allowed)


QUANTITY = SurfaceQuantity(
    name="strain",
    rank=28,
    title=words("Strain"),
    row=words("Strained in peeling"),
    told=_told,
    colors=Palette.THICKNESS,
    on=Solid.RUBBER,
    at="moldwright.mold.seen:strained_pct",
    allowed_mm=_allowed,
    places=_places,
    scale=PERCENT,
    at_bench=_at_bench,
)
