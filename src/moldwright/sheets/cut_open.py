"""The mold cut open through its middle: original, rubber and shell each with a pattern of its own."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Any

import numpy as np
from numpy.typing import NDArray

from moldwright.geometry.mesh import Mesh
from moldwright.sheets.camera import Camera, Floats32, directions
from moldwright.sheets.picture import Picture
from moldwright.sheets.scene import Hits, Ints, Scene, look
from moldwright.sheets.shading import channels, ink_over, light, outlines, size_px, to_png

Point = tuple[float, float, float]
BARE, RUBBER, SHELL = 0, 1, 2
FACES = ("#aab5b0", "#5b93c9", "#f4f1e9")
BEHIND = ("#c3ccc8", "#a9c4e0", "#e9e6dd")


def cut_open(bare: Sequence[Scene], glove: Scene, shell: Sequence[Scene], draws: Sequence[Point]) -> Picture:
    """A cut along the first draw, seen square on, one scene for each solid; what lies behind it is drawn lighter."""
    solids = [*bare, glove, *shell]
    kinds = [BARE] * len(bare) + [RUBBER] + [SHELL] * len(shell)
    camera = _camera([mesh for scene in solids for mesh in scene.meshes], draws)
    width, height = size_px(camera, 480)
    views = [look(scene, camera, 2 * width, 2 * height) for scene in solids]
    kind = _cut_kinds(views, kinds, camera)
    behind, behind_kind = _nearest(views, kinds)
    table = np.stack([channels(color) for color in BEHIND] + [channels("#ffffff")])
    picture = table[behind_kind]
    seen = behind.solid >= 0
    picture[seen] *= np.clip(0.4 + 0.65 * light(behind, camera)[seen], 0.4, 1.0)[:, None]
    picture = ink_over(np.minimum(picture, 255), 0.5 * outlines(behind, camera))
    picture = _faces(picture, kind)
    return Picture("Cut open", to_png(picture), camera.width_mm, camera.height_mm, 0.0)


def _camera(solids: Sequence[Mesh], draws: Sequence[Point]) -> Camera:
    first = draws[0] if draws else (1.0, 0.0, 0.0)
    azimuth = math.degrees(math.atan2(first[1], first[0])) if math.hypot(first[0], first[1]) > 0.2 else 0.0
    look_, right, up = directions(azimuth, 0.0)
    points = np.concatenate([solid.vertices for solid in solids])
    low, high = points.min(axis=0), points.max(axis=0)
    center = (low + high) / 2
    across = (points - center) @ right
    return Camera(
        center + right * (across.min() + across.max()) / 2, look_, right, up,
        float(np.ptp(across)) * 1.05, float(high[2] - low[2]) * 1.05, 0.0,
    )  # fmt: skip


def _cut_kinds(views: Sequence[Hits], kinds: Sequence[int], camera: Camera) -> Ints:
    """What the cut runs through at each pixel: a ray that starts inside a solid leaves it first."""
    kind = np.full(views[0].solid.shape, -1, dtype=np.int32)
    for view, its in zip(views, kinds, strict=True):
        inside = (view.face_normal @ camera.look.astype(np.float32) > 0) & (view.solid >= 0)
        kind[inside & (kind < 0)] = its
    return kind


def _nearest(views: Sequence[Hits], kinds: Sequence[int]) -> tuple[Hits, Ints]:
    best, kind = views[0], np.where(views[0].solid >= 0, kinds[0], -1).astype(np.int32)
    for view, its in zip(views[1:], kinds[1:], strict=True):
        closer = view.depth_mm < best.depth_mm
        kind[closer] = its
        best = Hits(
            np.where(closer, view.solid + its, best.solid),
            np.where(closer, view.depth_mm, best.depth_mm),
            np.where(closer[..., None], view.normal, best.normal),
            np.where(closer[..., None], view.face_normal, best.face_normal),
        )
    return best, kind


def _faces(picture: Floats32, kind: Ints) -> Floats32:
    """Cut faces with their patterns, an ink line round each."""
    rows, columns = np.indices(kind.shape)
    for its, color in enumerate(FACES):
        picture[kind == its] = channels(color)
    picture = ink_over(picture, _pattern(kind == BARE, (rows + columns) % 16 < 3, 0.55))
    weave = ((rows % 14 < 3) & (columns % 28 < 14)) | ((columns % 14 < 3) & ((rows + 14) % 28 < 14))
    picture = ink_over(picture, _pattern(kind == SHELL, weave, 0.45))
    edge = np.zeros(kind.shape, dtype=bool)
    edge[1:] |= kind[1:] != kind[:-1]
    edge[:-1] |= kind[1:] != kind[:-1]
    edge[:, 1:] |= kind[:, 1:] != kind[:, :-1]
    edge[:, :-1] |= kind[:, 1:] != kind[:, :-1]
    return ink_over(picture, edge.astype(np.float32))


def _pattern(where: NDArray[np.bool_], marks: NDArray[Any] | np.bool_, ink: float) -> Floats32:
    return (where & marks).astype(np.float32) * np.float32(ink)
