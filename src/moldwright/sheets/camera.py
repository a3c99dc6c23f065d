"""Where a picture is taken from: parallel rays through a rectangle, so that a millimeter is the same everywhere."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from moldwright.geometry.mesh import Mesh

Floats = NDArray[np.float64]
Floats32 = NDArray[np.float32]


@dataclass(frozen=True, slots=True, eq=False)
class Camera:
    """A parallel projection.

    Parameters
    ----------
    center : (3,) the point in the middle of the picture [mm].
    look, right, up : (3,) unit vectors, at right angles to each other.
    width_mm, height_mm : what the picture shows [mm].
    reach_mm : how far before `center` the rays start [mm].
    """

    center: Floats
    look: Floats
    right: Floats
    up: Floats
    width_mm: float
    height_mm: float
    reach_mm: float

    def rays(self, width_px: int, height_px: int) -> tuple[Floats32, Floats32]:
        """Origins and directions, (n, 3), of the rays through the middle of every pixel, row by row from the top."""
        x = ((np.arange(width_px) + 0.5) / width_px - 0.5) * self.width_mm
        y = (0.5 - (np.arange(height_px) + 0.5) / height_px) * self.height_mm
        across = np.outer(x, self.right).astype(np.float32)
        down = (self.center - self.look * self.reach_mm + np.outer(y, self.up)).astype(np.float32)
        origins = (down[:, None, :] + across[None, :, :]).reshape(-1, 3)
        along = np.empty_like(origins)
        along[:] = self.look.astype(np.float32)
        return origins, along

    def in_pixels(self, points: Floats, width_px: int, height_px: int) -> Floats:
        """(n, 3) of points [mm]: pixels from the picture's left, from its top, and how deep along the rays [mm].

        Parameters
        ----------
        points : (n, 3) [mm].
        width_px, height_px : of the picture.
        """
        scales = (width_px / self.width_mm, -height_px / self.height_mm, 1.0)
        starts = (width_px / 2, height_px / 2, self.reach_mm)
        x, y, z = np.ascontiguousarray(points.T)
        seen = np.empty((len(points), 3))
        for k, axis in enumerate((self.right, self.up, self.look)):
            a, b, c = axis * scales[k]
            seen[:, k] = a * x + b * y + c * z + (starts[k] - scales[k] * float(self.center @ axis))
        return seen

    def shares(self, point: Sequence[float] | Floats) -> tuple[float, float]:
        """Where a point stands in the picture: shares of width from the left and of height from the top."""
        offset = np.asarray(point, dtype=np.float64) - self.center
        x, y = float(offset @ self.right), float(offset @ self.up)
        return 0.5 + x / self.width_mm, 0.5 - y / self.height_mm


def directions(azimuth_deg: float, elevation_deg: float) -> tuple[Floats, Floats, Floats]:
    """Look, right and up of a viewer who stands at `azimuth_deg` (0 is in front, at -y; 90 at the right, +x) and
    `elevation_deg` above the board.

    >>> look, right, up = directions(0, 0)
    >>> [round(float(v), 6) + 0.0 for v in look], [round(float(v), 6) + 0.0 for v in right]
    ([0.0, 1.0, 0.0], [1.0, 0.0, 0.0])
    """
    a, e = math.radians(azimuth_deg), math.radians(elevation_deg)
    look = np.array([-math.sin(a) * math.cos(e), math.cos(a) * math.cos(e), -math.sin(e)])
    right = np.array([math.cos(a), math.sin(a), 0.0])
    return look, right, np.cross(right, look)


def camera_around(meshes: Sequence[Mesh], azimuth_deg: float, elevation_deg: float, margin: float = 0.03) -> Camera:
    """A camera that just holds all `meshes`, with `margin` as a share of the picture on every side."""
    look, right, up = directions(azimuth_deg, elevation_deg)
    corners = np.concatenate([_box_points(mesh, look, right, up) for mesh in meshes])
    low, high = corners.min(axis=0), corners.max(axis=0)
    middle, size = (low + high) / 2, np.maximum(high - low, 1e-6)
    frame = np.stack([right, up, look])
    border = 1 + 2 * margin
    return Camera(
        middle @ frame, look, right, up, float(size[0] * border), float(size[1] * border), float(size[2]) / 2 + 1.0
    )


def _box_points(mesh: Mesh, look: Floats, right: Floats, up: Floats) -> Floats:
    x, y, z = np.ascontiguousarray(mesh.vertices.T)
    along = [a * x + b * y + c * z for a, b, c in (right, up, look)]
    return np.array([[seen.min() for seen in along], [seen.max() for seen in along]])
