"""The coats of a brushed glove: how thick, how stiff, in which color, laid how."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import isclose
from typing import Protocol

from moldwright.errors import InputRefused

GESTURES = ("stipple", "brush", "stick")
COLORS = ("yellow", "blue", "red", "white", "green", "orange", "violet", "black")
"""Pigment colors in the order of the coats, neighbors far apart also without color vision; our choice."""
THIN_MM, THICK_MM = 1.0, 30.0
"""Least and greatest glove that these layers are meant for: common practice, no source."""
DETAIL_SHARE, BRUSH_SHARE, DETAIL_MOST_MM = 0.15, 0.35, 1.0
"""How the usual three coats share the thickness: common practice, no source."""
THIXOTROPE_FIRST_PCT, THIXOTROPE_LAST_PCT = 0.3, 2.0
"""Thixotropic agent in the first and in the last coat, by weight: common practice, no source."""
USUAL_NAMES = ("detail", "brushed", "stick")


class NamedThickness(Protocol):
    """A coat as the maker writes it."""

    @property
    def name(self) -> str: ...

    @property
    def thickness_mm(self) -> float: ...


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
    _refuse_thickness(thickness_mm)
    named = tuple((coat.name, coat.thickness_mm) for coat in coats) or _usual(thickness_mm)
    _refuse_coats(thickness_mm, named)
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


def _refuse_thickness(thickness_mm: float) -> None:
    if not THIN_MM <= thickness_mm <= THICK_MM:
        raise InputRefused(
            "rubber-thickness",
            thickness_mm,
            f"{THIN_MM} to {THICK_MM}",
            "mm",
            "Set mold.thickness; 3 to 8 mm suits most gloves.",
        )


def _refuse_coats(thickness_mm: float, named: tuple[tuple[str, float], ...]) -> None:
    if len(named) > len(COLORS):
        raise InputRefused("too-many-coats", len(named), len(COLORS), "coats", "Lay fewer, thicker coats.")
    if len({name for name, _ in named}) < len(named):
        raise InputRefused(
            "coat-names", ", ".join(name for name, _ in named), "all different", remedy="Give every coat its own name."
        )
    if min(thick for _, thick in named) <= 0:
        raise InputRefused(
            "coat-thickness", min(thick for _, thick in named), "> 0", "mm", "Give every coat a thickness."
        )
    total = sum(thick for _, thick in named)
    if not isclose(total, thickness_mm, abs_tol=0.005):
        listed = " + ".join(f"{thick:g}" for _, thick in named)
        raise InputRefused(
            "coats-sum",
            round(total, 4),
            thickness_mm,
            "mm",
            f"The coats {listed} = {total:g} mm must add up to mold.thickness, {thickness_mm:g} mm: "
            "change a coat or the thickness.",
        )
