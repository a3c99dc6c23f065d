"""A triangle mesh in millimeters that can say why it is not a solid."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Vertices = NDArray[np.float64]
Faces = NDArray[np.int32]


@dataclass(frozen=True, slots=True, eq=False, weakref_slot=True)
class Mesh:
    """Triangles with shared vertices.

    Parameters
    ----------
    vertices : (n, 3) float64 [mm]
    faces : (m, 3) int32 indices into `vertices`, counterclockwise seen from outside.
    """

    vertices: Vertices
    faces: Faces

    @property
    def bounds_mm(self) -> tuple[Vertices, Vertices]:
        """(3,) lowest and (3,) highest coordinates [mm]."""
        return self.vertices.min(axis=0), self.vertices.max(axis=0)

    @property
    def corners(self) -> NDArray[np.float64]:
        """(m, 3, 3) corner positions of every triangle [mm]."""
        corners: NDArray[np.float64] = self.vertices[self.faces]
        return corners

    @property
    def area_mm2(self) -> float:
        """Area of all triangles [mm2]."""
        a, b, c = self.corners.transpose(1, 0, 2)
        return float(np.linalg.norm(np.cross(b - a, c - a), axis=1).sum() / 2)

    @property
    def volume_mm3(self) -> float:
        """Signed volume by the divergence theorem; meaningful for a closed mesh."""
        a, b, c = (self.corners - self.vertices.mean(axis=0)).transpose(1, 0, 2)
        return float(np.einsum("ij,ij->", a, np.cross(b, c)) / 6)

    @property
    def volume_ml(self) -> float:
        """Signed volume [ml], see `volume_mm3`."""
        return self.volume_mm3 / 1000

    @property
    def closed(self) -> bool:
        """Whether every edge is run as often one way as the other (by a sum of edge hashes: a miss is 1 in 2^64)."""
        total = np.uint64(0)
        for a, b in ((0, 1), (1, 2), (2, 0)):
            start, end = self.faces[:, a], self.faces[:, b]
            low = np.minimum(start, end).astype(np.uint64)
            high = np.maximum(start, end).astype(np.uint64)
            mixed = (low * np.uint64(0x9E3779B97F4A7C15)) ^ (high * np.uint64(0xC2B2AE3D27D4EB4F))
            mixed = (mixed ^ (mixed >> np.uint64(29))) * np.uint64(0xBF58476D1CE4E5B9)
            mixed ^= mixed >> np.uint64(32)
            forward = mixed[start < end].sum(dtype=np.uint64)
            backward = mixed[start > end].sum(dtype=np.uint64)
            total = np.uint64((int(total) + int(forward) - int(backward)) % 2**64)
        return len(self.faces) > 0 and int(total) == 0

    def moved(self, shift_mm: NDArray[np.float64] | tuple[float, float, float]) -> Mesh:
        """The mesh at another place.

        Parameters
        ----------
        shift_mm : (3,) by how much [mm].

        Source: our own.
        """
        return Mesh(self.vertices + np.asarray(shift_mm, dtype=np.float64), self.faces)

    def why_invalid(self) -> str:
        """Why this is not one closed, consistently wound solid; "" where it is one (any number of bodies).

        Source: our own.
        """
        if len(self.faces) == 0:
            return "it has no triangles"
        if not np.isfinite(self.vertices).all():
            return "it has coordinates that are not numbers"
        return self._why_not_closed() or self._why_inside_out()

    def _why_inside_out(self) -> str:
        return "" if self.volume_mm3 > 0 else f"it is inside out (volume {self.volume_mm3:.1f} mm3)"

    def _why_not_closed(self) -> str:
        a, b, c = self.faces.T
        flat = int(((a == b) | (b == c) | (c == a)).sum())
        if flat:
            return f"{flat} triangles have two corners in one"
        edges = np.concatenate([self.faces[:, [0, 1]], self.faces[:, [1, 2]], self.faces[:, [2, 0]]]).astype(np.int64)
        key = np.sort(edges[:, 0] * len(self.vertices) + edges[:, 1])
        back = np.sort(edges[:, 1] * len(self.vertices) + edges[:, 0])
        twice = key[1:] == key[:-1]
        if twice.any():
            count = len(np.unique(key[1:][twice]))
            return f"{count} edges are wound inconsistently or shared by more than two triangles"
        if not np.array_equal(key, back):
            return f"{len(np.setxor1d(key, back))} edges are open"
        return ""

    def volume_over_mm3(self, z_mm: float) -> float:
        """Volume of the part over a level plane, as cut and closed flat there; meaningful for a closed mesh.

        Every triangle counts as its cone to a point of the plane, by the share of its area that lies over the plane:
        the flat itself then counts nothing.

        Parameters
        ----------
        z_mm : height of the plane [mm].

        Source: the divergence theorem.

        >>> box = Mesh(np.array([[0.0, 0, 0], [6, 0, 0], [0, 6, 0], [0, 0, 6]]),
        ...            np.array([[0, 2, 1], [0, 1, 3], [1, 2, 3], [0, 3, 2]], np.int32))
        >>> round(box.volume_over_mm3(0.0), 9), round(box.volume_over_mm3(3.0), 9)
        (36.0, 4.5)
        """
        middle = self.vertices.mean(axis=0)
        corners = self.corners - np.array([middle[0], middle[1], z_mm])
        high = corners[:, :, 2]
        some = (high > 0).any(axis=1)
        corners, high = corners[some], high[some]
        a, b, c = corners.transpose(1, 0, 2)
        return float(np.dot(np.einsum("ij,ij->i", a, np.cross(b, c)), _shares_over(high)) / 6)


def _shares_over(high: NDArray[np.float64]) -> NDArray[np.float64]:
    """(m,) share of each triangle's area over z = 0, from the heights (m, 3) of its corners, one of them over it.

    Cut off at one corner, heights h, k, l: share h / (h - k) x h / (h - l).
    """
    share = np.ones(len(high))
    over = high > 0
    for count in (1, 2):
        rows = np.flatnonzero((over.sum(axis=1) == count) & (high < 0).any(axis=1))
        lone = np.argmax(over[rows] == (count == 1), axis=1)
        h, k, m = (high[rows, (lone + turn) % 3] for turn in range(3))
        cut = h / (h - k) * (h / (h - m))
        share[rows] = cut if count == 1 else 1 - cut
    return share
