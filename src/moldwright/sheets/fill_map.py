"""Where rubber is packed and where holes are: the bare piece from the sides that show them, with the table's axes."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from moldwright.geometry.mesh import Mesh
from moldwright.sheets.camera import Camera, directions
from moldwright.sheets.picture import Mark, MarkKind, Picture
from moldwright.sheets.raycast import Scene, look
from moldwright.sheets.seam_views import SIDES, level_camera
from moldwright.sheets.shading import channels, paint, size_px, to_png

Point = tuple[float, float, float]
LetteredPoint = tuple[str, Point]
Named = tuple[str, Point, MarkKind]
BARE = "#d5dcd8"
MARGIN, AXIS_SHARE = 0.05, 0.22
"""Room round the piece, and how long an axis is drawn, as shares of the picture: our choice."""
LEAST_APART = 0.075
"""Least distance of two numbers, as a share of the picture's height: a little more than a number's disk."""


def fill_map(
    bare: Sequence[Mesh], gloved: Mesh, spots: Sequence[Point], holes: Sequence[LetteredPoint] = ()
) -> tuple[Picture, ...]:
    """One picture for each side that shows a spot or a hole, each once, on a side from which it is seen.

    Spots are numbered from 1, through-holes have their letters; the table's origin and axes are drawn.
    """
    named = [(str(number), spot, MarkKind.NUMBER) for number, spot in enumerate(spots, start=1)]
    named += [(letter, at, MarkKind.LETTER) for letter, at in holes]
    if not named:
        return ()
    scene = Scene(bare)
    sides = [_side(scene, gloved, at) for _, at, _ in named]
    return tuple(
        _view(scene, SIDES[side][0], level_camera(gloved, SIDES[side][1], MARGIN), _of_side(named, sides, side))
        for side in sorted(set(sides))
    )


def _of_side(named: Sequence[Named], sides: Sequence[int], side: int) -> list[Named]:
    return [each for each, its in zip(named, sides, strict=True) if its == side]


def _side(scene: Scene, gloved: Mesh, at: Point) -> int:
    """The side that a point faces most among those from which nothing hides it; where all hide it, of all."""
    low, high = gloved.bounds_mm
    x, y = (at[k] - (low[k] + high[k]) / 2 for k in (0, 1))
    faces_deg = math.degrees(math.atan2(x, -y)) % 360
    toward = np.array([-directions(azimuth, 0.0)[0] for _, azimuth in SIDES], np.float32)
    away = [abs((faces_deg - azimuth + 180) % 360 - 180) for _, azimuth in SIDES]
    hidden = scene.cast(np.repeat(np.array([at], np.float32), len(SIDES), axis=0), toward).solid >= 0
    return min(range(len(SIDES)), key=lambda side: (bool(hidden[side]), away[side]))


def _view(scene: Scene, name: str, camera: Camera, named: Sequence[Named]) -> Picture:
    width, height = size_px(camera, 360)
    hits = look(scene, camera, 2 * width, 2 * height)
    picture = to_png(paint(hits, camera, [channels(BARE)] * len(scene.meshes)))
    marks = [Mark(text, *camera.shares(at), kind=kind) for text, at, kind in named]
    marks = spread(marks, camera.width_mm / camera.height_mm)
    bottom = float(camera.center[2]) - camera.height_mm / 2
    return Picture(name, picture, camera.width_mm, camera.height_mm, bottom, (*_axes(camera), *marks))


def _axes(camera: Camera) -> list[Mark]:
    """The axes that lie in a level view, from the middle of the board, where all three are 0."""
    start = camera.shares((0.0, 0.0, 0.0))
    long_mm = AXIS_SHARE * min(camera.width_mm, camera.height_mm)
    ways = (("right", (1.0, 0.0, 0.0)), ("back", (0.0, 1.0, 0.0)), ("up", (0.0, 0.0, 1.0)))
    return [
        Mark(name, *camera.shares(long_mm * np.array(way)), start, MarkKind.AXIS)
        for name, way in ways
        if abs(float(np.dot(camera.look, way))) < 0.5
    ]


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
    return [
        replace(m, x=x, y=y, to=(m.x, m.y)) if far else m for m, (x, y), far in zip(marks, spot, moved, strict=True)
    ]
