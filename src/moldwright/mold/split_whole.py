"""Splits of which each piece is one body: what lies apart of a piece is joined to it over its own ground."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy import ndimage
from skimage.graph import MCP_Geometric

from moldwright.geometry.cut import Labels
from moldwright.geometry.grid import Field
from moldwright.geometry.sign import Mask
from moldwright.mold.split import CoarseSplit, SpaceCut

LOOSE_ML = 0.2
"""Of a piece's wall so much may lie apart from it, as a cut on a grid leaves it: our own."""
WALL_STEPS = 2.5
"""A piece's wall is looked at so far off the rubber, within what the field tells: our own."""
OWN = 0.05
"""What a step over a piece's own points costs, against one over another's: our own."""
STAYS = 0.5
"""What is put on a point that goes over to another piece, as a share of a hidden cell: our own."""
TRIES = 3
"""So often what lies apart is joined: our own."""
EVERY_WAY = np.ones((3, 3, 3), bool)


@dataclass(frozen=True, slots=True, eq=False)
class _Piece:
    """Where a piece may be in the shell's wall, where it is, and the bodies of that, numbered from 1, the largest one's
    number being `main`."""

    may: Mask
    bodies: NDArray[np.int32]
    main: int
    loose_ml: float


def in_one_body_each(cut: SpaceCut, split: CoarseSplit) -> CoarseSplit | None:
    """The split, with a bridge along the wall from what lies apart of a piece to the rest of it; None where that cannot
    be.

    Parameters
    ----------
    cut : the space.
    split : of it.

    Source: least-cost paths (Dijkstra 1959, as scikit-image has them); the rest is our own.
    """
    cell_ml = cut.space.grid.step_mm**3 / 1000
    besides = np.full((split.pieces, cut.points.count), STAYS * cell_ml, np.float32)
    np.put_along_axis(besides, split.labels[cut.space.free][None].astype(np.int64), 0.0, axis=0)
    for _ in range(TRIES):
        pieces = [_piece(cut, split, number) for number in range(split.pieces)]
        if all(piece.loose_ml <= LOOSE_ML for piece in pieces):
            return split
        for number, piece in enumerate(pieces):
            bridge = _bridges(piece)[cut.space.free]
            besides[number, bridge] = -float(cut.points.count)
        split = cut.split(split.directions, _drawn(cut, split, besides), split.in_order)
    return None


def _drawn(cut: SpaceCut, split: CoarseSplit, besides: NDArray[np.float32]) -> Labels:
    """What each piece takes where some points are worth it."""
    labels, ways = split.labels[cut.space.free], cut.ways(split.directions)
    for number in range(split.pieces):
        labels = cut.points.moved(labels, ways, number, besides, in_order=split.in_order)
    return labels


def _piece(cut: SpaceCut, split: CoarseSplit, number: int) -> _Piece:
    space = cut.space
    may = np.zeros(space.grid.shape, bool)
    may[space.free] = cut.ways(split.directions)[number].sees
    may &= space.field < WALL_STEPS * space.grid.step_mm
    bodies, count = ndimage.label(may & (split.labels == number), EVERY_WAY)
    sizes = np.bincount(bodies.ravel(), minlength=count + 1)[1:]
    main = int(sizes.argmax()) + 1 if count else 0
    loose_ml = float(sizes.sum() - sizes.max(initial=0)) * space.grid.step_mm**3 / 1000
    return _Piece(may, bodies.astype(np.int32), main, loose_ml)


def _bridges(piece: _Piece) -> Mask:
    """Points over which each body of a piece that lies apart is joined to its largest, and those around them."""
    cost: Field = np.where(piece.bodies > 0, OWN, np.where(piece.may, 1.0, -1.0))
    out = np.zeros(piece.may.shape, bool)
    for body in np.unique(piece.bodies[piece.bodies > 0]):
        if body != piece.main:
            out |= _bridge(cost, piece.bodies == body, piece.bodies == piece.main)
    return ndimage.binary_dilation(out, EVERY_WAY) & piece.may


def _bridge(cost: Field, one: Mask, other: Mask) -> Mask:
    """The cheapest path between two bodies; nothing where none leads over."""
    paths = MCP_Geometric(cost)
    reached, _ = paths.find_costs(np.argwhere(one))
    there = np.argwhere(other)
    dear = reached[other]
    out = np.zeros(cost.shape, bool)
    if np.isfinite(dear).any():
        out[tuple(np.array(paths.traceback(there[int(dear.argmin())])).T)] = True
    return out
