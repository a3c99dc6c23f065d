"""Texts of a drawing set beside their points: inside the sheet, none over another, off lines where there is room."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from enum import Enum, auto

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely import LineString

Place = tuple[float, float]
Floats = NDArray[np.float64]

EM_MM, STRONG_EM_MM = 7.4 * 25.4 / 72, 9.5 * 25.4 / 72
"""Size of a label's letters and of a strong one's, as the form sets them [mm]."""
SLIM, BROAD = frozenset(" ,.:il·"), frozenset("mwMWOQ")
SLIM_EM, REST_EM, WIDE_EM, BROAD_EM, TALL_EM = 0.33, 0.61, 0.72, 0.89, 1.05
"""Widths of slim signs, of the rest, of digits and capitals, of broad signs; height of a line: no less than the
face's, in ems."""
PAD_MM, BESIDE_MM, LED_MM = 0.4, 1.2, 3.5
"""Room about a text; how far beside its point it is looked for first; from how far a thin line leads to its point."""
RINGS_MM = tuple(float(mm) for mm in range(2, 61, 2))
WAYS = 16
OVER_LINES_MM = 8.0
"""A text goes so much farther from its point rather than over a line of the drawing: our choice."""


CLEAR_MM = 8.0
"""How far a text stands off a point that must stay in sight: our choice."""


class Hold(Enum):
    """Where a text stands: beside its point where there is room; off it, led to it; or in its one place.

    UNDER : its middle under the point. ABREAST : right of the point, its middle at the point's height.
    """

    BESIDE = auto()
    OFF = auto()
    UNDER = auto()
    ABREAST = auto()


FAST = frozenset((Hold.UNDER, Hold.ABREAST))
"""Texts that stand in their one place or are left out."""


@dataclass(frozen=True, slots=True)
class Label:
    """A text and the point that it belongs to; `strong`: larger."""

    at: Place
    text: str
    strong: bool = False
    hold: Hold = Hold.BESIDE


@dataclass(frozen=True, slots=True)
class SetLabel:
    """A text as it is set on a sheet: its box, in which it stands in the middle or at the left, and the line that leads
    to its point where that is far."""

    text: str
    strong: bool
    centered: bool
    low: Place
    high: Place
    leader: tuple[Place, Place] | None


def size_of(label: Label) -> tuple[float, float]:
    """Width and height of a label's box [mm].

    Parameters
    ----------
    label : the text.
    """
    em = STRONG_EM_MM if label.strong else EM_MM
    return (em * sum(map(_wide_em, label.text)) + 2 * PAD_MM, TALL_EM * em + 2 * PAD_MM)


def _wide_em(letter: str) -> float:
    if letter in SLIM:
        return SLIM_EM
    if letter in BROAD:
        return BROAD_EM
    return WIDE_EM if letter.isdigit() or letter.isupper() else REST_EM


def set_labels(
    labels: Sequence[Label],
    wide_mm: float,
    tall_mm: float,
    lines: Sequence[Sequence[Place]],
    bare: Sequence[tuple[Place, Place]] = (),
) -> tuple[SetLabel, ...]:
    """Every label in its own place on a sheet, in their order: the first have the best places.

    One that has but one place is left out where it would be cut there or lie over another.

    Parameters
    ----------
    labels : their points from the sheet's upper left corner, down [mm].
    wide_mm, tall_mm : the sheet [mm].
    lines : what is better left in sight.
    bare : upper left and lower right corners of what no text is moved over; one that has but one place may stand there.
    """
    drawn = shapely.union_all([LineString(points) for points in lines if len(points) > 1])
    shapely.prepare(drawn)
    taken, held = np.zeros((0, 4)), np.array(bare, dtype=np.float64).reshape(-1, 4)
    out: list[SetLabel] = []
    for label in labels:
        fast = label.hold in FAST
        sheet = wide_mm, tall_mm
        box = _fast_box(label, sheet, taken) if fast else _box(label, sheet, np.concatenate([taken, held]), drawn)
        if box is None:
            continue
        taken = np.concatenate([taken, [box]])
        out.append(_set(label, box))
    return tuple(out)


def _fast_box(label: Label, sheet: Place, taken: Floats) -> Floats | None:
    """The box in its one place; none where the sheet cuts it or another lies there."""
    (wide, tall), (x, y) = size_of(label), label.at
    if label.hold is Hold.UNDER:
        low = (x - wide / 2, min(y + BESIDE_MM, sheet[1] - tall))
    else:
        low = (x + BESIDE_MM, y - tall / 2)
    box = np.array([*low, low[0] + wide, low[1] + tall])
    inside = box.min() >= 0.0 and box[2] <= sheet[0] and box[3] <= sheet[1]
    return box if inside and not _overlapping(box[None], taken).any() else None


def _box(label: Label, sheet: Place, taken: Floats, drawn: shapely.Geometry) -> Floats:
    """The box that costs least, left, top, right, bottom: near its point, free of others."""
    wide, tall = size_of(label)
    size = np.array([wide, tall])
    low = np.clip(np.array(list(_corners(label, wide, tall))), 0.0, np.maximum(np.array(sheet) - size, 0.0))
    boxes = np.concatenate([low, low + size], axis=1)
    free = ~_overlapping(boxes, taken)
    if not free.any():
        return np.asarray(boxes[0], np.float64)
    boxes = boxes[free]
    cost = _away(boxes, label.at)
    cost += OVER_LINES_MM * shapely.intersects(drawn, shapely.box(*boxes.T))
    best = int(np.round(cost, 3).argmin())
    return np.asarray(boxes[best], np.float64)


def _corners(label: Label, wide: float, tall: float) -> Iterator[Place]:
    """Where a box's upper left corner may lie, the best first."""
    x, y = label.at
    right, left, above = x + BESIDE_MM, x - BESIDE_MM - wide, y - tall
    off = label.hold is Hold.OFF
    if not off:
        yield from ((right, above), (right, y), (left, above), (left, y), (right, y - tall / 2))
    for ring in (mm for mm in RINGS_MM if not off or mm >= CLEAR_MM):
        for turn in range(WAYS):
            a = 2 * math.pi * turn / WAYS
            along, up = math.cos(a), math.sin(a)
            yield (x + ring * along - wide * (1 - along) / 2, y - ring * up - tall * (1 + up) / 2)


def _overlapping(boxes: Floats, taken: Floats) -> NDArray[np.bool_]:
    a, b = boxes[:, None], taken[None]
    apart = (a[..., 0] >= b[..., 2]) | (a[..., 2] <= b[..., 0]) | (a[..., 1] >= b[..., 3]) | (a[..., 3] <= b[..., 1])
    return np.asarray((~apart).any(axis=1), np.bool_)


def _away(boxes: Floats, at: Place) -> Floats:
    """How far boxes lie from a point [mm]."""
    x = np.maximum(np.maximum(boxes[:, 0] - at[0], at[0] - boxes[:, 2]), 0.0)
    y = np.maximum(np.maximum(boxes[:, 1] - at[1], at[1] - boxes[:, 3]), 0.0)
    away: Floats = np.hypot(x, y)
    return away


def _set(label: Label, box: Floats) -> SetLabel:
    left, top, right, bottom = (round(float(side), 2) for side in box)
    leader = None
    if label.hold is Hold.OFF or (label.hold not in FAST and float(_away(box[None], label.at)[0]) > LED_MM):
        leader = (label.at, (min(max(label.at[0], left), right), min(max(label.at[1], top), bottom)))
    return SetLabel(label.text, label.strong, label.hold is Hold.UNDER, (left, top), (right, bottom), leader)
