"""Vertices at bit-equal places become one."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from moldwright.scan.raw import Indices

Bits = NDArray[np.uint32 | np.uint64]
MIX = (np.uint64(0x9E3779B97F4A7C15), np.uint64(0xC2B2AE3D27D4EB4F), np.uint64(0x165667B19E3779F9))


def merge_equal(rows: NDArray[np.generic]) -> tuple[Indices, Indices]:
    """The first of every set of equal rows, in order, and which of them each row is.

    Parameters
    ----------
    rows : (n, k) of 4- or 8-byte numbers; compared bit by bit (-0.0 must have been made 0.0).

    >>> first, place = merge_equal(np.array([[1.0, 2.0], [3.0, 4.0], [1.0, 2.0]]))
    >>> first.tolist(), place.tolist()
    ([0, 1], [0, 1, 0])
    """
    bits: Bits = np.ascontiguousarray(rows).view(np.uint32 if rows.dtype.itemsize == 4 else np.uint64)
    order, new = _sorted(bits)
    starts = np.concatenate([[0], np.flatnonzero(new) + 1]).astype(np.int64)
    step = np.zeros(len(order), np.int64)
    step[starts[1:]] = 1
    place = np.empty(len(order), np.int64)
    first = np.minimum.reduceat(order, starts)
    rank = np.empty(len(first), np.int64)
    by_place = np.argsort(first)
    rank[by_place] = np.arange(len(first))
    place[order] = rank[np.cumsum(step)]
    return first[by_place], place


def _sorted(bits: Bits) -> tuple[Indices, NDArray[np.bool_]]:
    """An order in which equal rows are neighbors, and where rows change.

    First by one sort of numbers that hold a row's mark and its place; if two different rows got the same mark, by a
    longer mark; at last by the rows themselves.
    """
    mixed = _mixed(bits)
    low = np.uint64((1 << max(len(bits) - 1, 1).bit_length()) - 1)
    packed = np.sort((mixed & ~low) | np.arange(len(bits), dtype=np.uint64))
    order = (packed & low).astype(np.int64)
    new = _changes(bits, order, packed | low)
    if new is None:
        order = np.argsort(mixed)
        new = _changes(bits, order, mixed[order])
    if new is None:
        order = np.lexsort(bits.T[::-1])
        new = (bits[order[1:]] != bits[order[:-1]]).any(axis=1)
    return order, new


def _mixed(bits: Bits) -> NDArray[np.uint64]:
    """One 64-bit number for each row; equal rows get equal numbers."""
    total = np.zeros(len(bits), np.uint64)
    for k in range(bits.shape[1]):
        total = (total ^ bits[:, k].astype(np.uint64)) * MIX[k % 3]
        total ^= total >> np.uint64(29)
    total *= MIX[0]
    total ^= total >> np.uint64(32)
    return total * MIX[1]


def all_differ(rows: NDArray[np.int64]) -> bool:
    """Whether surely no two rows are equal; faster than merging them.

    Parameters
    ----------
    rows : (n, k) numbers.
    """
    mixed = np.sort(_mixed(rows.view(np.uint64)))
    return not bool((mixed[1:] == mixed[:-1]).any())


def _changes(bits: Bits, order: Indices, mixed: NDArray[np.uint64]) -> NDArray[np.bool_] | None:
    """Where sorted rows change; None if two different rows got one number."""
    changes: NDArray[np.bool_] = mixed[1:] != mixed[:-1]
    for k in range(bits.shape[1]):
        column = bits[:, k][order]
        if ((column[1:] != column[:-1]) & ~changes).any():
            return None
    return changes
