"""How limbs run: where each leaves the body, whither it goes, and the frames that its sections are set in."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from moldwright.tape import section
from moldwright.tape.parts import Part
from moldwright.tape.section import Floats
from moldwright.tape.told import Limb

ANGLES_DEG = {"left": 180.0, "right": 0.0, "front": 270.0, "back": 90.0}
NEXT = ("right", "left", "front", "back")
"""The sides that limbs take one after the other where none is said."""
CORNERS_DEG = 45.0
SUNK = 0.6
"""How deep a limb's ends sit in the body, of their own radius, so that nothing gapes."""
UNDER = 0.55
"""How far out from the middle a leg stands under the body, of the body's reach there."""
LEAST_RUN = 0.05


@dataclass(frozen=True, slots=True, eq=False)
class Along:
    """Places along a limb and the directions of each section's breadth and depth there, (n, 3) each."""

    at: Floats
    across: Floats
    deep: Floats


def frames(part: Part, body: Part) -> Iterator[Along]:
    """One way for each of a limb's like fellows, spread evenly round the body from its side on.

    Parameters
    ----------
    part : the limb.
    body : the body's stack.

    Source: our own.
    """
    limb = part.limb
    if limb is None:
        return
    start = ANGLES_DEG[limb.side.value if limb.side is not None else NEXT[part.unsided % len(NEXT)]]
    start += CORNERS_DEG if part.count == 4 else 0.0
    for n in range(part.count):
        angle = np.radians(start + 360.0 * n / part.count)
        toward = np.array([np.cos(angle), np.sin(angle)])
        if limb.gap_mm is not None:
            yield _arch(part, limb, body, toward)
        elif _hangs(limb):
            yield _straight(part, *_leg(part, limb, body, toward))
        else:
            yield _straight(part, *_free(part, limb, body, toward))


def body_at(body: Part, z_mm: float, toward: Floats) -> float:
    """How far the body's likely surface is from its axis, level, in a direction [mm].

    Parameters
    ----------
    body : the body's stack.
    z_mm : height above the board, held within the body [mm].
    toward : (2,) unit vector.

    Source: our own.
    """
    loft = body.lofts
    b, d, s = (float(np.interp(z_mm, loft.at_mm, v[0])) for v in (loft.breadth_mm, loft.depth_mm, loft.square))
    x, y = section.outline(np.array(s), 360)
    x, y = x * b / 2.0, y * d / 2.0
    along = x * toward[0] + y * toward[1]
    off = np.abs(x * toward[1] - y * toward[0])
    return float(np.hypot(x, y)[np.argmin(np.where(along > 0, off, np.inf))])


def _ends_at(limb: Limb) -> float:
    return limb.joins_at_mm if limb.ends_at_mm is None else limb.ends_at_mm


def _hangs(limb: Limb) -> bool:
    """Whether a limb goes steeply down."""
    return limb.joins_at_mm - _ends_at(limb) > 0.8 * limb.levels[-1].at_mm


def _radius(part: Part, end: int) -> float:
    loft = part.lofts
    return float(np.sqrt(loft.breadth_mm[0, end] * loft.depth_mm[0, end]) / 2.0)


def _leg(part: Part, limb: Limb, body: Part, toward: Floats) -> tuple[Floats, Floats]:
    """From inside the body straight down, a little outward."""
    ends, low = _ends_at(limb), body.ends.low_mm
    inside = min(max(limb.joins_at_mm, low), float(body.lofts.at_mm[-1]))
    reach = body_at(body, min(inside + _radius(part, 0), body.ends.high_mm), toward)
    under = inside - low < 0.15 * (body.ends.high_mm - low)
    out = max(reach * UNDER, 0.0) if under else max(reach - SUNK * _radius(part, 0), 0.0)
    sunk = limb.joins_at_mm + SUNK * 2.0 * _radius(part, 0)
    return np.array([*(toward * out), sunk]), np.array([*(toward * out), ends])


def _free(part: Part, limb: Limb, body: Part, toward: Floats) -> tuple[Floats, Floats]:
    """From inside the body outward to its end's height, as far out as its length allows."""
    long = part.ends.high_mm
    rise = float(np.clip(_ends_at(limb) - limb.joins_at_mm, -long, long))
    run = float(np.sqrt(max(long**2 - rise**2, (LEAST_RUN * long) ** 2)))
    out = max(body_at(body, limb.joins_at_mm, toward) - SUNK * _radius(part, 0), 0.0)
    start = np.array([*(toward * out), limb.joins_at_mm])
    return start, start + np.array([*(toward * run), rise])


def _straight(part: Part, start: Floats, end: Floats) -> Along:
    at = part.lofts.at_mm
    share = (at - at[0]) / (at[-1] - at[0])
    return _framed(start + share[:, None] * (end - start))


def _arch(part: Part, limb: Limb, body: Part, toward: Floats) -> Along:
    """From the body out and back to it, so that the gap that was told stays open in the middle."""
    at = part.lofts.at_mm
    share = (at - at[0]) / (at[-1] - at[0])
    z = limb.joins_at_mm + share * (_ends_at(limb) - limb.joins_at_mm)
    reach = np.array([body_at(body, float(height), toward) for height in z])
    radius = np.sqrt(part.lofts.breadth_mm[0] * part.lofts.depth_mm[0]) / 2.0
    sunk = reach - SUNK * radius
    open_to = reach.max() + (limb.gap_mm or 0.0) + radius
    swing = np.minimum(np.sin(np.pi * share) * 1.2, 1.0)
    out = np.maximum(sunk + (open_to - sunk) * swing, 0.0)
    return _framed(np.concatenate([out[:, None] * toward, z[:, None]], axis=1))


def _framed(at: Floats) -> Along:
    """Sections square to the way, their breadth level where the way is not itself plumb."""
    step = np.gradient(at, axis=0)
    step /= np.maximum(np.linalg.norm(step, axis=1, keepdims=True), 1e-12)
    flat = (at[-1] - at[0])[:2]
    side = flat if np.hypot(*flat) > 1e-6 else at[len(at) // 2][:2]
    side = side / np.hypot(*side) if np.hypot(*side) > 1e-9 else np.array([1.0, 0.0])
    across = np.broadcast_to(np.array([-side[1], side[0], 0.0]), at.shape)
    return Along(at, across, np.cross(step, across))
