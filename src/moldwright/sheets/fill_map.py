"""Where undercuts are packed: the bare piece from the sides that show a spot, the spots numbered."""

from __future__ import annotations

import math
from collections.abc import Sequence

from moldwright.geometry.mesh import Mesh
from moldwright.sheets.camera import Camera
from moldwright.sheets.picture import Mark, Picture
from moldwright.sheets.raycast import Scene, look
from moldwright.sheets.seam_views import SIDES, level_camera
from moldwright.sheets.shading import channels, paint, size_px, to_png

Point = tuple[float, float, float]
BARE = "#d5dcd8"


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
    bottom = float(camera.center[2]) - camera.height_mm / 2
    return Picture(name, picture, camera.width_mm, camera.height_mm, bottom, tuple(marks))
