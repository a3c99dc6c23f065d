"""Volumes of a field's levels, and the level that has a wanted volume."""

from __future__ import annotations

import numpy as np

from moldwright.errors import ComputationFailed
from moldwright.geometry.field import Sampled
from moldwright.geometry.mesh import Mesh
from moldwright.geometry.solid import largest_body, mesh_of
from moldwright.geometry.surface import standing_solid

CLOSE_SHARE = 2e-4
TRIES = 8
HALVINGS = 12


def volume_under_mm3(sampled: Sampled, level_mm: float = 0.0) -> float:
    """Volume over z = 0 where a field is below a level, each point counted by how much of its cell that takes [mm3].

    Parameters
    ----------
    sampled : a field whose lowest layer is the board; about as steep as a distance.
    level_mm : the value that is the surface [mm].

    Source: our own; the error is of second order in the step.
    """
    step = sampled.grid.step_mm
    share = np.clip(0.5 + (level_mm - sampled.field) / step, 0.0, 1.0)
    return float(share.sum(dtype=np.float64) - 0.5 * share[:, :, 0].sum(dtype=np.float64)) * step**3


def body_at(sampled: Sampled, level_mm: float = 0.0) -> Mesh:
    """The largest body of a level set, flat on the board and closed.

    Parameters
    ----------
    sampled : a field whose lowest layer is the board.
    level_mm : the value that is the surface [mm].

    Source: our own; see `standing_solid`.
    """
    return mesh_of(largest_body(standing_solid(sampled, level_mm)))


def lowered(sampled: Sampled, volume_mm3: float) -> Sampled:
    """The field with the level of this volume as its zero, as near as `volume_under_mm3` tells.

    Parameters
    ----------
    sampled : a field whose lowest layer is the board; about as steep as a distance.
    volume_mm3 : wanted, > 0 [mm3].

    Source: halving between the field's least and greatest value.
    """
    low, high = float(sampled.field.min()), float(sampled.field.max())
    for _ in range(HALVINGS):
        middle = (low + high) / 2.0
        low, high = (middle, high) if volume_under_mm3(sampled, middle) < volume_mm3 else (low, middle)
    return Sampled(sampled.field - np.float32(middle), sampled.grid)


def body_of_volume(sampled: Sampled, volume_mm3: float, band_mm: float) -> Mesh:
    """The body of the level that has this volume, within two parts in ten thousand.

    Parameters
    ----------
    sampled : a field whose lowest layer is the board.
    volume_mm3 : wanted, > 0 [mm3].
    band_mm : within which the field is true [mm]; ComputationFailed where that does not reach.

    Source: secant method.
    """
    level, mesh = 0.0, body_at(sampled)
    for _ in range(TRIES):
        short = volume_mm3 - mesh.volume_mm3
        if abs(short) <= CLOSE_SHARE * volume_mm3:
            return mesh
        level += short / mesh.area_mm2
        if abs(level) > band_mm:
            break
        mesh = body_at(sampled, level)
    raise ComputationFailed("level-of-volume", round(level, 2), round(band_mm, 2), "mm", "Report these photos.")
