"""The coats of a brushed glove: how thick, how stiff, in which color, laid how."""

from __future__ import annotations

from collections.abc import Sequence

from moldwright.commission.coats import NamedThickness, check_coats
from moldwright.plan.coats import Coat, Gesture, PigmentColor
from moldwright.plan.ids import coat_id

COLORS = tuple(PigmentColor)
DETAIL_SHARE, BRUSH_SHARE, DETAIL_MOST_MM = 0.15, 0.35, 1.0
"""How the usual three coats share the thickness: common practice, no source."""
THIXOTROPE_FIRST_PCT, THIXOTROPE_LAST_PCT = 0.3, 2.0
"""Thixotropic agent in the first and in the last coat, by weight: common practice, no source."""
USUAL_NAMES = ("detail", "brushed", "stick")


def laid_out(thickness_mm: float, coats: Sequence[NamedThickness] = ()) -> tuple[Coat, ...]:
    """The coats from the original outward.

    The usual three: a thin stippled detail coat, a brushed coat, a thick coat laid with a stick, or the maker's own.
    Thixotropic agent rises from coat to coat; every coat has its own color so that a miss shows.

    Parameters
    ----------
    thickness_mm : all coats together [mm], 1 to 30
    coats : the maker's own coats in order (at most 8, names different); empty for the usual three

    Raises InputRefused where the coats do not add up. Source: common practice, no source.

    >>> [(coat.name, coat.thickness_mm, coat.gesture.value) for coat in laid_out(4.0)]
    [('detail', 0.6, 'stipple'), ('brushed', 1.4, 'brush'), ('stick', 2.0, 'stick')]
    """
    check_coats(coats, thickness_mm)
    named = tuple((coat.name, coat.thickness_mm) for coat in coats) or _usual(thickness_mm)
    last = max(len(named) - 1, 1)
    return tuple(
        Coat(coat_id(i + 1), name, thick_mm, _thixotrope_pct(i / last), COLORS[i], _gesture(i, len(named)))
        for i, (name, thick_mm) in enumerate(named)
    )


def _usual(thickness_mm: float) -> tuple[tuple[str, float], ...]:
    detail = min(round(DETAIL_SHARE * thickness_mm, 1), DETAIL_MOST_MM)
    brush = round(BRUSH_SHARE * thickness_mm, 1)
    return tuple(zip(USUAL_NAMES, (detail, brush, round(thickness_mm - detail - brush, 6)), strict=True))


def _thixotrope_pct(place: float) -> float:
    return round(THIXOTROPE_FIRST_PCT + (THIXOTROPE_LAST_PCT - THIXOTROPE_FIRST_PCT) * place, 2)


def _gesture(i: int, count: int) -> Gesture:
    if count == 1:
        return Gesture.BRUSH
    return Gesture.STIPPLE if i == 0 else Gesture.STICK if i == count - 1 else Gesture.BRUSH
