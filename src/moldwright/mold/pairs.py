"""Pairs of draws: what no split along them can do without, and which of them are worth a cut."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from moldwright.geometry.shadow import binary_shadow
from moldwright.geometry.sign import Mask
from moldwright.mold.space import Directions
from moldwright.mold.split import SplitSettings

APART_DEG = 14.0
"""Pairs whose members differ by no more are near twins: our own."""


def pair_bounds(core: Mask, space: Mask, directions: Directions) -> NDArray[np.int64]:
    """(n, n) points hidden along both of two directions: no split along them needs less fill.

    Parameters
    ----------
    core : points of the body.
    space : points that the shell may fill, or the body does.
    directions : (n, 3) unit vectors.

    Source: our own.
    """
    free = space & ~core
    bits = [np.packbits(binary_shadow(core, d)[free]) for d in directions]
    table = np.stack(bits)
    padded = np.zeros((table.shape[0], -(-table.shape[1] // 8) * 8), np.uint8)
    padded[:, : table.shape[1]] = table
    words = padded.view(np.uint64)
    counts = np.zeros((len(words), len(words)), np.int64)
    for n in range(len(words)):
        counts[n, n:] = np.bitwise_count(words[n] & words[n:]).sum(axis=1)
    return np.maximum(counts, counts.T)


def shortlist(bounds: NDArray[np.int64], directions: Directions, settings: SplitSettings) -> list[tuple[int, int]]:
    """The pairs with the least bounds that open wide enough and are not near twins of better ones.

    Parameters
    ----------
    bounds : (n, n) points hidden along both of two directions.
    directions : (n, 3) unit vectors.
    settings : how many, and how wide they open.

    Source: our own.
    """
    i, j = np.triu_indices(len(directions), 1)
    cosine = (directions[i] * directions[j]).sum(axis=1)
    wide = cosine <= np.cos(np.radians(settings.least_angle_deg)) + 1e-9
    i, j, cosine = i[wide], j[wide], cosine[wide]
    tilt = directions[i, 2] + directions[j, 2]
    order = np.lexsort((i, np.round(tilt, 3), np.round(cosine, 2), bounds[i, j]))
    chosen: list[tuple[int, int]] = []
    for n in order:
        pair = (int(i[n]), int(j[n]))
        if all(_apart(directions, pair, other) for other in chosen):
            chosen.append(pair)
        if len(chosen) == settings.shortlist:
            break
    return chosen


def _apart(directions: Directions, pair: tuple[int, int], other: tuple[int, int]) -> bool:
    """Whether two pairs of directions differ by more than `APART_DEG` in one of their members."""
    a, b = directions[list(pair)], directions[list(other)]
    twin = max((a * b).sum(axis=1).min(), (a * b[::-1]).sum(axis=1).min())
    return bool(twin < np.cos(np.radians(APART_DEG)))
