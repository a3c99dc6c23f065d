"""Where undercuts are packed: the bare piece from the sides that show a spot, the spots numbered."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np

from moldwright.geometry.mesh import Mesh
from moldwright.sheets.camera import Camera
from moldwright.sheets.picture import Mark, Picture
from moldwright.sheets.raycast import Scene, look
from moldwright.sheets.seam_views import SIDES, level_camera
from moldwright.sheets.shading import channels, paint, size_px, to_png

Point = tuple[float, float, float]
BARE = "#d5dcd8"
LEAST_APART = 0.075
"""Least distance of two numbers, as a share of the picture's height: a little more than a number's disk."""


def fill_map(bare: Sequence[Mesh], gloved: Mesh, spots: Sequence[Point]) -> tuple[Picture, ...]:
    """One picture for each side that shows a spot; each spot is numbered, from 1, on the side that it faces most."""
    sides = [_side(gloved, spot) for spot in spots]
    if not spots:
        return ()
    scene = Scene(bare)
    return tuple(
        _view(scene, SIDES[side][0], level_camera(gloved, SIDES[side][1]), spots, sides, side)
        for side in sorted(set(sides))
    )


def _side(gloved: Mesh, spot: Point) -> int:
    low, high = gloved.bounds_mm
    x, y = (spot[k] - (low[k] + high[k]) / 2 for k in (0, 1))
    return round(math.degrees(math.atan2(x, -y)) % 360 / 90) % 4


def _view(scene: Scene, name: str, camera: Camera, spots: Sequence[Point], sides: Sequence[int], side: int) -> Picture:
    width, height = size_px(camera, 360)
    hits = look(scene, camera, 2 * width, 2 * height)
    picture = to_png(paint(hits, camera, [channels(BARE)] * len(scene.meshes)))
    marks = [
        Mark(str(number), *camera.shares(spot))
        for number, (spot, its) in enumerate(zip(spots, sides, strict=True), start=1)
        if its == side
    ]
    marks = spread(marks, camera.width_mm / camera.height_mm)
    bottom = float(camera.center[2]) - camera.height_mm / 2
    return Picture(name, picture, camera.width_mm, camera.height_mm, bottom, tuple(marks))


def spread(marks: Sequence[Mark], wide: float) -> list[Mark]:
    """Marks pushed apart till none covers another; those that moved point to where they stood.

    Parameters
    ----------
    marks : with shares of the picture; wide : its width over its height.
    """
    places = np.array([(m.x * wide, m.y) for m in marks]).reshape(-1, 2)
    turns = 2.4 * np.arange(len(marks))
    places += 1e-6 * np.stack([np.cos(turns), np.sin(turns)], axis=1)
    for _ in range(60):
        away = places[:, None] - places[None, :]
        apart = np.maximum(np.linalg.norm(away, axis=2), 1e-9)
        push = np.clip(LEAST_APART - apart, 0.0, None) * (1 - np.eye(len(marks)))
        places += 0.5 * (away / apart[..., None] * push[..., None]).sum(axis=1)
    spot = [(float(x) / wide, float(y)) for x, y in places]
    moved = [abs(x - m.x) * wide + abs(y - m.y) > 0.01 for m, (x, y) in zip(marks, spot, strict=True)]
    return [Mark(m.text, x, y, (m.x, m.y)) if far else m for m, (x, y), far in zip(marks, spot, moved, strict=True)]
