"""Draws that come again: the same numbers on every machine and in every run."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray
from scipy.special import ndtri

from moldwright.ranges import NINETY

Floats = NDArray[np.float64]


class Draws:
    """Many draws side by side; the first is always the likely one, without any scatter.

    Every column holds the normal's quantiles at even shares, in an order mixed from its number: no library's generator,
    whose numbers may change between versions, is asked.
    """

    def __init__(self, count: int) -> None:
        self.count = count
        self._drawn = 0

    def normal(self, columns: int = 1) -> Floats:
        """Standard normal draws, (draws, columns), the first row 0.

        Parameters
        ----------
        columns : how many independent ones.
        """
        made = np.empty((self.count, columns))
        for column in range(columns):
            self._drawn += 1
            made[:, column] = _evenly(self.count, self._drawn)
        made[0] = 0.0
        return made

    def within(self, half: float | Floats, columns: int = 1) -> Floats:
        """Normal draws whose range at 90 % is -half to half, (draws, columns).

        Parameters
        ----------
        half : half the width of the range.
        columns : how many independent ones.
        """
        drawn: Floats = self.normal(columns) * np.asarray(half) / NINETY
        return drawn


def _evenly(draws: int, number: int) -> Floats:
    """The normal's quantiles at even shares, in an order of its own for every number."""
    shares = (np.arange(draws) + 0.5) / draws
    key = _mixed(np.arange(draws, dtype=np.uint64) + np.uint64(number * 0x9E3779B97F4A7C15 % 2**64))
    drawn: Floats = ndtri(shares)[np.argsort(key, kind="stable")]
    return drawn


def _mixed(bits: NDArray[np.uint64]) -> NDArray[np.uint64]:
    """Bits well mixed (the finalizer of splitmix64; from memory)."""
    with np.errstate(over="ignore"):
        bits = (bits ^ (bits >> np.uint64(30))) * np.uint64(0xBF58476D1CE4E5B9)
        bits = (bits ^ (bits >> np.uint64(27))) * np.uint64(0x94D049BB133111EB)
    mixed: NDArray[np.uint64] = bits ^ (bits >> np.uint64(31))
    return mixed
