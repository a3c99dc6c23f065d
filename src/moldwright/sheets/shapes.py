"""Plain shapes of a drawing in millimeters, to the right and down, as the forms draw them (`press/shapes.typ`)."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import Any

Place = tuple[float, float]
Line = tuple[Place, ...]
Color = tuple[int, int, int]

BLACK: Color = (0, 0, 0)
WHITE: Color = (255, 255, 255)
FINE_MM = 4
"""Decimals of a millimeter that are kept."""


class Anchor(StrEnum):
    """Which part of a text stands at its place."""

    MIDDLE = "middle"
    LEFT = "left"
    RIGHT = "right"


@dataclass(frozen=True, slots=True)
class Area:
    """An even ground within rings; what lies in two of them is left out."""

    rings: tuple[Line, ...]
    fill: Color


@dataclass(frozen=True, slots=True)
class Wire:
    """A line through points, `wide_mm` wide."""

    points: Line
    wide_mm: float
    color: Color = BLACK
    dashed: bool = False


@dataclass(frozen=True, slots=True)
class Disc:
    """A circle: filled where `fill` is told, its edge drawn where `wide_mm` is above 0."""

    middle: Place
    radius_mm: float
    wide_mm: float = 0.0
    color: Color = BLACK
    fill: Color | None = None


@dataclass(frozen=True, slots=True)
class Note:
    """A text at a place, on a `ground` of its own where one is told; `turned_deg` clockwise about it."""

    at: Place
    text: str
    size_pt: float
    side: Anchor = Anchor.MIDDLE
    color: Color = BLACK
    bold: bool = False
    turned_deg: float = 0.0
    ground: Color | None = None


Shape = Area | Wire | Disc | Note


def shape_data(shape: Shape) -> dict[str, Any]:
    """What the form draws of a shape.

    Parameters
    ----------
    shape : in millimeters from the drawing's upper left corner.
    """
    match shape:
        case Area(rings, fill):
            return {"kind": "patch", "rings": [_line(ring) for ring in rings], "fill": _hex(fill)}
        case Wire(points, wide, color, dashed):
            return {"kind": "wire", "points": _line(points), "wide": wide, "color": _hex(color), "dashed": dashed}
        case Disc(middle, radius, wide, color, fill):
            at = {"at": _place(middle), "radius": radius}
            return {"kind": "disc", **at, "wide": wide, "color": _hex(color), "fill": _ground(fill)}
        case Note(at_, text, size, side, color, bold, turned, ground):
            told = {"text": text, "size": size, "side": side.value, "color": _hex(color), "bold": bold}
            return {"kind": "note", "at": _place(at_), "turned": turned, "fill": _ground(ground), **told}


def box(left: float, top: float, right: float, bottom: float) -> Line:
    """The ring of a rectangle.

    Parameters
    ----------
    left, top, right, bottom : its sides [mm].
    """
    return ((left, top), (right, top), (right, bottom), (left, bottom))


def _line(points: Line) -> list[list[float]]:
    return [_place(point) for point in points]


def _place(point: Place) -> list[float]:
    return [round(point[0], FINE_MM), round(point[1], FINE_MM)]


def _ground(color: Color | None) -> str | None:
    return None if color is None else _hex(color)


def _hex(color: Color) -> str:
    return "#{:02x}{:02x}{:02x}".format(*color)
