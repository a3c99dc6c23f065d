"""What a person with a ruler answers about bowls, to the millimeter, from the true body."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import trimesh
from scipy import ndimage

from moldwright.photos.ask import Ask, Bowl, BowlFloor

ACROSS = 41
LEAST_MM = 3.0
RIM_PERCENTILE = 90
FULL = {BowlFloor.FLAT: (0.88, 1.1), BowlFloor.ROUND: (0.0, 0.74)}
"""What share of its cylinder a bowl has that a person calls flat or round; between the two nothing is told."""


def answers(body: trimesh.Trimesh, asks: Sequence[Ask]) -> tuple[Bowl, ...]:
    """An answer to each question: the hollow below the rim in the level place, or that there is none."""
    return tuple(_answer(body, ask) for ask in asks)


def _answer(body: trimesh.Trimesh, ask: Ask) -> Bowl:
    heights, cell_mm = _heights(body, ask)
    rim = float(np.percentile(heights, RIM_PERCENTILE))
    middle = heights[ACROSS // 3 : -(ACROSS // 3), ACROSS // 3 : -(ACROSS // 3)]
    deep = rim - float(np.percentile(middle, 20))
    if deep < LEAST_MM:
        return Bowl(ask.name, 0.0)
    mouth = _about_the_middle(heights < rim - deep / 4)
    wide = 2 * cell_mm * np.sqrt(mouth.sum() / np.pi)
    full = float((rim - heights[mouth]).mean()) / deep
    floor = next((kind for kind, (low, high) in FULL.items() if low <= full <= high), None)
    return Bowl(ask.name, float(round(deep)), float(round(wide)), floor)


def _about_the_middle(low: np.ndarray) -> np.ndarray:
    """The hollow that lies in the middle; what is beyond its rim is none of it."""
    labels, _ = ndimage.label(low)
    third = ACROSS // 3
    here = labels[third:-third, third:-third]
    return np.asarray(labels == np.bincount(here[here > 0]).argmax())


def _heights(body: trimesh.Trimesh, ask: Ask) -> tuple[np.ndarray, float]:
    """How high the true body is on a square raster about the place, and the raster's step."""
    reach = 0.6 * ask.across_mm
    at = np.linspace(-reach, reach, ACROSS)
    x, y = (each.ravel() for each in np.meshgrid(at, at))
    over = float(body.bounds[1, 2]) + 10.0
    start = np.column_stack([x + ask.at_mm[0], y + ask.at_mm[1], np.full(len(x), over)])
    hit, ray, _ = body.ray.intersects_location(start, np.tile([0.0, 0.0, -1.0], (len(start), 1)))
    heights = np.zeros(len(start))
    np.maximum.at(heights, ray, hit[:, 2])
    return heights.reshape(ACROSS, ACROSS), float(at[1] - at[0])
