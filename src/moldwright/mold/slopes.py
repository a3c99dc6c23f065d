"""How a surface slopes."""

from __future__ import annotations

import numpy as np

from moldwright.geometry.field import without_base
from moldwright.geometry.mesh import Mesh

BINS = 80
"""Slopes are counted in so many bins of equal cosine: our own."""


def slopes_of(body: Mesh) -> tuple[float, ...]:
    """How a surface slopes: its shares by the cosine between the outward normal and up, from -1 to 1 in equal bins.

    Parameters
    ----------
    body : closed, standing on z = 0 [mm]; what lies on the board does not count.

    Source: our own.
    """
    a, b, c = np.moveaxis(without_base(body).corners, 1, 0)
    cross = np.cross(b - a, c - a)
    area = np.linalg.norm(cross, axis=1)
    up = cross[:, 2] / np.maximum(area, 1e-12)
    counts, _ = np.histogram(up, BINS, (-1.0, 1.0), weights=area)
    return tuple(float(share) for share in counts / max(float(counts.sum()), 1e-12))
