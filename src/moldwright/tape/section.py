"""Level sections as superellipses: |x/a|^n + |y/c|^n = 1 in a box of breadth 2a and depth 2c, from n = 1, four straight
sides corner to corner, over the ellipse, n = 2, to the box itself.

A closed line that touches all four sides of a box is at least twice the box's diagonal long, and a convex one at most
the box's perimeter. `fullness` is where a girth lies between these two, from 0 to 1; with the box it fixes n.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray
from scipy.special import gamma

Floats = NDArray[np.float64]
SLIMMEST = 0.02
"""Depth over breadth of the slimmest section that is told apart."""
_STEPS = 65
_SIDES = 600


@dataclass(frozen=True, slots=True, eq=False)
class _Table:
    """Of every slimness (rows) and squareness s = 1 - 1/n (columns): fullness; and of every fullness: squareness."""

    slim: Floats
    square: Floats
    fullness: Floats
    square_of: Floats


def area_share(square: Floats) -> Floats:
    """Area over that of the box: Gamma(1 + 1/n)^2 / Gamma(1 + 2/n).

    Parameters
    ----------
    square : squareness 1 - 1/n, 0 to 1.

    >>> area_share(np.array([0.0, 0.5, 1.0])).round(4).tolist()
    [0.5, 0.7854, 1.0]

    Source: the integral of Dirichlet; from memory.
    """
    inverse = 1.0 - np.asarray(square, float)
    share: Floats = gamma(1.0 + inverse) ** 2 / gamma(1.0 + 2.0 * inverse)
    return share


def outline(square: Floats, sides: int) -> tuple[Floats, Floats]:
    """Points round the section in the box [-1, 1] x [-1, 1], counterclockwise from (1, 0): x and y, (..., sides).

    Parameters
    ----------
    square : (...) squareness, 0 to 1.
    sides : number of points, a multiple of 4.

    Source: our own; the angle is that of the point itself, so that corners are drawn evenly.
    """
    angle = 2.0 * np.pi * np.arange(sides) / sides
    cos, sin = np.cos(angle), np.sin(angle)
    power = 1.0 / np.maximum(1.0 - np.asarray(square, float), 1e-3)[..., None]
    high = np.maximum(np.abs(cos), np.abs(sin))
    ratio = np.minimum(np.abs(cos), np.abs(sin)) / high
    reach = 1.0 / (high * (1.0 + ratio**power) ** (1.0 / power))
    return reach * cos, reach * sin


def girth(breadth_mm: Floats, depth_mm: Floats, square: Floats) -> Floats:
    """Length round a section [mm].

    Parameters
    ----------
    breadth_mm, depth_mm : of its box [mm], > 0.
    square : squareness, 0 to 1.

    >>> girth(np.array(100.0), np.array(100.0), np.array([0.5])).round(1).tolist()
    [314.2]

    Source: our own; a table of sums over 600 sides.
    """
    least, most = girth_bounds(breadth_mm, depth_mm)
    return least + (most - least) * _between(_table().fullness, _table().square, _slim(breadth_mm, depth_mm), square)


def girth_bounds(breadth_mm: Floats, depth_mm: Floats) -> tuple[Floats, Floats]:
    """The shortest and the longest girth that a convex section of that breadth and depth may have [mm].

    Parameters
    ----------
    breadth_mm, depth_mm : of its box [mm], > 0.

    Source: twice the diagonal, by unfolding a line that touches all four sides; the box's perimeter holds every convex
    line within it.
    """
    least: Floats = 2.0 * np.hypot(breadth_mm, depth_mm)
    return least, 2.0 * (np.asarray(breadth_mm) + depth_mm)


def square_of(girth_mm: Floats, breadth_mm: Floats, depth_mm: Floats) -> Floats:
    """The squareness of the section with that girth, 0 or 1 where the girth is past its bounds.

    Parameters
    ----------
    girth_mm : round it [mm], > 0.
    breadth_mm, depth_mm : of its box [mm], > 0.

    >>> square_of(np.array(314.16), np.array(100.0), np.array(100.0)).round(2).tolist()
    0.5

    Source: our own; the table of `girth`, turned round.
    """
    least, most = girth_bounds(breadth_mm, depth_mm)
    full = np.clip((girth_mm - least) / np.maximum(most - least, 1e-12), 0.0, 1.0)
    return _between(_table().square_of, np.linspace(0.0, 1.0, _STEPS), _slim(breadth_mm, depth_mm), full)


def depth_for(girth_mm: Floats, breadth_mm: Floats, square: Floats) -> Floats:
    """The depth of a section of known girth, breadth and squareness [mm]; as slim as can be where there is none.

    Parameters
    ----------
    girth_mm, breadth_mm : [mm], > 0.
    square : squareness, 0 to 1.

    Source: our own, by halving.
    """
    shape = np.broadcast(girth_mm, breadth_mm, square).shape
    low = np.broadcast_to(np.asarray(breadth_mm) * SLIMMEST, shape).copy()
    high = np.maximum(np.broadcast_to(np.asarray(girth_mm) / 2.0, shape), low)
    for _ in range(30):
        middle = (low + high) / 2.0
        long = girth(np.asarray(breadth_mm), middle, square) > girth_mm
        low, high = np.where(long, low, middle), np.where(long, middle, high)
    return (low + high) / 2.0


def _slim(breadth_mm: Floats, depth_mm: Floats) -> Floats:
    """The shorter side over the longer one."""
    low, high = np.minimum(breadth_mm, depth_mm), np.maximum(breadth_mm, depth_mm)
    slim: Floats = np.clip(low / np.maximum(high, 1e-12), SLIMMEST, 1.0)
    return slim


@lru_cache(maxsize=1)
def _table() -> _Table:
    slim = np.geomspace(SLIMMEST, 1.0, _STEPS)
    square = np.linspace(0.0, 1.0, _STEPS)
    x, y = outline(square, 4 * _SIDES)
    across = (
        np.hypot(
            np.diff(x, axis=1, append=x[:, :1])[None], slim[:, None, None] * np.diff(y, axis=1, append=y[:, :1])[None]
        ).sum(axis=2)
        * 0.5
    )
    least, most = girth_bounds(np.ones_like(slim), slim)
    full = np.clip((across - least[:, None]) / (most - least)[:, None], 0.0, 1.0)
    full[:, 0], full[:, -1] = 0.0, 1.0
    full = np.maximum.accumulate(full, axis=1)
    even = np.linspace(0.0, 1.0, _STEPS)
    turned = np.stack([np.interp(even, row, square) for row in full])
    return _Table(slim, square, full, turned)


def _between(table: Floats, columns: Floats, slim: Floats, column: Floats) -> Floats:
    """The table between its rows and columns, which stand at even steps."""
    row = (np.log(slim) - np.log(SLIMMEST)) / -np.log(SLIMMEST) * (_STEPS - 1)
    col = (np.asarray(column, float) - columns[0]) / (columns[-1] - columns[0]) * (_STEPS - 1)
    row, col = np.broadcast_arrays(row, col)
    i, j = (np.clip(v.astype(int), 0, _STEPS - 2) for v in (row, col))
    r, c = row - i, col - j
    low = table[i, j] * (1 - c) + table[i, j + 1] * c
    high = table[i + 1, j] * (1 - c) + table[i + 1, j + 1] * c
    found: Floats = low * (1 - r) + high * r
    return found
