"""The coats of a brushed glove: how thick, how stiff, in which color, laid how."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from moldwright.commission.coats import NamedThickness, check_coats

GESTURES = ("stipple", "brush", "stick")
COLORS = ("yellow", "blue", "red", "white", "green", "orange", "violet", "black")
"""Pigment colors in the order of the coats, neighbors far apart also without color vision; our choice."""
DETAIL_SHARE, BRUSH_SHARE, DETAIL_MOST_MM = 0.15, 0.35, 1.0
"""How the usual three coats share the thickness: common practice, no source."""
THIXOTROPE_FIRST_PCT, THIXOTROPE_LAST_PCT = 0.3, 2.0
"""Thixotropic agent in the first and in the last coat, by weight: common practice, no source."""
USUAL_NAMES = ("detail", "brushed", "stick")


@dataclass(frozen=True, slots=True)
class CoatLayer:
    """One coat; `gesture`: "stipple", "brush" or "stick"."""

    name: str
    thickness_mm: float
    thixotrope_pct: float
    pigment: str
    gesture: str


def coat_layers(thickness_mm: float, coats: Sequence[NamedThickness] = ()) -> tuple[CoatLayer, ...]:
    """The coats from the original outward.

    The usual three: a thin stippled detail coat, a brushed coat, a thick coat laid with a stick, or the maker's own.
    Thixotropic agent rises from coat to coat; every coat has its own color so that a miss shows.

    Parameters
    ----------
    thickness_mm : all coats together [mm], 1 to 30
    coats : the maker's own coats in order (at most 8, names different); empty for the usual three

    Raises InputRefused where the coats do not add up. Source: common practice, no source.

    >>> [(coat.name, coat.thickness_mm, coat.gesture) for coat in coat_layers(4.0)]
    [('detail', 0.6, 'stipple'), ('brushed', 1.4, 'brush'), ('stick', 2.0, 'stick')]
    """
    check_coats(coats, thickness_mm)
    named = tuple((coat.name, coat.thickness_mm) for coat in coats) or _usual(thickness_mm)
    last = max(len(named) - 1, 1)
    return tuple(
        CoatLayer(name, thick_mm, _thixotrope_pct(i / last), COLORS[i], _gesture(i, len(named)))
        for i, (name, thick_mm) in enumerate(named)
    )


def _usual(thickness_mm: float) -> tuple[tuple[str, float], ...]:
    detail = min(round(DETAIL_SHARE * thickness_mm, 1), DETAIL_MOST_MM)
    brush = round(BRUSH_SHARE * thickness_mm, 1)
    return tuple(zip(USUAL_NAMES, (detail, brush, round(thickness_mm - detail - brush, 6)), strict=True))


def _thixotrope_pct(place: float) -> float:
    return round(THIXOTROPE_FIRST_PCT + (THIXOTROPE_LAST_PCT - THIXOTROPE_FIRST_PCT) * place, 2)


def _gesture(i: int, count: int) -> str:
    if count == 1:
        return "brush"
    return GESTURES[0] if i == 0 else GESTURES[2] if i == count - 1 else GESTURES[1]
