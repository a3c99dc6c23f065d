"""From what pixels see to a picture: soft light, dark outlines, white ground, two by two pixels made one."""

from __future__ import annotations

import io
from collections.abc import Sequence
from typing import Any

import numpy as np
from numpy.typing import NDArray
from PIL import Image
from scipy import ndimage

from moldwright.geometry.mesh import Mesh
from moldwright.sheets.camera import Camera, Floats32
from moldwright.sheets.scene import Hits, Scene, look

Bools = NDArray[np.bool_]
INK = np.array([16, 32, 28], dtype=np.float32)
Color = str


def channels(color: Color) -> Floats32:
    """Red, green and blue of "#rrggbb" in [0, 255].

    >>> channels("#ff0080").tolist()
    [255.0, 0.0, 128.0]
    """
    return np.array([int(color[i : i + 2], 16) for i in (1, 3, 5)], dtype=np.float32)


def light(hits: Hits, camera: Camera) -> Floats32:
    """Brightness of every pixel: a key light above the left shoulder, a weak one from the right, the sky."""
    frame = (camera.right, camera.up, -camera.look)
    key, weak = (sum(k * axis for k, axis in zip(place, frame, strict=True)) for place in _LIGHTS)
    normal = hits.normal
    lit = 0.50 * np.clip(normal @ _unit32(key), 0, None) + 0.16 * np.clip(normal @ _unit32(weak), 0, None)
    bright: Floats32 = (0.44 + lit + 0.10 * normal[..., 2]).astype(np.float32) + _hollows(hits, camera)
    return np.clip(bright, 0.12, 1.06)


_LIGHTS = ((-0.55, 0.65, 0.6), (0.8, 0.1, 0.5))


def _unit32(vector: NDArray[np.float64] | float) -> Floats32:
    vector = np.asarray(vector, dtype=np.float64)
    return np.asarray(vector / np.linalg.norm(vector), dtype=np.float32)


def _hollows(hits: Hits, camera: Camera) -> Floats32:
    """Darkens what lies deeper than its surroundings: the depth less its blurred self."""
    size = max(camera.width_mm, camera.height_mm)
    seen = hits.solid >= 0
    if not seen.any():
        return np.zeros_like(hits.depth_mm)
    step = 4
    small, mask = hits.depth_mm[::step, ::step], seen[::step, ::step].astype(np.float32)
    far = float(hits.depth_mm[seen].max())
    small = np.where(mask > 0, small, far)
    sigma = max(2.0, max(small.shape) * 0.02)
    weight = ndimage.gaussian_filter(mask, sigma) + 1e-6
    blurred = ndimage.gaussian_filter(small * mask, sigma) / weight
    dark = np.clip((small - blurred) / (0.06 * size), -0.5, 1.0) * mask
    wide = np.repeat(np.repeat(dark, step, axis=0), step, axis=1)[: seen.shape[0], : seen.shape[1]]
    return np.asarray(-0.22 * ndimage.uniform_filter(wide, step), dtype=np.float32)


def outlines(hits: Hits, camera: Camera) -> Floats32:
    """How much ink each pixel takes in [0, 1]: edges of solids and steps in depth fully, creases in part."""
    pixel_mm = camera.width_mm / hits.solid.shape[1]
    depth = np.minimum(hits.depth_mm, np.float32(4 * camera.reach_mm + 1e3))
    line = np.zeros(hits.solid.shape, dtype=np.float32)
    for axis in (0, 1):
        bend = np.abs(np.diff(depth, n=2, axis=axis))
        _take(line, axis, bend > 9 * pixel_mm, 1.0, both=False)
        _take(line, axis, np.diff(hits.solid, axis=axis) != 0, 1.0, both=True)
        seen = np.logical_and(*_neighbors(hits.solid >= 0, axis))
        facing = np.einsum("...i,...i->...", *_neighbors(hits.normal, axis))
        _take(line, axis, seen & (facing < 0.62), 0.55, both=True)
    return line


def _neighbors(image: NDArray[Any], axis: int) -> tuple[NDArray[Any], NDArray[Any]]:
    return (image[1:], image[:-1]) if axis == 0 else (image[:, 1:], image[:, :-1])


def _take(line: Floats32, axis: int, where: Bools, ink: float, both: bool) -> None:
    """Sets `ink` on the pixels of `where`, which is one (both neighbors) or two (the middle) shorter along `axis`."""
    turned = line if axis == 0 else line.T
    mask = (where if axis == 0 else where.T) * np.float32(ink)
    if both:
        np.maximum(turned[1:], mask, out=turned[1:])
        np.maximum(turned[:-1], mask, out=turned[:-1])
    else:
        np.maximum(turned[1:-1], mask, out=turned[1:-1])


def paint(hits: Hits, camera: Camera, colors: Sequence[Floats32]) -> Floats32:
    """The picture (height, width, 3) in [0, 255], outlines included."""
    table = np.stack([*colors, np.full(3, 255, dtype=np.float32)])
    picture = table[hits.solid]
    seen = hits.solid >= 0
    picture[seen] *= light(hits, camera)[seen][:, None]
    return ink_over(np.minimum(picture, 255), outlines(hits, camera))


def ink_over(picture: Floats32, amount: Floats32, ink: Floats32 = INK) -> Floats32:
    """`picture` with `ink` laid over it where `amount` is above 0, in place."""
    where = np.nonzero(amount)
    old = picture[where]
    picture[where] = old + amount[where][:, None] * (ink - old)
    return picture


def to_png(picture: Floats32) -> bytes:
    """PNG bytes of a picture taken at twice the size: every two by two pixels become one."""
    tall, wide = picture.shape[0] // 2, picture.shape[1] // 2
    even, odd = slice(0, 2 * wide, 2), slice(1, 2 * wide, 2)
    above, below = picture[0 : 2 * tall : 2], picture[1 : 2 * tall : 2]
    small = (above[:, even] + above[:, odd] + below[:, even] + below[:, odd]) / 4
    out = io.BytesIO()
    Image.fromarray(np.rint(np.clip(small, 0, 255)).astype(np.uint8)).save(out, "PNG", compress_level=4)
    return out.getvalue()


def size_px(camera: Camera, longest_px: int) -> tuple[int, int]:
    """Width and height of a picture whose longer side has `longest_px` pixels."""
    scale = longest_px / max(camera.width_mm, camera.height_mm)
    return max(8, round(camera.width_mm * scale)), max(8, round(camera.height_mm * scale))


def render(meshes: Sequence[tuple[Mesh, Color]], camera: Camera, longest_px: int = 800) -> bytes:
    """A picture of colored solids as PNG bytes; the same input gives the same bytes.

    Parameters
    ----------
    meshes : solids with their colors, "#rrggbb".
    camera : from where, see `camera_around`.
    longest_px : pixels of the longer side, 8 to 4000.
    """
    width, height = size_px(camera, longest_px)
    hits = look(Scene([mesh for mesh, _ in meshes]), camera, 2 * width, 2 * height)
    return to_png(paint(hits, camera, [channels(color) for _, color in meshes]))
