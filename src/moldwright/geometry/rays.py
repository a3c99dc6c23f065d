"""Rays against triangle meshes: the one place that talks to the ray caster (embreex).

A ray that meets nothing has met it at an infinite distance, on solid -1.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from embreex.mesh_construction import TriangleMesh
from embreex.rtcore_scene import EmbreeScene
from numpy.typing import NDArray

from moldwright.geometry.mesh import Mesh

Floats32 = NDArray[np.float32]
Ints = NDArray[np.int32]


@dataclass(frozen=True, slots=True, eq=False)
class FirstHits:
    """What each of n rays met first.

    Parameters
    ----------
    solid : (n,) number of the mesh, -1: nothing.
    face : (n,) number of its triangle, -1: nothing.
    distance_mm : (n,) along the ray [mm], infinite: nothing.
    u, v : (n,) where on the triangle: its second and third corner's share.
    """

    solid: Ints
    face: Ints
    distance_mm: Floats32
    u: Floats32
    v: Floats32


class Rays:
    """Meshes made ready to be met by rays from anywhere.

    Source: Wald et al. 2014, "Embree: a kernel framework for efficient CPU ray tracing", ACM Transactions on Graphics
    33 (4), through embreex.
    """

    def __init__(self, meshes: Sequence[Mesh]) -> None:
        self._scene = EmbreeScene()
        self._kept = [
            TriangleMesh(self._scene, mesh.vertices.astype(np.float32), np.ascontiguousarray(mesh.faces, np.int32))
            for mesh in meshes
        ]

    def first_hits(self, origins_mm: NDArray[np.floating], directions: NDArray[np.floating]) -> FirstHits:
        """What every ray meets first.

        Parameters
        ----------
        origins_mm : (n, 3) where the rays start [mm].
        directions : (n, 3) or (3,) unit vectors.

        Source: Wald et al. 2014, through embreex.
        """
        origins = np.ascontiguousarray(origins_mm, dtype=np.float32)
        along = np.ascontiguousarray(np.broadcast_to(directions, origins.shape), dtype=np.float32)
        found = self._scene.run(origins, along, output=1)
        solid = found["geomID"].astype(np.int32)
        met = solid >= 0
        face = np.where(met, found["primID"], -1).astype(np.int32)
        distance = np.where(met, found["tfar"], np.inf).astype(np.float32)
        return FirstHits(solid, face, distance, found["u"], found["v"])


def hit_distances(mesh: Mesh, origins_mm: NDArray[np.float64], directions: NDArray[np.float64]) -> Floats32:
    """(n,) distance [mm] from each of n points to the mesh; infinite where nothing is met.

    Parameters
    ----------
    mesh : any triangles [mm].
    origins_mm : (n, 3) where the rays start [mm].
    directions : (n, 3) or (3,) unit vectors.

    Source: Wald et al. 2014, through embreex.
    """
    return Rays([mesh]).first_hits(origins_mm, directions).distance_mm
