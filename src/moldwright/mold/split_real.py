"""Splits of which every piece is of a size to be held."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from moldwright.mold.space import Directions, Space
from moldwright.mold.split import CoarseSplit, SpaceCut

PULLS = (1 / 8, 1 / 4, 1 / 2, 1.0, 2.0, 4.0)
"""What is put, as a share of a hidden cell and the space's reach, on a point that a piece takes which moves off another
way, where a piece is too small to be held: our own."""


def to_be_held(cut: SpaceCut, split: CoarseSplit) -> CoarseSplit | None:
    """A split of which each piece can be held: where one is too small, points are drawn toward the piece that moves off
    their way, more and more; None where that does not help.

    Parameters
    ----------
    cut : the space.
    split : of it.

    Source: our own.
    """
    if cut.is_real(split):
        return split
    pull_ml = _away(cut.space, split.directions) * np.float32(cut.space.grid.step_mm**3 / 1000)
    ways, labels = cut.ways(split.directions), split.labels[cut.space.free]
    for share in PULLS:
        for number in range(split.pieces):
            labels = cut.points.moved(labels, ways, number, np.float32(share) * pull_ml, in_order=split.in_order)
        drawn = cut.split(split.directions, labels, split.in_order)
        if cut.is_real(drawn):
            return drawn
    return None


def _away(space: Space, draws: Directions) -> NDArray[np.float32]:
    """(k, n) how much farther a point lies from the middle along some draw than along each, by the whole reach."""
    places = np.argwhere(space.free) * space.grid.step_mm
    places -= places.mean(axis=0)
    along = (places @ draws.T).astype(np.float32)
    away: NDArray[np.float32] = ((along.max(axis=1, keepdims=True) - along) / np.ptp(places)).T
    return away
