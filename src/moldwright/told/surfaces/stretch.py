"""How far the rubber of each place is stretched as the glove comes off."""

from __future__ import annotations

from moldwright.plan.peel import PeelWay, elongation_pct
from moldwright.plan.plan import Plan
from moldwright.plan.thickness import LengthAt
from moldwright.sheets.palettes import Palette
from moldwright.told.surfaces.quantity import Solid, SurfaceQuantity
from moldwright.told.surfaces.scale import TIMES, show_times
from moldwright.units import show_share
from moldwright.units.system import UnitSystem
from moldwright.words.marked import words
from moldwright.words.speaker import say


def _told(plan: Plan, units: UnitSystem) -> str:
    most, allowed = plan.glove.peel.shape.stretch, plan.glove.peel.allowed
    return say(
        "how many times its own length a loop of rubber here is stretched to pass over what lies beyond it, if nothing "
        "is slit: {most} at most, {longer} longer. A third of the elongation at break is {allowed}, hatched beyond.",
        most=show_times(most), longer=show_share(elongation_pct(most) / 100.0, 0), allowed=show_times(allowed),
    )  # fmt: skip


def _at_bench(plan: Plan, units: UnitSystem) -> str:
    if plan.glove.peel.way is PeelWay.SLIDE or not plan.glove.peel.shape.places:
        return ""
    if plan.glove.peel.way is PeelWay.SLIT:
        return say("Hatched: it passes only when it is slit. Where it is darkest ease it over by hand, slowly.")
    return say("Where it is darkest ease the rubber over by hand, slowly, never by a jerk or a tool.")


def _places(plan: Plan) -> tuple[None, LengthAt | None]:
    """The mark stands at the tightest loop, as the steps tell its height, with the stretch that is told there."""
    shape = plan.glove.peel.shape
    return None, next((LengthAt(shape.stretch, place.at) for place in shape.places), None)


def _allowed(plan: Plan) -> float:
    return plan.glove.peel.allowed


QUANTITY = SurfaceQuantity(
    name="stretch",
    rank=27,
    title=words("Stretch"),
    row=words("Stretched in peeling"),
    told=_told,
    colors=Palette.THICKNESS,
    on=Solid.RUBBER,
    at="moldwright.mold.seen:stretched",
    allowed_mm=_allowed,
    places=_places,
    scale=TIMES,
    at_bench=_at_bench,
)
