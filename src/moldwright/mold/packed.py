"""One place that is packed with rubber: the surface that packing makes, and what lies beneath it."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.spatial import cKDTree

from moldwright.geometry.mesh import Mesh
from moldwright.geometry.solid import Solid, bodies_of, mesh_of, solid_of

LEAST_SPOT_MM3 = 20.0
"""What is less is a crumb and told with the small ones: our choice."""
FLAT_MM = 1e-3
NEARLY_DEEPEST = 0.9
"""Share of the greatest depth from which a point counts as of the deepest part: our choice."""
APART_MM = 1.0
"""How far points of a surface are apart at most where its depth is sought: our choice."""

Points = NDArray[np.float64]


@dataclass(frozen=True, slots=True, eq=False)
class Packed:
    """The rubber of one packed place.

    outer : the triangles toward the open side, which the maker makes flush [mm].
    inner : those on the body or the rubber beneath, wound outward of the packing [mm].
    volume_mm3 : what both enclose [mm3].
    """

    outer: Mesh
    inner: Mesh
    volume_mm3: float

    @property
    def volume_ml(self) -> float:
        """What is packed here [ml]."""
        return self.volume_mm3 / 1000


def packed_bodies(fill: Solid, core: Mesh, floor_mm: float, least_mm3: float) -> tuple[Packed, ...]:
    """What a filling adds to a core, as separate bodies, largest first.

    Parameters
    ----------
    fill : the filling, which may reach into the core [mm].
    core : what is filled [mm].
    floor_mm : height under which nothing is packed [mm]; what is flat there lies on the core.
    least_mm3 : volume up to which a body is left out [mm3], >= 0.

    Source: our own, through manifold3d.
    """
    bare = solid_of(core)
    beneath = np.unique(bare.to_mesh64().run_original_id)
    bodies = bodies_of(fill - bare, least_mm3)
    return tuple(_of_body(body, beneath, floor_mm) for body in bodies)


def _of_body(body: Solid, beneath: NDArray[np.uint32], floor_mm: float) -> Packed:
    """Which triangles came from what is beneath, manifold3d keeps."""
    raw = body.to_mesh64()
    starts = np.asarray(raw.run_index, dtype=np.int64) // 3
    runs: NDArray[np.int64] = starts[1:] - starts[:-1]
    inner = np.repeat(np.isin(raw.run_original_id, beneath), runs)
    mesh = mesh_of(body)
    inner |= (mesh.corners[:, :, 2] < floor_mm + FLAT_MM).all(axis=1)
    return Packed(Mesh(mesh.vertices, mesh.faces[~inner]), Mesh(mesh.vertices, mesh.faces[inner]), body.volume())


def deepest_of(place: Packed) -> tuple[Points, float]:
    """Where a place is pushed in, (3,) on its outer surface [mm], and its greatest depth [mm].

    The depth at a point beneath is its distance to the outer surface; the point that is told is the one over the
    middle of the deepest part.

    Parameters
    ----------
    place : both its surfaces are not empty.

    Source: our own; the greatest of such distances is the directed distance of Hausdorff 1914.
    """
    outer = points_on(place.outer, APART_MM)
    depth, over = nearest(outer, points_on(place.inner, APART_MM))
    deep = over[depth >= NEARLY_DEEPEST * depth.max()]
    middle = outer[deep].mean(axis=0)
    at: Points = outer[deep[np.argmin(np.linalg.norm(outer[deep] - middle, axis=1))]]
    return at, float(depth.max())


def nearest(points: Points, asked: Points) -> tuple[Points, NDArray[np.int64]]:
    """How far the nearest of some points is from each that is asked about [mm], and which it is.

    Parameters
    ----------
    points : (n, 3) where to look [mm], n >= 1.
    asked : (m, 3) [mm].

    Source: k-d tree (scipy).
    """
    away, which = cKDTree(points).query(asked)
    return np.asarray(away, np.float64), np.asarray(which, np.int64)


def points_on(mesh: Mesh, apart_mm: float) -> Points:
    """(n, 3) corners of all triangles, and points on the large ones no farther apart than asked for.

    Parameters
    ----------
    mesh : any triangles [mm].
    apart_mm : greatest distance of neighbors along an edge [mm], > 0.

    Source: our own.
    """
    corners = mesh.corners
    longest = np.linalg.norm(corners - np.roll(corners, 1, axis=1), axis=2).max(axis=1, initial=0.0)
    parts = np.ceil(longest / apart_mm).astype(int)
    found = [mesh.vertices[np.unique(mesh.faces)]]
    for count in np.unique(parts[parts > 1]):
        i, j = np.nonzero(np.add.outer(np.arange(count + 1), np.arange(count + 1)) <= count)
        shares = np.stack([count - i - j, i, j], axis=1) / count
        found.append((shares @ corners[parts == count]).reshape(-1, 3))
    return np.concatenate(found)
