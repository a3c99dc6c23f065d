"""How thick the rubber is at each place."""

from __future__ import annotations

from moldwright.plan.plan import Plan
from moldwright.plan.thickness import LengthAt, ThicknessPlan
from moldwright.sheets.palettes import Palette
from moldwright.sheets.seam_words import UNIT, point_text
from moldwright.told.surfaces.quantity import Solid, SurfaceQuantity
from moldwright.units import show_length
from moldwright.units.system import UnitSystem
from moldwright.words.marked import words
from moldwright.words.speaker import say


def _ordered_mm(plan: Plan) -> float:
    return sum(coat.thickness_mm for coat in plan.glove.coats)


def _needed_mm(plan: Plan) -> float | None:
    thickness = plan.glove.thickness
    return None if thickness is None else thickness.ordered_mm - thickness.sampled_mm


def _told(plan: Plan, units: UnitSystem) -> str:
    ordered = show_length(_ordered_mm(plan), units)
    told = say("the least way through the rubber to original or board; all coats together are ordered {ordered} thick.",
               ordered=ordered)  # fmt: skip
    thickness = plan.glove.thickness
    return told if thickness is None else " ".join((told, _least(thickness, plan, units), *_foot(thickness, units)))


def _least(thickness: ThicknessPlan, plan: Plan, units: UnitSystem) -> str:
    """Where it is thinnest, and why it is less than was ordered."""
    least = show_length(thickness.least.mm, units)
    at = f"{point_text(thickness.least.at, plan.flange.frame, units)} {UNIT[units]}"
    if thickness.least.mm >= thickness.ordered_mm:
        return say("It is {least} at least, right, back, up: {at}.", least=least, at=at)
    return say(
        "It is {least} at least, right, back, up: {at}, where its solid was sampled in steps and an edge is rounded.",
        least=least, at=at,
    )  # fmt: skip


def _foot(thickness: ThicknessPlan, units: UnitSystem) -> tuple[str, ...]:
    if thickness.foot is None:
        return ()
    reach = show_length(thickness.foot.reach_mm, units)
    return (say("Under the foot it runs out to an edge, up to {reach} in.", reach=reach),)


def _at_bench(plan: Plan, units: UnitSystem) -> str:
    return say(
        "Touch the last coat with its gauge at the marks, never pressed. "
        "Where it is darkest it is packed: stiff to roll."
    )


def _places(plan: Plan) -> tuple[LengthAt, LengthAt] | None:
    thickness = plan.glove.thickness
    return None if thickness is None else (thickness.least, thickness.most)


QUANTITY = SurfaceQuantity(
    name="thickness",
    rank=10,
    title=words("Thickness"),
    row=words("Rubber here"),
    told=_told,
    colors=Palette.THICKNESS,
    on=Solid.RUBBER,
    at="moldwright.mold.seen:rubber_mm",
    common_mm=_ordered_mm,
    needed_mm=_needed_mm,
    places=_places,
    at_bench=_at_bench,
)
