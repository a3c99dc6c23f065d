"""Light on the piece and on the sheet: a soft lamp or window, a sky over it all, and what sheet and piece throw back.

Baked once for a set: nothing moves between its photos. Rays by Embree (through trimesh).
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt
import trimesh
from trimesh.ray.ray_pyembree import RayMeshIntersector

Floats = npt.NDArray[np.float64]
SKY_RAYS, LAMP_RAYS = 160, 24
CHUNK = 400_000


@dataclass(frozen=True, slots=True, eq=False)
class Light:
    """`lamp_way` : unit vector to the lamp; `lamp_round` : its half angle [rad]; `lamp_share` : of the light on a
    free sheet; `lean` : how much brighter the sky is on the lamp's side, 0 to 1."""

    lamp_way: Floats
    lamp_round: float
    lamp_share: float
    lean: float

    def sky(self, ways: Floats) -> Floats:
        """Radiance of the sky in directions (n, 3), about 1."""
        level = np.array([*self.lamp_way[:2], 0.0])
        return np.asarray(1 + self.lean * ways @ level)


def chance_light(rng: np.random.Generator) -> Light:
    """A lamp or window from somewhere above."""
    round_, high = rng.uniform(0, 2 * np.pi), np.radians(rng.uniform(45, 68))
    way = np.array([np.cos(round_) * np.cos(high), np.sin(round_) * np.cos(high), np.sin(high)])
    return Light(way, np.radians(rng.uniform(8, 18)), rng.uniform(0.35, 0.7), rng.uniform(0.2, 0.6))


@dataclass(frozen=True, slots=True, eq=False)
class Baked:
    """Light on points, free and full sheet = 1: from the lamp, from the sky, off the sheet, off the piece itself."""

    lamp: Floats
    sky: Floats
    sheet: Floats
    piece: Floats


def bake(solid: trimesh.Trimesh, points: Floats, normals: Floats, light: Light) -> Baked:
    """What reaches points on the piece, or on the sheet (normals up), from each source.

    Parameters
    ----------
    solid : what throws shadows [mm].
    points, normals : (n, 3) each [mm].
    """
    caster = RayMeshIntersector(solid, scale_to_box=False)
    start = points + normals * 1e-3 * max(solid.extents)
    lamp = _lamp(caster, start, normals, light) * light.lamp_share / light.lamp_way[2]
    sky, sheet, piece = np.zeros(len(points)), np.zeros(len(points)), np.zeros(len(points))
    for way in _round_ways(SKY_RAYS):
        facing = np.maximum(normals @ way, 0.0) * 4 / SKY_RAYS
        hit = _hit(caster, start, way, facing > 0)
        free = np.where(hit, 0.0, facing)
        piece += np.where(hit, facing, 0.0)
        if way[2] > 0:
            sky += free * float(light.sky(way[None])[0])
        else:
            sheet += free
    return Baked(lamp, sky * (1 - light.lamp_share), sheet, piece)


def _lamp(caster: RayMeshIntersector, start: Floats, normals: Floats, light: Light) -> Floats:
    side = np.cross(light.lamp_way, [0.0, 0.0, 1.0])
    side /= np.linalg.norm(side)
    other = np.cross(light.lamp_way, side)
    got = np.zeros(len(start))
    for n in range(LAMP_RAYS):
        r, a = np.tan(light.lamp_round) * np.sqrt((n + 0.5) / LAMP_RAYS), n * 2.39996
        way = light.lamp_way + r * (np.cos(a) * side + np.sin(a) * other)
        way /= np.linalg.norm(way)
        facing = np.maximum(normals @ way, 0.0) / LAMP_RAYS
        got += np.where(_hit(caster, start, way, facing > 0), 0.0, facing)
    return got


def _hit(caster: RayMeshIntersector, start: Floats, way: Floats, asked: npt.NDArray[np.bool_]) -> npt.NDArray[np.bool_]:
    hit = np.zeros(len(start), dtype=bool)
    chosen = np.flatnonzero(asked)
    for part in np.array_split(chosen, len(chosen) // CHUNK + 1):
        if len(part):
            hit[part] = caster.intersects_any(start[part], np.broadcast_to(way, (len(part), 3)))
    return hit


def _round_ways(count: int) -> Floats:
    """Evenly over the whole sphere (Fibonacci's spiral)."""
    n = np.arange(count) + 0.5
    z, a = 1 - 2 * n / count, n * np.pi * (3 - np.sqrt(5))
    r = np.sqrt(1 - z * z)
    return np.column_stack([r * np.cos(a), r * np.sin(a), z])
