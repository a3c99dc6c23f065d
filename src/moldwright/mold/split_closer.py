"""Splits found on coarse points, cut again on closer ones: whole for two pieces, near their seams for more."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray
from scipy import ndimage

from moldwright.geometry.grid import Grid
from moldwright.geometry.sign import Mask
from moldwright.mold.split import CoarseSplit, SpaceCut
from moldwright.mold.split_real import to_be_held

NEAR_STEPS = 2.0
"""A seam is looked for again within so many coarse steps of where it was found: our own."""


def closer(cut: SpaceCut, coarse: CoarseSplit, known: Sequence[CoarseSplit]) -> CoarseSplit | None:
    """The split along the draws of a coarser one; None where a piece of it cannot be held.

    Parameters
    ----------
    cut : the space on closer points.
    coarse : what was found on points farther apart.
    known : splits of this space; one along the first of the same draws is gone on from.

    Source: our own.
    """
    draws = coarse.directions
    if len(draws) <= 2:
        return to_be_held(cut, cut.along(draws))
    split = max(filter(coarse.goes_on_from, known), key=lambda each: each.pieces, default=None) or cut.two(draws[:2])
    label, near = carried(coarse, cut.space.grid)
    label, near = label[cut.space.free], near[cut.space.free]
    for number in range(split.pieces, len(draws)):
        split = cut.with_one_more(split, draws[number], near | (label == number))
    return to_be_held(cut, cut.settled(split, near))


def carried(coarse: CoarseSplit, grid: Grid) -> tuple[NDArray[np.int8], Mask]:
    """What piece takes each point of another grid, and whether a seam is near.

    Parameters
    ----------
    coarse : the split; points that no piece may take are given to the one nearest to them.
    grid : closer points.

    Source: our own.
    """
    label = coarse.everywhere
    apart_steps = ndimage.distance_transform_edt(~_at_seam(label))
    here = coarse.grid.nearest_to(grid)
    return label[here], apart_steps[here] <= NEAR_STEPS


def _at_seam(label: NDArray[np.int8]) -> Mask:
    """Points beside one of another piece."""
    seam = np.zeros(label.shape, bool)
    for axis in range(3):
        differ = np.diff(label, axis=axis) != 0
        sides = [slice(None)] * 3
        for side in (slice(None, -1), slice(1, None)):
            sides[axis] = side
            seam[tuple(sides)] |= differ
    return seam
