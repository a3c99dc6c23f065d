"""How thick a wet layer each place holds."""

from __future__ import annotations

from math import nan

from moldwright.plan.coats import CoatHold
from moldwright.plan.plan import Plan
from moldwright.sheets.palettes import Palette
from moldwright.told.surfaces.quantity import Solid, SurfaceQuantity
from moldwright.units import show_length, show_share
from moldwright.units.printing import show_range
from moldwright.units.system import UnitSystem
from moldwright.words.marked import words
from moldwright.words.speaker import say, say_count


def _last(plan: Plan) -> CoatHold | None:
    return plan.glove.holds[-1] if plan.glove.holds else None


def stays_mm(plan: Plan) -> tuple[float, float]:
    """What an upright wall and a ceiling hold of the last coat's mix, wet, likely; NaN where nobody knows [mm].

    Parameters
    ----------
    plan : the plan.
    """
    last = _last(plan)
    return (nan, nan) if last is None else (last.wall_mm.likely, last.ceiling_mm.likely)


def _needed_mm(plan: Plan) -> float | None:
    last = _last(plan)
    return None if last is None else last.layer_mm


def _told(plan: Plan, units: UnitSystem) -> str:
    last = _last(plan)
    if last is None:
        return say("nobody knows how this surface slopes.")
    layer, wall = show_length(last.layer_mm, units), show_range(last.wall_mm, "length", units)
    return say(
        "the thickest layer of the last coat's mix that stays here, wet: it is laid {layer} thick, and an upright "
        "wall holds {wall}. Where it is less, hatched, the coat slides off or drips.",
        layer=layer, wall=wall,
    )  # fmt: skip


def _at_bench(plan: Plan, units: UnitSystem) -> str:
    last = _last(plan)
    if last is None:
        return ""
    if last.slumps <= 0.0:
        return say("All of it holds the last coat as it is laid.")
    return say_count(
        "Hatched, {share} of it: lay the last coat thinner there, and go over it again before it gels.",
        "Hatched, {share} of it: lay the last coat there in {layers} layers, each once the one before has tacked up.",
        last.layers,
        share=show_share(last.slumps, 0 if last.slumps >= 0.01 else 1), layers=last.layers,
    )  # fmt: skip


QUANTITY = SurfaceQuantity(
    name="hold",
    rank=25,
    title=words("Hold"),
    row=words("Holds, wet"),
    told=_told,
    colors=Palette.HOLD,
    on=Solid.COAT,
    at="moldwright.mold.seen:held_mm",
    needed_mm=_needed_mm,
    at_bench=_at_bench,
)
