"""The slit drawn for the hand: the gloved piece from the sides on which it is in sight, the slit as a heavy line."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from scipy import ndimage

from moldwright.geometry.mesh import Mesh
from moldwright.sheets.camera import Camera, Floats, Floats32
from moldwright.sheets.picture import Picture
from moldwright.sheets.scene import Hits, Scene, look
from moldwright.sheets.seam_views import SIDES, level_camera
from moldwright.sheets.shading import INK, channels, ink_over, paint, size_px, to_png

RUBBER = "#dfe3e1"
DOT_MM, BEHIND_MM = 0.3, 4.0
"""How close the line's dots are; so far behind what is seen a dot still shows, for joins of stations cut corners."""
FACING, SEEN_SHARE = 0.2, 0.2
"""How squarely a surface must face the viewer (cosine) to show a dot; a side that shows so small a share of what the
best one shows is left out: our own."""


def slit_views(gloved: Mesh, lines: Sequence[Floats]) -> tuple[Picture, ...]:
    """The sides that show a slit, at one scale, board at the lower edge; none where nothing is slit.

    Parameters
    ----------
    gloved : original, plinth and rubber in one [mm].
    lines : the slit's, each (n, 3) stations in order [mm].
    """
    if not lines:
        return ()
    scene, dots = Scene([gloved]), np.concatenate([_dotted(line) for line in lines])
    drawn = [_view(scene, dots, name, level_camera(gloved, azimuth)) for name, azimuth in SIDES]
    most = max(seen for _, seen in drawn)
    return tuple(picture for picture, seen in drawn if seen > SEEN_SHARE * most)


def _dotted(line: Floats) -> Floats:
    """Places along a broken line."""
    along = np.concatenate([[0.0], np.linalg.norm(np.diff(line, axis=0), axis=1).cumsum()])
    at = np.arange(0.0, along[-1], DOT_MM)
    return np.stack([np.interp(at, along, line[:, axis]) for axis in range(3)], axis=1)


def _view(scene: Scene, dots: Floats, name: str, camera: Camera) -> tuple[Picture, int]:
    width, height = size_px(camera, 460)
    hits = look(scene, camera, 2 * width, 2 * height)
    line, seen = _line(hits, dots, camera)
    picture = ink_over(paint(hits, camera, [channels(RUBBER)]), line, INK * 0)
    bottom = float(camera.center[2]) - camera.height_mm / 2
    return Picture(name, to_png(picture), camera.width_mm, camera.height_mm, bottom), seen


def _line(hits: Hits, dots: Floats, camera: Camera) -> tuple[Floats32, int]:
    """1 on a band along the dots that are in sight, and how many there are."""
    tall, wide = hits.solid.shape
    offset = dots - camera.center
    column = ((0.5 + offset @ camera.right / camera.width_mm) * wide).astype(int)
    row = ((0.5 - offset @ camera.up / camera.height_mm) * tall).astype(int)
    depth = offset @ camera.look + camera.reach_mm
    inside = (column >= 0) & (column < wide) & (row >= 0) & (row < tall)
    row, column, depth = row[inside], column[inside], depth[inside]
    facing = hits.face_normal[row, column] @ camera.look < -FACING
    shown = facing & (np.abs(hits.depth_mm[row, column] - depth) <= BEHIND_MM)
    line = np.zeros((tall, wide), bool)
    line[row[shown], column[shown]] = True
    disk = np.hypot(*np.mgrid[-4:5, -4:5]) <= 4.2
    return ndimage.binary_dilation(line, disk).astype(np.float32), int(shown.sum())
