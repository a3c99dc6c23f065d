"""A length on a surface drawn for paper: four sides, eight numbered leaves, hatched where it is too little or too much.

Read without color too: each leaf is darker than the one before, a line runs between two, and every patch that has room
bears its leaf's number.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from moldwright.geometry.mesh import Mesh
from moldwright.plan.thickness import LengthAt
from moldwright.sheets.camera import Camera, Floats32
from moldwright.sheets.fill_map import side_of
from moldwright.sheets.picture import Mark, MarkKind, Picture
from moldwright.sheets.scene import Hits, Ints, Scene, shaped
from moldwright.sheets.seam_views import SIDES, level_camera, patch_marks
from moldwright.sheets.shading import Bools, channels, ink_over, light, outlines, size_px, to_png

VIEW_PX = 300
NONE_COLOR, DARK_LUMA = "#ffffff", 110.0
"""Of a place that has no such length; on a leaf less light than this hatching is light."""
HATCH_PX, STROKE_PX = 11, 3
"""From stroke to stroke and how wide one is, at twice the picture's size."""
STEEP = 0.25
"""Neighbors whose depths differ by more of a view's width are not on one surface: our own."""
LINE_INK, OUTLINE_INK = 0.85, 0.7


@dataclass(frozen=True, slots=True, eq=False)
class MappedSurface:
    """What is drawn.

    Parameters
    ----------
    mesh : the surface [mm].
    values_mm : (n,) at its corners, NaN for none [mm].
    limits_mm : of the leaves, one more than there are [mm].
    colors : of the leaves, "#rrggbb".
    needed_mm, allowed_mm : short of the one, and past the other, it is hatched; None where nothing is.
    least, most : marked; None for none.
    """

    mesh: Mesh
    values_mm: NDArray[np.float64]
    limits_mm: tuple[float, ...]
    colors: tuple[str, ...]
    needed_mm: float | None
    allowed_mm: float | None
    least: LengthAt | None
    most: LengthAt | None


def leaf_views(surface: MappedSurface) -> tuple[Picture, ...]:
    """Front, right, back and left at one scale, board at the lower edge; the same input gives the same bytes.

    Parameters
    ----------
    surface : what is drawn.
    """
    scene = Scene([surface.mesh])
    marked = [(kind, place) for kind, place in _marked(surface)]
    sides = [side_of(scene, surface.mesh, place.at) for _, place in marked]
    return tuple(
        _view(surface, scene, side, [each for each, its in zip(marked, sides, strict=True) if its == side])
        for side in range(len(SIDES))
    )


def _marked(surface: MappedSurface) -> list[tuple[MarkKind, LengthAt]]:
    places = (MarkKind.LEAST, surface.least), (MarkKind.MOST, surface.most)
    return [(kind, place) for kind, place in places if place is not None]


def _view(surface: MappedSurface, scene: Scene, side: int, marked: Sequence[tuple[MarkKind, LengthAt]]) -> Picture:
    name, azimuth_deg = SIDES[side]
    camera = level_camera(surface.mesh, azimuth_deg)
    width, height = size_px(camera, VIEW_PX)
    found = scene.seen(camera, 2 * width, 2 * height)
    hits = shaped(scene.told(found), 2 * width, 2 * height)
    values = scene.between(found, surface.values_mm).reshape(hits.solid.shape)
    leaf = _leaves(values, surface.limits_mm)
    picture = _painted(surface, hits, camera, values, leaf)
    marks = patch_marks(leaf, MarkKind.LEAF)
    marks += tuple(Mark("", *camera.shares(place.at), kind=kind) for kind, place in marked)
    bottom_mm = float(camera.center[2]) - camera.height_mm / 2
    return Picture(name, to_png(picture), camera.width_mm, camera.height_mm, bottom_mm, marks)


def _leaves(values: Floats32, limits_mm: tuple[float, ...]) -> Ints:
    """Number of the leaf of every pixel, from 0; -1: none. What lies beyond an end is of the leaf there."""
    leaf = np.searchsorted(limits_mm, values, side="right") - 1
    return np.where(np.isfinite(values), np.clip(leaf, 0, len(limits_mm) - 2), -1).astype(np.int32)


def _painted(surface: MappedSurface, hits: Hits, camera: Camera, values: Floats32, leaf: Ints) -> Floats32:
    table = np.stack([channels(color) for color in (*surface.colors, NONE_COLOR)])
    picture = table[leaf]
    seen = hits.solid >= 0
    picture[seen] *= np.clip(0.62 + 0.42 * light(hits, camera)[seen], 0.72, 1.0)[:, None]
    picture[~seen] = 255.0
    with np.errstate(invalid="ignore"):
        off = np.zeros(seen.shape, dtype=bool)
        if surface.needed_mm is not None:
            off |= values < surface.needed_mm
        if surface.allowed_mm is not None:
            off |= values > surface.allowed_mm
    rows, columns = np.indices(seen.shape)
    strokes = off & ((rows + columns) % HATCH_PX < STROKE_PX)
    dark = picture.mean(axis=2) < DARK_LUMA
    picture = ink_over(picture, (strokes & ~dark).astype(np.float32))
    picture = ink_over(picture, (strokes & dark).astype(np.float32), channels("#ffffff"))
    picture = ink_over(picture, LINE_INK * _between_leaves(leaf, hits, camera))
    return ink_over(picture, OUTLINE_INK * outlines(hits, camera))


def _between_leaves(leaf: Ints, hits: Hits, camera: Camera) -> Floats32:
    """1 on the pixels on both sides of a limit, on one surface."""
    line: Bools = np.zeros(leaf.shape, dtype=bool)
    depth = np.where(hits.solid >= 0, hits.depth_mm, np.float32(0))
    for axis in (0, 1):
        first = tuple(slice(None, -1) if k == axis else slice(None) for k in (0, 1))
        second = tuple(slice(1, None) if k == axis else slice(None) for k in (0, 1))
        here = (leaf[first] >= 0) & (leaf[second] >= 0) & (leaf[first] != leaf[second])
        here &= np.abs(depth[first] - depth[second]) < STEEP * camera.width_mm
        line[first] |= here
        line[second] |= here
    return line.astype(np.float32)
