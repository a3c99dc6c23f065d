"""Which triangle every pixel sees, how far it is and which way its surface faces."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from moldwright.geometry.mesh import Mesh
from moldwright.geometry.raster import facing, first_seen
from moldwright.geometry.rays import FirstHits, Rays
from moldwright.sheets.camera import Camera

Floats32 = NDArray[np.float32]
Ints = NDArray[np.int32]


@dataclass(frozen=True, slots=True, eq=False)
class Hits:
    """What rays met: `solid` (-1: nothing), `depth_mm` along the ray (infinite: nothing), and two normals."""

    solid: Ints
    depth_mm: Floats32
    normal: Floats32
    face_normal: Floats32


class Scene:
    """Solids made ready to be looked at from anywhere."""

    def __init__(self, meshes: Sequence[Mesh], smooth: bool = True) -> None:
        self.meshes = tuple(meshes)
        crosses = [_crosses(mesh) for mesh in self.meshes]
        self._face_normals = np.concatenate([_unit(cross) for cross in crosses])
        self._first_face = np.cumsum([0] + [len(mesh.faces) for mesh in self.meshes])[:-1]
        self._is_smooth = smooth
        if smooth:
            points = [_point_normals(mesh, cross) for mesh, cross in zip(self.meshes, crosses, strict=True)]
            self._point_normals = np.concatenate(points)
            starts = np.cumsum([0] + [len(mesh.vertices) for mesh in self.meshes])[:-1].astype(np.int32)
            self._faces = np.concatenate([m.faces + start for m, start in zip(self.meshes, starts, strict=True)])

    @cached_property
    def _rays(self) -> Rays:
        """Made only where rays go all ways: what a camera sees is laid on its picture without them."""
        return Rays(self.meshes)

    def cast(self, origins: Floats32, directions: Floats32) -> Hits:
        """First hit of every ray; `normal` is smooth except where the surface has an edge."""
        return self.told(self._rays.first_hits(origins, directions))

    def seen(self, camera: Camera, width_px: int, height_px: int) -> FirstHits:
        """What `camera` sees at every pixel, row by row.

        Parameters
        ----------
        camera : from where.
        width_px, height_px : of the picture.
        """
        places = [camera.in_pixels(mesh.vertices, width_px, height_px) for mesh in self.meshes]
        return first_seen(places, [mesh.faces for mesh in self.meshes], width_px, height_px)

    def between(self, found: FirstHits, values: NDArray[np.float64]) -> Floats32:
        """(n,) of values at the corners of the only solid, what each place that was met has; NaN where nothing was.

        Parameters
        ----------
        found : what was met first.
        values : (m,) at the solid's corners, NaN for none.
        """
        mixed = np.full(len(found.face), np.nan, np.float32)
        hit = np.flatnonzero(found.face >= 0)
        a, b, c = values[self.meshes[0].faces[found.face[hit]]].T
        mixed[hit] = a + found.u[hit] * (b - a) + found.v[hit] * (c - a)
        return mixed

    def told(self, found: FirstHits) -> Hits:
        """Which way the surface faces where something was met.

        Parameters
        ----------
        found : what was met first, on these solids.
        """
        flat = np.zeros((len(found.solid), 3), np.float32)
        if not self._is_smooth:
            hit = np.flatnonzero(found.solid >= 0)
            flat[hit] = self._face_normals[self._first_face[found.solid[hit]] + found.face[hit]]
            return Hits(found.solid, found.distance_mm, flat, flat)
        smooth = np.zeros_like(flat)
        facing(found.solid, found.face, found.u, found.v, self._first_face, self._faces, self._point_normals,
                self._face_normals, smooth, flat)  # fmt: skip
        return Hits(found.solid, found.distance_mm, smooth, flat)


def look(scene: Scene, camera: Camera, width_px: int, height_px: int) -> Hits:
    """What `camera` sees, as images (height, width[, 3])."""
    return shaped(scene.told(scene.seen(camera, width_px, height_px)), width_px, height_px)


def shaped(hits: Hits, width_px: int, height_px: int) -> Hits:
    """Hits row by row as images (height, width[, 3]).

    Parameters
    ----------
    hits : of every pixel.
    width_px, height_px : of the picture.
    """
    flat, full = (height_px, width_px), (height_px, width_px, 3)
    return Hits(
        hits.solid.reshape(flat), hits.depth_mm.reshape(flat), hits.normal.reshape(full), hits.face_normal.reshape(full)
    )


def _crosses(mesh: Mesh) -> NDArray[np.float64]:
    """Twice the area of each triangle times its normal."""
    a, b, c = (mesh.vertices[mesh.faces[:, corner]] for corner in range(3))
    b -= a
    c -= a
    turned = (b[:, [1, 2, 0]] * c[:, [2, 0, 1]]) - (b[:, [2, 0, 1]] * c[:, [1, 2, 0]])
    result: NDArray[np.float64] = turned
    return result


def _point_normals(mesh: Mesh, crosses: NDArray[np.float64]) -> Floats32:
    points = np.empty_like(mesh.vertices)
    corners = mesh.faces.reshape(-1)
    for axis in range(3):
        points[:, axis] = np.bincount(corners, weights=np.repeat(crosses[:, axis], 3), minlength=len(points))
    return _unit(points)


def _unit(vectors: NDArray[np.float64]) -> Floats32:
    length = np.maximum(np.sqrt(np.einsum("ij,ij->i", vectors, vectors)), 1e-12)
    result: Floats32 = (vectors / length[:, None]).astype(np.float32)
    return result
