"""Shallow grooves that follow the animal's spine as fur does; they hold the dark wax of a metal finish."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

import numpy as np
from numpy.typing import NDArray
from scipy.ndimage import map_coordinates
from scipy.spatial import cKDTree

Floats = NDArray[np.float32]
TABLE = 32
SEED = 20
ACROSS_MM = 3.0
ALONG_MM = 15.0


@dataclass(frozen=True, slots=True, eq=False)
class Spine:
    """The animal's midline from nose to tail tip, with a frame at each point that does not spin about it."""

    points_mm: Floats
    way_mm: NDArray[np.float64]
    tangent: NDArray[np.float64]
    side: NDArray[np.float64]
    up: NDArray[np.float64]
    tree: cKDTree


def spine_through(points_mm: Floats) -> Spine:
    steps = np.diff(points_mm, axis=0).astype(np.float64)
    lengths = np.linalg.norm(steps, axis=1)
    way = np.concatenate([[0.0], np.cumsum(lengths)])
    tangent = np.vstack([steps / lengths[:, None], steps[-1:] / lengths[-1]])
    side = steady_sides(tangent)
    return Spine(points_mm, way, tangent, side, np.cross(tangent, side), cKDTree(points_mm))


def fur_depth(points_mm: Floats, spine: Spine) -> Floats:
    """Depth 0..1 of the groove at each point: ridged noise stretched along the spine."""
    along, across = spine_coordinates(points_mm, spine)
    sway = noise(np.column_stack([across / 14, along[:, None] / 30])) * 2.0
    lanes = np.column_stack([across / ACROSS_MM, along[:, None] / ALONG_MM])
    lanes[:, :2] += sway[:, None]
    return np.asarray(np.clip(1 - 2.6 * np.abs(noise(lanes)), 0, 1), dtype=np.float32)


def spine_coordinates(points_mm: Floats, spine: Spine) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Way along the spine [mm] (n,) and two offsets across it [mm] (n, 2)."""
    _, nearest = spine.tree.query(points_mm)
    off = points_mm - spine.points_mm[nearest]
    along = spine.way_mm[nearest] + np.einsum("ij,ij->i", off, spine.tangent[nearest])
    across = np.stack([np.einsum("ij,ij->i", off, axis[nearest]) for axis in (spine.side, spine.up)], axis=1)
    return along, across


def steady_sides(tangent: NDArray[np.float64]) -> NDArray[np.float64]:
    """A unit vector across each tangent, carried on from the one before (it starts along x)."""
    sides = np.empty_like(tangent)
    last = np.array([1.0, 0.0, 0.0])
    for i, t in enumerate(tangent):
        last = last - (last @ t) * t
        last /= np.linalg.norm(last)
        sides[i] = last
    return sides


def noise(points: NDArray[np.float64]) -> NDArray[np.float64]:
    """Smooth value noise in -1..1 on the unit lattice, repeating every 32."""
    floor = np.floor(points)
    f = points - floor
    eased = floor + f * f * (3 - 2 * f)
    value: NDArray[np.float64] = map_coordinates(noise_table(), eased.T, order=1, mode="grid-wrap")
    return value


@cache
def noise_table() -> NDArray[np.float64]:
    return np.random.RandomState(SEED).uniform(-1, 1, (TABLE, TABLE, TABLE))
