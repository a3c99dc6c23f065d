"""A quantity laid on its surface and drawn: what is kept of it, what it is asked with, and how it is told on paper."""

from __future__ import annotations

from dataclasses import dataclass

from moldwright.plan.plan import Plan
from moldwright.plan.thickness import LengthAt
from moldwright.sheets.map_page import ShownLeaf, ShownMap
from moldwright.sheets.palettes import LEAF_COLORS
from moldwright.sheets.picture import Picture
from moldwright.sheets.seam_words import UNIT, point_text
from moldwright.told.surfaces.legend import SurfaceLegend
from moldwright.told.surfaces.quantity import SurfaceQuantity, quantities_on_surfaces
from moldwright.words.speaker import say


@dataclass(frozen=True, slots=True)
class MapAsked:
    """What shapes a quantity's map beside the solids: as the quantity tells it of a plan.

    Parameters
    ----------
    name : of the quantity.
    common_mm, needed_mm, allowed_mm : see `SurfaceQuantity`.
    places : where it is least and most; None: they are found.
    """

    name: str
    common_mm: float | None
    needed_mm: float | None
    allowed_mm: float | None
    places: tuple[LengthAt | None, LengthAt | None] | None


@dataclass(frozen=True, slots=True)
class SurfaceMap:
    """A drawn quantity. `least`, `most`: None where many places are as little or as much."""

    name: str
    legend: SurfaceLegend
    views: tuple[Picture, ...]
    least: LengthAt | None
    most: LengthAt | None


@dataclass(frozen=True, slots=True)
class SurfaceMaps:
    """All of a plan."""

    maps: tuple[SurfaceMap, ...]


def on_paper(plan: Plan) -> tuple[SurfaceQuantity, ...]:
    """The quantities that a plan's bench sheets show.

    Parameters
    ----------
    plan : the plan.
    """
    return tuple(each for each in quantities_on_surfaces() if each.at_bench and each.at_bench(plan, plan.units))


def asked_of(plan: Plan) -> tuple[MapAsked, ...]:
    """What shapes their maps.

    Parameters
    ----------
    plan : the plan.
    """
    return tuple(
        MapAsked(each.name, each.common_mm(plan), each.needed_mm(plan), each.allowed_mm(plan), each.places(plan))
        for each in on_paper(plan)
    )


def shown_maps(plan: Plan, drawn: SurfaceMaps) -> tuple[ShownMap, ...]:
    """The maps in words, in the plan's units.

    Parameters
    ----------
    plan : the plan.
    drawn : its maps.
    """
    maps = {each.name: each for each in drawn.maps}
    return tuple(_shown(plan, each, maps[each.name]) for each in on_paper(plan))


def _shown(plan: Plan, quantity: SurfaceQuantity, its: SurfaceMap) -> ShownMap:
    units, legend = plan.units, its.legend
    told = quantity.told(plan, units)
    colors = LEAF_COLORS[quantity.colors]
    return ShownMap(
        name=quantity.name,
        title=say(quantity.title),
        told=told[:1].upper() + told[1:],
        at_bench="" if quantity.at_bench is None else quantity.at_bench(plan, units),
        leaves=tuple(map(ShownLeaf, colors, legend.leaves_told(), legend.shares_told)),
        unit=legend.unit,
        least=end_words(say("least"), its.least, quantity, plan),
        most=end_words(say("most"), its.most, quantity, plan),
        views=its.views,
    )


def end_words(word: str, place: LengthAt | None, quantity: SurfaceQuantity, plan: Plan) -> str:
    """How much it is where it is least or most, and where that is; "" for no place.

    Parameters
    ----------
    word : which of both it is.
    place : where, and how much.
    quantity, plan : of which; in the plan's units.
    """
    if place is None:
        return ""
    at = f"{point_text(place.at, plan.flange.frame, plan.units)} {UNIT[plan.units]}"
    value = quantity.scale.show(place.mm, plan.units)
    return say("{word} {length}, right, back, up: {at}", word=word, length=value, at=at)
