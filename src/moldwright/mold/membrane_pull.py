"""A sheet drawn off a body by its edge: explicit dynamics, damped, so slow that it is at rest all along."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from moldwright.mold.membrane_contact import Obstacle, level_ways
from moldwright.mold.membrane_sheet import RubberSheet
from moldwright.mold.membrane_steps import SPARSE, advance, clear, depths, pull

Floats = NDArray[np.float64]

STEPS = 250
"""Steps between two looks at how it goes: our own."""
SPEED = 0.006
"""By how much of a mean side of a triangle the edge moves in a step: our own."""
DAMPING = 0.005
"""Share of its speed that a corner loses in a step: our own."""
TOO_MUCH_SHARE = 0.01
"""It is given up where more of it than this is stretched too far: our own."""
TOUCHES_SHARE = 0.15
"""Nearer than this share of a triangle's side the sheet still lies on the body: our own."""


@dataclass(frozen=True, slots=True)
class PullSettings:
    """speed : of the edge, in mean sides of a triangle for each step. damping : share of its speed lost in a step.
    most : it is given up where more than a hundredth of it is stretched further."""

    speed: float = SPEED
    damping: float = DAMPING
    most: float = 6.0


@dataclass(frozen=True, slots=True, eq=False)
class DrawnSheet:
    """A sheet drawn off.

    off : whether it came off. stretch : (m,) the largest that each triangle saw. force : (k,) on the edge, look by look
    [N for mu h = 1 N/mm]. height : (k,) where the edge then was, in the middle of the look [mm]. deepest_mm : furthest
    that the sheet got into the body, beyond how it fits. places : (n, 3) where its corners are in the end [mm].
    caught : (3,) where on the body it hung in the end [mm], None where it came off.
    """

    off: bool
    stretch: Floats
    force: Floats
    height: Floats
    deepest_mm: float
    places: Floats
    caught: Floats | None


def drawn_off(
    sheet: RubberSheet,
    obstacle: Obstacle,
    edge: NDArray[np.int64],
    travel_mm: float,
    settings: PullSettings,
    told: Callable[[float], None],
) -> DrawnSheet:
    """The sheet drawn off by its edge, upward; it ends where nothing touches the body any more, or at `travel_mm`.

    Parameters
    ----------
    sheet : unstretched where it is.
    obstacle : the body.
    edge : corners that are held, all at one height.
    travel_mm : how far they are drawn at most [mm], negative downward.
    settings : how.
    told : called with the share done; it may raise to cancel.

    Source: dynamic relaxation with scaled masses (A. S. Day 1965; from memory).
    """
    x, v = sheet.rest.copy(), np.zeros_like(sheet.rest)
    body = obstacle.field, obstacle.origin, obstacle.step
    within = depths(x, *body), depths(x[sheet.faces].mean(axis=1), *body)
    stretch, weight = np.ones(len(sheet.faces)), sheet.area / sheet.area.sum()
    side = float(np.linalg.norm(x[sheet.faces] - x[np.roll(sheet.faces, 1, axis=1)], axis=2).mean())
    rise = np.copysign(settings.speed * side, travel_mm)
    z, hands, deepest = float(x[edge, 2].mean()), _hands(x, edge, obstacle), 0.0
    left = hands.first_mm + hands.spread_mm
    looks = int(np.ceil((abs(travel_mm) + left) / abs(rise) / STEPS))
    force, height, off = [], [], False
    lies = np.ones(len(x), np.bool_)
    for look in range(looks):
        start = z
        pulled, deep, z, left = advance(
            x, v, sheet.mass, sheet.faces, *within, sheet.area, sheet.inverse, edge, z, left, rise, STEPS,
            settings.damping, *body, obstacle.reach, hands.ways, hands.own, hands.spread_mm, stretch,
        )  # fmt: skip
        deepest = max(deepest, deep)
        force.append(float(pulled))
        height.append((start + z) / 2)
        told((look + 1) / looks)
        lies = depths(x, *body, TOUCHES_SHARE * side) > 0.0
        off = not lies.any()
        if off or weight[stretch > settings.most].sum() > TOO_MUCH_SHARE:
            break
    caught = None if off else _caught(sheet, x, lies)
    return DrawnSheet(off, stretch, np.array(force), np.array(height), deepest, x, caught)


def _caught(sheet: RubberSheet, x: Floats, lies: NDArray[np.bool_]) -> Floats:
    """(3,) of the corners that still lie on the body the one about which the sheet is stretched most [mm]."""
    now = np.ones(len(sheet.faces))
    pull(x, sheet.faces, sheet.area, sheet.inverse, np.zeros_like(x), now)
    about = sheet.at_corners(now)
    place: Floats = x[int(np.where(lies, about, 0.0).argmax())]
    return place


@dataclass(frozen=True, slots=True, eq=False)
class _Hands:
    """How the edge is spread: own (WAYS,) how far it reaches along each of `ways` as it lies; first_mm: until it lies
    along its own hull, spread_mm: from there until it clears all that is above [mm]."""

    ways: Floats
    own: Floats
    first_mm: float
    spread_mm: float


def _hands(x: Floats, edge: NDArray[np.int64], obstacle: Obstacle) -> _Hands:
    ways = level_ways()
    own = (x[edge, :2] @ ways.T).max(axis=0)
    z = float(x[edge, 2].mean())
    first_mm = float(clear(x.copy(), np.zeros_like(x), edge, z, own, 0.0, ways, SPARSE * obstacle.step))
    layer = max(int((z - obstacle.origin[2]) / obstacle.step), 0)
    return _Hands(ways, own, first_mm, max(0.0, float((obstacle.reach[layer] - own).max())))
