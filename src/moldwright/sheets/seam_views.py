"""The seam drawn for the hand: the gloved piece from four sides, each surface in the tone of its shell piece."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray
from scipy import ndimage

from moldwright.geometry.mesh import Mesh
from moldwright.sheets.camera import Camera, Floats32, directions
from moldwright.sheets.picture import Mark, MarkKind, Picture
from moldwright.sheets.scene import Hits, Ints, Scene, look
from moldwright.sheets.shading import INK, channels, ink_over, light, outlines, size_px, to_png

SIDES = (("Front", 0.0), ("Right", 90.0), ("Back", 180.0), ("Left", 270.0))
REACH_MM = 30.0
FLANGE_SHARE, FLANGE_SHOWN_MM = 0.05, 4.0
"""Height that counts as flange, as a share of the whole, and how much of it is drawn on each side: our choice."""
GAP_MM = 2.5
"""How far along the surface a joint between two pieces is bridged: our choice."""
TONES = ("#ffffff", "#b9c4bf", "#dfe3e1", "#98a6a0")


def seam_views(gloved: Mesh, pieces: Sequence[Scene]) -> tuple[Picture, ...]:
    """Front, right, back and left at one scale, board at the lower edge, the seam as a heavy line."""
    scene = Scene([gloved])
    return tuple(_view(scene, pieces, name, level_camera(gloved, azimuth)) for name, azimuth in SIDES)


def level_camera(mesh: Mesh, azimuth_deg: float, margin: float = 0.02) -> Camera:
    """Level with the board and as wide as the widest of the four sides, so that all four share a scale.

    A flange at the board may run out of the picture on both sides, so that what stands on it is drawn larger.
    """
    low, high = mesh.bounds_mm
    low[2] = min(0.0, low[2])
    above = mesh.vertices[mesh.vertices[:, 2] > low[2] + max(8.0, FLANGE_SHARE * (high[2] - low[2]))]
    above = above if len(above) else mesh.vertices
    reach = float(max(high[0] - low[0], high[1] - low[1])) / 2 + 1.0
    low[:2], high[:2] = above[:, :2].min(axis=0), above[:, :2].max(axis=0)
    size = high - low
    width = float(max(size[0], size[1])) * (1 + 2 * margin) + 2 * FLANGE_SHOWN_MM
    height = float(size[2]) * (1 + 2 * margin)
    look_, right, up = directions(azimuth_deg, 0.0)
    return Camera((low + high) / 2, look_, right, up, width, height, 2 * reach)


def _view(scene: Scene, pieces: Sequence[Scene], name: str, camera: Camera) -> Picture:
    width, height = size_px(camera, 460)
    hits = look(scene, camera, 2 * width, 2 * height)
    piece = piece_of_pixels(hits, camera, pieces)
    table = np.stack([channels(TONES[k % len(TONES)]) for k in range(max(1, len(pieces)))] + [channels("#ffffff")])
    picture = table[piece]
    seen = hits.solid >= 0
    picture[seen] *= np.clip(0.35 + 0.75 * light(hits, camera)[seen], 0.5, 1.0)[:, None]
    picture = ink_over(picture, 0.8 * outlines(hits, camera))
    picture = ink_over(picture, seam_line(hits, piece, camera), INK * 0)
    bottom = float(camera.center[2]) - camera.height_mm / 2
    return Picture(name, to_png(picture), camera.width_mm, camera.height_mm, bottom, patch_marks(piece))


def piece_of_pixels(hits: Hits, camera: Camera, pieces: Sequence[Scene]) -> Ints:
    """The shell piece that covers each pixel's point, seen outward from the rubber; -1 where there is none.

    A ray that leaves a piece before it enters one starts inside it; else the nearest piece counts. Where a ray runs
    into the joint between two pieces (it meets their edges at a slant, or nothing), the nearer patch takes it.
    Two by two pixels, which become one in the picture, share their answer.
    """
    tall, wide = hits.solid.shape
    solid, depth = hits.solid[::2, ::2], hits.depth_mm[::2, ::2].reshape(-1)
    seen = np.flatnonzero(solid.reshape(-1) >= 0)
    origins, along = (rays.reshape(tall, wide, 3)[::2, ::2].reshape(-1, 3) for rays in camera.rays(wide, tall))
    outward = hits.face_normal[::2, ::2].reshape(-1, 3)[seen]
    points = origins[seen] + depth[seen, None] * along[seen] + np.float32(0.02) * outward
    nearest = np.full(len(seen), REACH_MM, dtype=np.float32)
    covering, square = np.full(len(seen), -1, dtype=np.int32), np.zeros(len(seen), dtype=bool)
    for number, scene in enumerate(pieces):
        found = scene.cast(points, outward)
        leaving = np.einsum("ij,ij->i", found.face_normal, outward)
        gap = np.where(leaving > 0, np.float32(-1), found.depth_mm)
        closer = gap < nearest
        covering[closer], square[closer] = number, ((leaving > 0) | (leaving < -0.5))[closer]
        nearest = np.minimum(nearest, gap)
    piece = np.full((2, solid.size), -1, dtype=np.int32)
    piece[0, seen], piece[1, seen] = covering, np.where(square, covering, -1)
    loose, sure = piece.reshape(2, *solid.shape)
    bridged = _bridged(sure, solid >= 0, GAP_MM * solid.shape[1] / camera.width_mm)
    both = np.where(bridged >= 0, bridged, loose)
    return np.where(hits.solid >= 0, both.repeat(2, axis=0).repeat(2, axis=1)[:tall, :wide], -1).astype(np.int32)


def _bridged(piece: Ints, seen: NDArray[np.bool_], reach_px: float) -> Ints:
    """The joint between two pieces leaves a strip that none covers: it goes to the nearer of them."""
    away, nearest = ndimage.distance_transform_edt(piece < 0, return_indices=True)
    close = seen & (piece < 0) & (away <= reach_px)
    return np.where(close, piece[tuple(nearest)], piece).astype(np.int32)


def seam_line(hits: Hits, piece: Ints, camera: Camera) -> Floats32:
    """1 on a band round every place where two neighbors on one surface belong to different pieces."""
    step = 2.5 * camera.width_mm / piece.shape[1] + 1.0
    line = np.zeros(piece.shape, dtype=bool)
    depth = np.where(piece >= 0, hits.depth_mm, np.float32(0))
    for axis in (0, 1):
        first = tuple(slice(None, -1) if k == axis else slice(None) for k in (0, 1))
        second = tuple(slice(1, None) if k == axis else slice(None) for k in (0, 1))
        both = (piece[first] >= 0) & (piece[second] >= 0) & (piece[first] != piece[second])
        facing = np.einsum("...i,i->...", hits.face_normal[first], camera.look.astype(np.float32)) < -0.12
        line[first] |= both & facing & (np.abs(depth[first] - depth[second]) < step * 4)
    disk = np.hypot(*np.mgrid[-3:4, -3:4]) <= 3.2
    return ndimage.binary_dilation(line, disk).astype(np.float32)


def patch_marks(piece: Ints, kind: MarkKind = MarkKind.NUMBER) -> tuple[Mark, ...]:
    """Each piece's number where its visible patch is widest.

    Parameters
    ----------
    piece : of every pixel, from 0; -1: none.
    kind : how the number is set.
    """
    marks = []
    tall, wide = piece.shape
    for number in range(int(piece.max()) + 1):
        inside = ndimage.distance_transform_cdt(np.pad(piece[::4, ::4] == number, 1))[1:-1, 1:-1]
        if inside.max() >= 6:
            row, column = np.unravel_index(int(inside.argmax()), inside.shape)
            marks.append(Mark(str(number + 1), float(column * 4 + 2) / wide, float(row * 4 + 2) / tall, kind=kind))
    return tuple(marks)
