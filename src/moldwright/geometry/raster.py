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
EDGE_FROM = 0.8
"""Where a smooth normal's cosine with its triangle's is less, the surface has an edge: our own."""


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


@nb.njit(cache=True)
def facing(
    solid: Ints,
    face: Ints,
    u: Floats32,
    v: Floats32,
    first_face: NDArray[np.int64],
    faces: Ints,
    point_normals: Floats32,
    face_normals: Floats32,
    smooth: Floats32,
    flat: Floats32,
) -> None:
    """Both normals of every place that was met: between its corners' normals, but its triangle's own at an edge.

    Parameters
    ----------
    solid, face, u, v : what was met, see `FirstHits`.
    first_face : of each solid, how many triangles are before its own.
    faces : (m, 3) corners of all triangles.
    point_normals, face_normals : (n, 3) and (m, 3) unit vectors.
    smooth, flat : where the normals are put, one for each place.

    Source: between corners as Phong 1975 (from memory).
    """
    for at in range(len(solid)):
        if solid[at] < 0:
            continue
        k = first_face[solid[at]] + face[at]
        a, b, c = faces[k, 0], faces[k, 1], faces[k, 2]
        first = np.float32(1.0) - u[at] - v[at]
        length = np.float32(0.0)
        for axis in range(3):
            mixed = first * point_normals[a, axis] + u[at] * point_normals[b, axis] + v[at] * point_normals[c, axis]
            smooth[at, axis] = mixed
            length += mixed * mixed
        length = max(np.sqrt(length), np.float32(1e-9))
        along = np.float32(0.0)
        for axis in range(3):
            smooth[at, axis] /= length
            flat[at, axis] = face_normals[k, axis]
            along += smooth[at, axis] * face_normals[k, axis]
        if along < EDGE_FROM:
            for axis in range(3):
                smooth[at, axis] = face_normals[k, axis]
