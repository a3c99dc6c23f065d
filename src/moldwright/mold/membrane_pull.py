"""A sheet drawn off a body by its edge: explicit dynamics, damped, so slow that it is at rest all along."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

import numba as nb
import numpy as np
from numpy.typing import NDArray

from moldwright.mold.membrane_contact import Obstacle, away, clear, keep_out, level_ways, middles
from moldwright.mold.membrane_sheet import Sheet, pull

Floats = NDArray[np.float64]

STEPS = 250
"""Steps between two looks at how it goes: our own."""
SPEED = 0.006
"""By how much of a mean side of a triangle the edge moves in a step: our own."""
DAMPING = 0.005
"""Share of its speed that a corner loses in a step: our own."""
TOUCHES_SHARE = 0.15
"""Nearer than this share of a triangle's side the sheet still lies on the body: our own."""


@dataclass(frozen=True, slots=True)
class PullSettings:
    """speed : of the edge, in mean sides of a triangle for each step. damping : share of its speed lost in a step.
    most : stretch at which it is given up."""

    speed: float = SPEED
    damping: float = DAMPING
    most: float = 6.0


@dataclass(frozen=True, slots=True, eq=False)
class Drawn:
    """A sheet drawn off. off : whether it came off. stretch : (m,) the largest that each triangle saw. force : (k,) on the
    edge, look by look [N for mu h = 1 N/mm]; height : (k,) where the edge then was, in the middle of the look [mm]. deepest_mm : furthest that a
    triangle's middle lay in the body. places : (n, 3) where its corners are in the end [mm]."""

    off: bool
    stretch: Floats
    force: Floats
    height: Floats
    deepest_mm: float
    places: Floats


def drawn_off(
    sheet: Sheet,
    obstacle: Obstacle,
    edge: NDArray[np.int64],
    travel_mm: float,
    settings: PullSettings,
    told: Callable[[float], None],
) -> Drawn:
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
    stretch = np.ones(len(sheet.faces))
    sides = np.linalg.norm(x[sheet.faces] - x[np.roll(sheet.faces, 1, axis=1)], axis=2)
    side = float(sides.mean())
    rise = np.copysign(settings.speed * side, travel_mm)
    z = float(x[edge, 2].mean())
    ways, deepest = level_ways(), 0.0
    short = clear(x.copy(), v.copy(), edge, z, 0.0, obstacle.reach, ways, obstacle.origin, obstacle.step)
    looks = int(np.ceil((abs(travel_mm) + short) / abs(rise) / STEPS))
    force, height = [], []
    off, within = False, np.zeros(len(stretch))
    middles(x, sheet.faces, obstacle.field, obstacle.origin, obstacle.step, within)
    for look in range(looks):
        start = z
        pulled, deep, z, short = _advance(
            x, v, sheet.mass, sheet.faces, within, sheet.area, sheet.inverse, edge, z, short, rise, STEPS, settings.damping,
            obstacle.field, obstacle.origin, obstacle.step, obstacle.reach, ways, stretch,
        )  # fmt: skip
        deepest = max(deepest, deep)
        force.append(float(pulled))
        height.append((start + z) / 2)
        told((look + 1) / looks)
        if _touching(x, TOUCHES_SHARE * side, obstacle.field, obstacle.origin, obstacle.step) == 0:
            off = True
            break
        if stretch.max() > settings.most:
            break
    return Drawn(off, stretch, np.array(force), np.array(height), deepest, x)


@nb.njit(cache=True)
def _touching(x: Any, near: float, field: Any, origin: Any, step: float) -> int:
    count = 0
    for n in range(x.shape[0]):
        far, _, _, _ = away(field, origin, step, x[n, 0], x[n, 1], x[n, 2])
        if far < near:
            count += 1
    return count


@nb.njit(cache=True)
def _advance(
    x: Any, v: Any, mass: Any, faces: Any, within: Any, area: Any, inverse: Any, edge: Any, z: float, short: float, rise: float, steps: int,
    damping: float, field: Any, origin: Any, step: float, reach: Any, ways: Any, stretch: Any,
) -> Any:  # fmt: skip
    """So many steps; the mean force on the edge and the deepest middle."""
    force = np.zeros_like(x)
    pulled, deepest = 0.0, 0.0
    for _ in range(steps):
        pull(x, faces, area, inverse, force, stretch)
        for n in edge:
            pulled += force[n, 2]
        for n in range(x.shape[0]):
            for axis in range(3):
                v[n, axis] = (v[n, axis] + force[n, axis] / mass[n]) * (1.0 - damping)
                x[n, axis] += v[n, axis]
        deepest = max(deepest, keep_out(x, v, faces, within, field, origin, step))
        clear(x, v, edge, z, short, reach, ways, origin, step)
        if short > 0.0:
            short -= abs(rise)
        else:
            z += rise
    return -pulled / steps, deepest, z, short
