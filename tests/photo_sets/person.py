"""What a person with a ruler answers about bowls, to the millimeter, from the true body."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import trimesh

from moldwright.photos.ask import Ask, Bowl, BowlFloor

ACROSS = 41
LEAST_MM = 3.0
RIM_PERCENTILE, MIDDLE = 90, 0.4
FULL = {BowlFloor.FLAT: (0.88, 1.1), BowlFloor.ROUND: (0.0, 0.74)}
"""What share of its cylinder a bowl has that a person calls flat or round; between the two nothing is told."""


def answers(body: trimesh.Trimesh, asks: Sequence[Ask]) -> tuple[Bowl, ...]:
    """An answer to each question: the hollow below the rim in the level place, or that there is none."""
    return tuple(_answer(body, ask) for ask in asks)


def _answer(body: trimesh.Trimesh, ask: Ask) -> Bowl:
    heights, away, cell_mm2 = _heights(body, ask)
    rim = float(np.percentile(heights, RIM_PERCENTILE))
    deep = rim - float(np.percentile(heights[away < MIDDLE * away.max()], 20))
    if deep < LEAST_MM:
        return Bowl(ask.name, 0.0)
    mouth = heights < rim - deep / 4
    wide = 2 * np.sqrt(mouth.sum() * cell_mm2 / np.pi)
    full = float((rim - heights[mouth]).mean()) / deep
    floor = next((kind for kind, (low, high) in FULL.items() if low <= full <= high), None)
    return Bowl(ask.name, float(round(deep)), float(round(wide)), floor)


def _heights(body: trimesh.Trimesh, ask: Ask) -> tuple[np.ndarray, np.ndarray, float]:
    """How high the true body is on a raster of the place, how far each point is from its middle, the raster's cell."""
    radius = 0.6 * ask.across_mm
    at = np.linspace(-radius, radius, ACROSS)
    x, y = (each.ravel() for each in np.meshgrid(at, at))
    inside = np.hypot(x, y) <= radius
    over = float(body.bounds[1, 2]) + 10.0
    start = np.column_stack([x[inside] + ask.at_mm[0], y[inside] + ask.at_mm[1], np.full(inside.sum(), over)])
    hit, ray, _ = body.ray.intersects_location(start, np.tile([0.0, 0.0, -1.0], (len(start), 1)))
    heights = np.zeros(len(start))
    np.maximum.at(heights, ray, hit[:, 2])
    return heights, np.hypot(x, y)[inside], float(at[1] - at[0]) ** 2
