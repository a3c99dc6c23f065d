"""The coats of a brushed glove: how thick, how stiff, in which color, laid how, in how many layers."""

from __future__ import annotations

from collections.abc import Sequence
from math import ceil

from moldwright.commission.coats import NamedThickness, check_coats
from moldwright.errors import InputRefused
from moldwright.materials import Figure, Rubber
from moldwright.plan.coats import Coat, Gesture, PigmentColor
from moldwright.plan.ids import coat_id
from moldwright.ways import figure, named_key, own_name, word

COLORS = tuple(PigmentColor)
DETAIL_SHARE, BRUSH_SHARE, DETAIL_MOST_MM = 0.15, 0.35, 1.0
"""How the usual three coats share the thickness: common practice, no source."""
THIXOTROPE_FIRST_PCT, THIXOTROPE_LAST_PCT = 0.3, 2.0
"""Thixotropic agent in the first and in the last coat, by weight: common practice, no source."""
USUAL_NAMES, THIN_NAMES = ("detail", "brushed", "stick"), ("detail", "brushed", "outer")
"""What the usual coats are called, laid thick or in thin layers."""
AGREE_WITHIN_MM = 1e-6


def laid_out(thickness_mm: float, coats: Sequence[NamedThickness], rubber: Rubber) -> tuple[Coat, ...]:
    """The coats from the original outward.

    The usual three: a thin stippled detail coat, a brushed coat, a thick coat laid with a stick, or the maker's own.
    A rubber that dries (`pass_mm` of its sheet) is brushed on in layers, all of them, each dried before the next.
    Thixotropic agent rises from coat to coat; every coat has its own color so that a miss shows.

    Parameters
    ----------
    thickness_mm : all coats together [mm], within the sheet's `glove_mm`
    coats : the maker's own coats in order (at most 8, names different); empty for the usual three
    rubber : its sheet

    `passes = ceil(thickness / pass)`. Raises InputRefused where the coats do not add up ("coats-disagree") or this
    class is not laid so ("glove-not-of-class", "coat-not-of-class"). Source: common practice, no source.

    >>> from moldwright.materials import library
    >>> silicone, latex = library().rubber("addition-cure-a10-slow"), library().rubber("latex")
    >>> [(coat.name, coat.thickness_mm, coat.gesture.value) for coat in laid_out(4.0, (), silicone)]
    [('detail', 0.6, 'stipple'), ('brushed', 1.4, 'brush'), ('stick', 2.0, 'stick')]
    >>> [coat.passes for coat in laid_out(4.0, (), latex)]
    [2, 5, 7]
    """
    check_coats(coats, thickness_mm)
    _glove_of_class(thickness_mm, rubber)
    named = tuple((coat.name, coat.thickness_mm) for coat in coats) or _usual(thickness_mm, rubber)
    _coats_of_class(named, rubber)
    last = max(len(named) - 1, 1)
    return tuple(
        Coat(
            coat_id(i + 1),
            name,
            thick_mm,
            _thixotrope_pct(i / last),
            COLORS[i],
            _gesture(i, len(named), rubber),
            _passes(thick_mm, rubber),
        )
        for i, (name, thick_mm) in enumerate(named)
    )


def _glove_of_class(thickness_mm: float, rubber: Rubber) -> None:
    if _outside(thickness_mm, rubber.glove_mm):
        low, high = figure(rubber.glove_mm.low, "mm"), figure(rubber.glove_mm.high, "mm")
        remedy = (
            f"A glove of {word(rubber.name)} is laid {low} to {high} thick; thinner it tears, thicker it will not "
            f"peel: change {named_key('mold.thickness')}, or take another rubber."
        )
        found_mm, limit_mm = _past(thickness_mm, rubber.glove_mm)
        raise InputRefused("glove-not-of-class", found_mm, limit_mm, "mm", remedy)


def _coats_of_class(named: Sequence[tuple[str, float]], rubber: Rubber) -> None:
    for i, (name, thick_mm) in enumerate(named):
        first = i == 0 and len(named) > 1
        limits = rubber.detail_mm if first else rubber.coat_mm
        if _outside(thick_mm, limits):
            low, high, of = figure(limits.low, "mm"), figure(limits.high, "mm"), word(rubber.name)
            coat, coats = own_name(name), named_key("mold.coats")
            remedy = (
                f"The first coat, of {of}, is laid {low} to {high} thick; it is stippled thin into the detail: change "
                f"it in {coats}."
                if first
                else f"Coat {coat}, of {of}, is laid {low} to {high} thick; thicker it sags, thinner it leaves gaps: "
                f"change it in {coats}."
            )
            found_mm, limit_mm = _past(thick_mm, limits)
            raise InputRefused("coat-not-of-class", found_mm, limit_mm, "mm", remedy)


def _outside(thick_mm: float, limits: Figure) -> bool:
    return not limits.low - AGREE_WITHIN_MM <= thick_mm <= limits.high + AGREE_WITHIN_MM


def _past(found_mm: float, limits: Figure) -> tuple[float, float]:
    """What was found, and the limit that it passes."""
    return round(found_mm, 4), limits.high if found_mm > limits.high else limits.low


def _usual(thickness_mm: float, rubber: Rubber) -> tuple[tuple[str, float], ...]:
    most_mm = min(DETAIL_MOST_MM, rubber.detail_mm.high)
    detail = min(max(round(DETAIL_SHARE * thickness_mm, 1), rubber.detail_mm.low), most_mm)
    brush = round(BRUSH_SHARE * thickness_mm, 1)
    names = USUAL_NAMES if rubber.pass_mm is None else THIN_NAMES
    return tuple(zip(names, (detail, brush, round(thickness_mm - detail - brush, 6)), strict=True))


def _passes(thick_mm: float, rubber: Rubber) -> int:
    return 1 if rubber.pass_mm is None else max(1, ceil(thick_mm / rubber.pass_mm.likely - AGREE_WITHIN_MM))


def _thixotrope_pct(place: float) -> float:
    return round(THIXOTROPE_FIRST_PCT + (THIXOTROPE_LAST_PCT - THIXOTROPE_FIRST_PCT) * place, 2)


def _gesture(i: int, count: int, rubber: Rubber) -> Gesture:
    if count == 1:
        return Gesture.BRUSH
    if i == 0:
        return Gesture.STIPPLE
    return Gesture.STICK if i == count - 1 and rubber.pass_mm is None else Gesture.BRUSH
