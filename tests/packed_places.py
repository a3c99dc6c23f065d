"""Where a plan's packed places lie, measured by trimesh (a reference library)."""

from __future__ import annotations

import numpy as np
import trimesh
from job_meshes import meshes_of
from trimesh.ray.ray_pyembree import RayMeshIntersector

from moldwright.geometry.mesh import Mesh
from moldwright.job.planning import Planned

NEAR_MM = 1.5


def check_places(planned: Planned) -> None:
    """Every place, the small ones too, is on the gloved surface within 1.5 mm and no deeper than that in the original;
    all are the fill."""
    meshes, glove = meshes_of(planned), planned.plan.glove
    places = np.array([spot.at for spot in planned.solids.measured.value.measures.glove.spots]).reshape(-1, 3)
    assert {spot.at for spot in glove.spots} <= set(map(tuple, places))
    assert np.abs(depth_inside_mm(meshes["mold/gloved.stl"], places)).max(initial=0.0) <= NEAR_MM
    assert depth_inside_mm(meshes["mold/original.stl"], places).max(initial=-1.0) <= NEAR_MM
    told = [*glove.spots, *glove.small_spots]
    assert np.isclose(sum(each.volume_ml for each in told), glove.fill.volume_ml, rtol=1e-6)
    assert np.isclose(sum(each.net_g for each in told), glove.fill.net_g, atol=1e-2)


def depth_inside_mm(solid: Mesh, points: np.ndarray) -> np.ndarray:
    """How far each point is from a solid's surface [mm], negative outside."""
    if len(points) == 0:
        return np.zeros(0)
    peer = trimesh.Trimesh(solid.vertices, solid.faces, process=False)
    inside = RayMeshIntersector(peer).contains_points(points)
    low, high = peer.triangles.min(axis=1), peer.triangles.max(axis=1)
    found = []
    for point, within in zip(points, inside, strict=True):
        reach = np.linalg.norm(peer.vertices - point, axis=1).min() + 1e-6
        near = peer.triangles[((low < point + reach) & (high > point - reach)).all(axis=1)]
        closest = trimesh.triangles.closest_point(near, np.repeat(point[None], len(near), axis=0))
        away = float(np.linalg.norm(closest - point, axis=1).min())
        found.append(away if within else -away)
    return np.array(found)
