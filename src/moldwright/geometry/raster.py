"""What parallel rays through the middle of every pixel meet first: triangles laid on the picture one by one."""

from __future__ import annotations

from collections.abc import Sequence

import numba as nb
import numpy as np
from numpy.typing import NDArray

from moldwright.geometry.mesh import Faces
from moldwright.geometry.rays import FirstHits, Floats32, Ints

Points = NDArray[np.float64]
EDGE = 1e-9
"""A pixel's middle so near outside a triangle, as a share of its area, is in it: no gap opens between neighbors."""


def first_seen(places: Sequence[Points], faces: Sequence[Faces], width_px: int, height_px: int) -> FirstHits:
    """What is seen at every pixel, row by row from the top.

    Of two triangles as deep as each other the first counts: the same input gives the same picture.

    Parameters
    ----------
    places : of each mesh, (n, 3) its corners: pixels from the left, from the top, and depth along the rays [mm]; what
        is less deep than 0 is not seen.
    faces : of each mesh, (m, 3) corners of its triangles.
    width_px, height_px : of the picture.

    Source: half-plane coverage after Pineda 1988, "A parallel algorithm for polygon rasterization", Computer Graphics
    22 (4) (from memory).
    """
    count = width_px * height_px
    solid, face = np.full(count, -1, np.int32), np.full(count, -1, np.int32)
    depth = np.full(count, np.inf, np.float64)
    u, v = np.zeros(count, np.float32), np.zeros(count, np.float32)
    for number, (corners, triangles) in enumerate(zip(places, faces, strict=True)):
        _lay(np.ascontiguousarray(corners), triangles, width_px, height_px, number, solid, face, depth, u, v)
    return FirstHits(solid, face, depth.astype(np.float32), u, v)


@nb.njit(cache=True)
def _lay(
    corners: Points,
    faces: Faces,
    wide: int,
    tall: int,
    number: int,
    solid: Ints,
    face: Ints,
    depth: Points,
    u: Floats32,
    v: Floats32,
) -> None:
    for k in range(faces.shape[0]):
        a, b, c = faces[k, 0], faces[k, 1], faces[k, 2]
        ax, ay, az = corners[a, 0], corners[a, 1], corners[a, 2]
        bx, by, cx, cy = corners[b, 0] - ax, corners[b, 1] - ay, corners[c, 0] - ax, corners[c, 1] - ay
        area = bx * cy - by * cx
        if area == 0.0:
            continue
        left = max(0, int(np.ceil(ax + min(0.0, bx, cx) - 0.5)))
        right = min(wide - 1, int(np.floor(ax + max(0.0, bx, cx) - 0.5)))
        top = max(0, int(np.ceil(ay + min(0.0, by, cy) - 0.5)))
        bottom = min(tall - 1, int(np.floor(ay + max(0.0, by, cy) - 0.5)))
        over_b, over_c = corners[b, 2] - az, corners[c, 2] - az
        for row in range(top, bottom + 1):
            y = row + 0.5 - ay
            for column in range(left, right + 1):
                x = column + 0.5 - ax
                share_b = (x * cy - y * cx) / area
                share_c = (bx * y - by * x) / area
                if share_b < -EDGE or share_c < -EDGE or share_b + share_c > 1.0 + EDGE:
                    continue
                deep = az + share_b * over_b + share_c * over_c
                at = row * wide + column
                if 0.0 <= deep < depth[at]:
                    depth[at] = deep
                    solid[at], face[at] = number, k
                    u[at], v[at] = share_b, share_c
