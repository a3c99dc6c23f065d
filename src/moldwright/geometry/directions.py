"""Candidate directions on the upper half of the sphere."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

Directions = NDArray[np.float64]


def upper_directions(azimuths: int = 48, tilts_deg: tuple[float, ...] = (0, 12, 24, 36, 48, 60, 72)) -> Directions:
    """(n, 3) unit vectors: straight up, `azimuths` level ones, and rings that tilt upward with fewer on each.

    Parameters
    ----------
    azimuths : how many level directions, >= 4.
    tilts_deg : how far each ring rises over the level [deg], 0 to 90.

    Source: our own.

    >>> upper_directions(8, (0, 45)).shape
    (13, 3)
    """
    rows = [np.array([[0.0, 0.0, 1.0]])]
    for tilt in tilts_deg:
        count = max(4, round(azimuths * np.cos(np.radians(tilt)) * (1.0 if tilt == 0 else 0.75)))
        angle = 2 * np.pi * np.arange(count) / count
        level, rise = np.cos(np.radians(tilt)), np.sin(np.radians(tilt))
        rows.append(np.stack([level * np.cos(angle), level * np.sin(angle), np.full(count, rise)], axis=1))
    return np.concatenate(rows)


def cone_about(axis: NDArray[np.float64], degrees: int) -> Directions:
    """(1 + 6 n, 3) unit vectors: the axis, and six at each whole degree off it, up to n: those of a narrower cone are
    among those of a wider one.

    Parameters
    ----------
    axis : (3,) unit vector.
    degrees : how far the cone opens from its axis [deg], 0 to 89.

    Source: our own.

    >>> cone_about(np.array([0.0, 0.0, 1.0]), 2).shape
    (13, 3)
    """
    least = np.eye(3)[int(np.argmin(np.abs(axis)))]
    across = np.cross(axis, least)
    across /= np.linalg.norm(across)
    beside = np.cross(axis, across)
    rows = [axis[None, :]]
    for degree in range(1, degrees + 1):
        turns, off = np.pi / 3 * np.arange(6)[:, None], np.radians(degree)
        rows.append(np.cos(off) * axis + np.sin(off) * (np.cos(turns) * across + np.sin(turns) * beside))
    return np.concatenate(rows)


def hull_normals() -> Directions:
    """(86, 3) unit vectors spread evenly: the half-spaces of a discrete oriented polytope.

    Source: spirals on the sphere (Vogel 1979, "A better way to construct the sunflower head", Mathematical Biosciences
    44; from memory).
    """
    count = 86
    n = np.arange(count) + 0.5
    z = 1 - 2 * n / count
    angle = np.pi * (1 + 5**0.5) * n
    level = np.sqrt(1 - z * z)
    return np.stack([level * np.cos(angle), level * np.sin(angle), z], axis=1)
