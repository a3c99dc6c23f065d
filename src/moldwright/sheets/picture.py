"""A finished picture, what it shows in millimeters, and what is written on it."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import Any


class MarkKind(StrEnum):
    """How a mark is set: a number in a disk, a letter in a square, a leaf's number on the leaf; a place by a triangle,
    pointing down where something is least, up where it is most."""

    NUMBER = "number"
    LETTER = "letter"
    LEAF = "leaf"
    LEAST = "least"
    MOST = "most"


@dataclass(frozen=True, slots=True)
class Mark:
    """A word or a number on a picture: `x` share from the left, `y` share from the top, of its middle.

    `to`: the shares of the point that it means, where it was moved aside to stay readable.
    """

    text: str
    x: float
    y: float
    to: tuple[float, float] | None = None
    kind: MarkKind = MarkKind.NUMBER


class Axis(StrEnum):
    """Along which of the board's ways a level view runs, from its left to its right."""

    RIGHT = "right"
    BACK = "back"


@dataclass(frozen=True, slots=True)
class Level:
    """What a level view shows from left to right: along which way, with it or against it (-1), from where [mm]."""

    axis: Axis
    sense: int
    start_mm: float


@dataclass(frozen=True, slots=True)
class Picture:
    """PNG bytes; `name` says what is seen; the picture shows `width_mm` by `height_mm` of the piece.

    `bottom_mm` is the height above the board of the picture's lower edge, where it is a level view; `level`: what it
    shows from left to right, where places are read from it.
    """

    name: str
    png: bytes
    width_mm: float
    height_mm: float
    bottom_mm: float = 0.0
    marks: tuple[Mark, ...] = ()
    level: Level = Level(Axis.RIGHT, 1, 0.0)


@dataclass(frozen=True, slots=True)
class Pictures:
    """Every picture of a plan: `seam` has the four level views, `fill` those that show a spot to pack, `slit` the level
    views that show a slit."""

    apart: Picture
    glove: Picture
    cut: Picture
    seam: tuple[Picture, ...]
    fill: tuple[Picture, ...]
    slit: tuple[Picture, ...] = ()


def placed(picture: Picture, name: str, files: dict[str, bytes]) -> dict[str, Any]:
    """A picture as a form prints it; its bytes go to the files.

    Parameters
    ----------
    picture : the picture.
    name : its file, without ending.
    files : where its bytes are put.
    """
    files[f"{name}.png"] = picture.png
    marks = [{"kind": m.kind, "text": m.text, "x": m.x, "y": m.y, "to": m.to} for m in picture.marks]
    return {
        "file": f"{name}.png", "name": picture.name, "alt": f"Drawing: {picture.name.lower()}", "marks": marks,
        "width_mm": picture.width_mm, "height_mm": picture.height_mm, "bottom_mm": picture.bottom_mm,
    }  # fmt: skip
