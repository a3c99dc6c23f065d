"""Where rubber is packed and where holes are: the bare piece from the sides that show them."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np

from moldwright.geometry.mesh import Mesh
from moldwright.sheets.camera import Camera, directions
from moldwright.sheets.picture import Axis, Level, Mark, MarkKind, Picture
from moldwright.sheets.scene import Scene, look
from moldwright.sheets.seam_views import SIDES, level_camera
from moldwright.sheets.shading import channels, paint, size_px, to_png

Point = tuple[float, float, float]
LetteredPoint = tuple[str, Point]
Named = tuple[str, Point, MarkKind]
BARE = "#d5dcd8"
MARGIN = 0.05
"""Room round the piece, as a share of the picture: our choice."""
OFF_MM = 0.3
"""What is nearer to a point than this does not hide it: it may be the surface that it lies on."""
LEVELS = ((Axis.RIGHT, 1), (Axis.BACK, 1), (Axis.RIGHT, -1), (Axis.BACK, -1))
"""What the four sides show from left to right."""


def fill_map(
    bare: Sequence[Mesh], gloved: Mesh, spots: Sequence[Point], holes: Sequence[LetteredPoint] = ()
) -> tuple[Picture, ...]:
    """One picture for each side that shows a spot or a hole, each once, on a side from which it is seen.

    Spots are numbered from 1, through-holes have their letters.
    """
    named = [(str(number), spot, MarkKind.NUMBER) for number, spot in enumerate(spots, start=1)]
    named += [(letter, at, MarkKind.LETTER) for letter, at in holes]
    if not named:
        return ()
    scene = Scene(bare)
    sides = [side_of(scene, gloved, at) for _, at, _ in named]
    return tuple(
        _view(scene, side, level_camera(gloved, SIDES[side][1], MARGIN), _of_side(named, sides, side))
        for side in sorted(set(sides))
    )


def _of_side(named: Sequence[Named], sides: Sequence[int], side: int) -> list[Named]:
    return [each for each, its in zip(named, sides, strict=True) if its == side]


def side_of(scene: Scene, gloved: Mesh, at: Point) -> int:
    """The side that a point faces most among those from which nothing hides it; where all hide it, of all.

    Parameters
    ----------
    scene : what may hide it.
    gloved : about whose middle the sides are.
    at : the point [mm].
    """
    low, high = gloved.bounds_mm
    x, y = (at[k] - (low[k] + high[k]) / 2 for k in (0, 1))
    faces_deg = math.degrees(math.atan2(x, -y)) % 360
    toward = np.array([-directions(azimuth, 0.0)[0] for _, azimuth in SIDES], np.float32)
    away = [abs((faces_deg - azimuth + 180) % 360 - 180) for _, azimuth in SIDES]
    hidden = scene.cast(np.array([at], np.float32) + np.float32(OFF_MM) * toward, toward).solid >= 0
    return min(range(len(SIDES)), key=lambda side: (bool(hidden[side]), away[side]))


def _view(scene: Scene, side: int, camera: Camera, named: Sequence[Named]) -> Picture:
    width, height = size_px(camera, 360)
    hits = look(scene, camera, 2 * width, 2 * height)
    picture = to_png(paint(hits, camera, [channels(BARE)] * len(scene.meshes)))
    marks = tuple(Mark(text, *camera.shares(at), kind=kind) for text, at, kind in named)
    bottom_mm = float(camera.center[2]) - camera.height_mm / 2
    axis, sense = LEVELS[side]
    left_mm = float(camera.center @ camera.right) - camera.width_mm / 2
    level = Level(axis, sense, sense * left_mm)
    return Picture(SIDES[side][0], picture, camera.width_mm, camera.height_mm, bottom_mm, marks, level)
