"""Round rods about a point, and solids turned along a way: what holes, keys and probes are made of."""

from __future__ import annotations

from collections.abc import Sequence

import manifold3d as m3
import numpy as np
from numpy.typing import NDArray

from moldwright.geometry.solid import Solid

ROUND = 32
"""Sides of what is round."""
Vector = NDArray[np.float64]


def rod(at: Vector, way: Vector, radius_mm: float, long_mm: float) -> Solid:
    """A round rod about a point.

    Parameters
    ----------
    at : its middle [mm].
    way : along which it lies.
    radius_mm, long_mm : its size [mm].

    Source: our own.
    """
    return turned_to(m3.Manifold.cylinder(long_mm, radius_mm, radius_mm, ROUND), at - way * long_mm / 2, way)


def turned_to(solid: Solid, foot: Vector, way: Vector) -> Solid:
    """A solid that stands on the origin, stood on a point along another way.

    Parameters
    ----------
    solid : it.
    foot : the point [mm].
    way : where its z goes.

    Source: our own.
    """
    z = way / np.linalg.norm(way)
    x = np.cross(z, np.eye(3)[int(np.argmin(np.abs(z)))])
    x /= np.linalg.norm(x)
    return solid.transform(np.column_stack([x, np.cross(z, x), z, foot]))


def united(solids: Sequence[Solid]) -> Solid:
    """All solids in one; None of none.

    Parameters
    ----------
    solids : them.

    Source: our own.
    """
    return m3.Manifold.batch_boolean(list(solids), m3.OpType.Add) if solids else None
