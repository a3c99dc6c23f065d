"""Signed distances of simple shapes, and how two of them melt together. Lengths in mm, negative inside."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float32]
SEGMENTS_PER_SPAN = 8


@dataclass(frozen=True, slots=True, eq=False)
class Ellipsoid:
    """|q|_p = 1 with q = turn^T (x - at) / radii; a power of 2 is the plain ellipsoid, more is boxier."""

    at_mm: Floats
    radii_mm: Floats
    turn: Floats
    power: float

    def box_mm(self) -> tuple[Floats, Floats]:
        reach = np.full(3, self.radii_mm.max() * 3 ** (0.5 - 1 / self.power), dtype=np.float32)
        return self.at_mm - reach, self.at_mm + reach

    def distance_mm(self, points_mm: Floats, reach_mm: float) -> Floats:
        """First-order distance (f - 1) / |grad f| of f = |q|_p: exact on the surface, good near it."""
        q = np.abs((points_mm - self.at_mm) @ self.turn / self.radii_mm) + np.float32(1e-6)
        f = norm_of_power(q, self.power)
        slope = (q / f[:, None]) ** np.float32(self.power - 1) / self.radii_mm
        return np.asarray((f - 1) / np.sqrt(np.einsum("ij,ij->i", slope, slope)), dtype=np.float32)


def norm_of_power(q: Floats, power: float) -> Floats:
    if power == 2:
        return np.asarray(np.sqrt(np.einsum("ij,ij->i", q, q)), dtype=np.float32)
    return np.asarray((q ** np.float32(power)).sum(axis=1) ** np.float32(1 / power), dtype=np.float32)


@dataclass(frozen=True, slots=True, eq=False)
class Tube:
    """A chain of tapered capsules along `path_mm` (n, 3) with `radii_mm` (n,)."""

    path_mm: Floats
    radii_mm: Floats

    def box_mm(self) -> tuple[Floats, Floats]:
        r = self.radii_mm[:, None]
        return (self.path_mm - r).min(axis=0), (self.path_mm + r).max(axis=0)

    def distance_mm(self, points_mm: Floats, reach_mm: float) -> Floats:
        """min over the segments of |x - a - h (b - a)| - r(h), h clipped to 0..1; right where below reach_mm."""
        best = np.full(len(points_mm), 1e3, dtype=np.float32)
        for i in self.segments_near(points_mm.min(axis=0) - reach_mm, points_mm.max(axis=0) + reach_mm):
            near, h = nearest_on_segment(points_mm, self.path_mm[i], self.path_mm[i + 1])
            np.minimum(best, near - (self.radii_mm[i] + h * (self.radii_mm[i + 1] - self.radii_mm[i])), out=best)
        return best

    def segments_near(self, low_mm: Floats, high_mm: Floats) -> NDArray[np.int_]:
        r = self.radii_mm[:, None]
        low, high = self.path_mm - r, self.path_mm + r
        lowest, highest = np.minimum(low[:-1], low[1:]), np.maximum(high[:-1], high[1:])
        return np.flatnonzero(((lowest < high_mm) & (highest > low_mm)).all(axis=1))


def nearest_on_segment(points_mm: Floats, a: Floats, b: Floats) -> tuple[Floats, Floats]:
    """Distance to the segment a-b and where along it (0..1) the nearest point lies."""
    along = b - a
    from_a = points_mm - a
    h = np.clip(from_a @ along / np.float32(along @ along), 0, 1)
    off = from_a - h[:, None] * along
    return np.sqrt(np.einsum("ij,ij->i", off, off)), h.astype(np.float32)


Shape = Ellipsoid | Tube


def smooth_path(knots: Floats, per_span: int = SEGMENTS_PER_SPAN) -> Floats:
    """Catmull-Rom curve through `knots` (n, k), `per_span` steps between two of them.

    >>> len(smooth_path(np.zeros((3, 4), dtype=np.float32), 4))
    9
    """
    if len(knots) < 3:
        return knots
    padded = np.vstack([2 * knots[:1] - knots[1:2], knots, 2 * knots[-1:] - knots[-2:-1]]).astype(np.float32)
    t = (np.arange(per_span) / np.float32(per_span)).astype(np.float32)[:, None]
    spans = [catmull_rom(padded[i : i + 4], t) for i in range(len(knots) - 1)]
    return np.vstack([*spans, knots[-1:]]).astype(np.float32)


def catmull_rom(four: Floats, t: Floats) -> Floats:
    p, a, b, q = four
    curve = 2 * a + (b - p) * t + (2 * p - 5 * a + 4 * b - q) * t**2 + (3 * a - p - 3 * b + q) * t**3
    return np.asarray(curve / 2, dtype=np.float32)


def melt(a: Floats, b: Floats, blend_mm: float) -> tuple[Floats, Floats]:
    """Smooth minimum min(a, b) - h^2 k / 4 with h = max(k - |a - b|, 0) / k, and the weight 0..1 of b."""
    k = np.float32(max(blend_mm, 1e-3))
    h = np.maximum(k - np.abs(a - b), 0) / k
    weight = np.clip(np.float32(0.5) + np.float32(0.5) * (a - b) / k, 0, 1)
    return np.minimum(a, b) - h * h * k / 4, weight
