"""The pictures of a plan: drawn apart, the glove, cut open, the seam for the hand, where rubber is packed."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from PIL import Image, ImageDraw

from moldwright.geometry.mesh import Mesh
from moldwright.sheets.apart import drawn_apart, sideways
from moldwright.sheets.camera import Camera, Floats, Floats32, camera_around
from moldwright.sheets.cut_open import cut_open
from moldwright.sheets.fill_map import LetteredPoint, fill_map
from moldwright.sheets.picture import Mark, Picture, Pictures
from moldwright.sheets.scene import Scene, look
from moldwright.sheets.seam_views import seam_views
from moldwright.sheets.shading import channels, paint, size_px, to_png
from moldwright.sheets.slit_views import slit_views

Point = tuple[float, float, float]
RUBBER, PLASTER, ORIGINAL = "#5b93c9", "#e3dfd4", "#8b9a94"


@dataclass(frozen=True, slots=True, eq=False)
class MoldMeshes:
    """The solids as the plan's folder has them, in millimeters, z up, board at z = 0.

    Parameters
    ----------
    original : the piece. plinth : what lifts it, or None.
    glove : the rubber. gloved : original, plinth and rubber in one.
    shell : the support shell's pieces in the order of removal; draws : a unit vector for each.
    spots : where rubber is packed, in the order of the plan's list; holes : the through-holes by their letters.
    slit : the lines of a slit, stations in order.
    """

    original: Mesh
    plinth: Mesh | None
    glove: Mesh
    gloved: Mesh
    shell: tuple[Mesh, ...]
    draws: tuple[Point, ...]
    spots: tuple[Point, ...] = ()
    holes: tuple[LetteredPoint, ...] = ()
    slit: tuple[tuple[Point, ...], ...] = ()

    @property
    def bare(self) -> tuple[Mesh, ...]:
        """Original and plinth."""
        return (self.original,) if self.plinth is None else (self.original, self.plinth)


def draw(meshes: MoldMeshes) -> Pictures:
    """All pictures of a plan; the same solids give the same bytes."""
    bare = meshes.bare
    glove, shell = Scene([meshes.glove]), [Scene([piece], smooth=False) for piece in meshes.shell]
    return Pictures(
        apart=_apart(meshes),
        glove=_glove(glove, meshes.draws),
        cut=cut_open([Scene([solid], smooth=False) for solid in bare], glove, shell, meshes.draws),
        seam=seam_views(meshes.gloved, shell),
        fill=fill_map(bare, meshes.gloved, meshes.spots, meshes.holes),
        slit=slit_views(meshes.gloved, [np.array(line) for line in meshes.slit]),
    )


def viewing_azimuth_deg(draws: Sequence[Point]) -> float:
    """From where the pieces are seen to move sideways and a little toward the viewer [deg]."""
    level = max(draws, key=lambda d: math.hypot(d[0], d[1]), default=(1.0, 0.0, 0.0))
    if not sideways(level):
        return 30.0
    return math.degrees(math.atan2(level[1], level[0])) + 28.0


def _apart(meshes: MoldMeshes) -> Picture:
    bare = meshes.bare
    apart = drawn_apart(bare, meshes.glove, meshes.shell, meshes.draws)
    size = apart.size_mm
    moved = [piece.moved(way) for piece, way in zip(meshes.shell, apart.pieces, strict=True)]
    tips = [_tip(piece, d, size) for piece, d in zip(moved, meshes.draws, strict=True)]
    cloud = Mesh(np.array(tips).reshape(-1, 3), np.zeros((0, 3), np.int32))
    solids = [*bare, meshes.glove.moved(apart.glove), *moved]
    camera = camera_around([*solids, cloud] if tips else solids, viewing_azimuth_deg(meshes.draws), 22.0, 0.04)
    width, height = size_px(camera, 760)
    hits = look(Scene(solids), camera, 2 * width, 2 * height)
    colors = [ORIGINAL] * len(bare) + [RUBBER] + [PLASTER] * len(moved)
    picture = paint(hits, camera, [channels(color) for color in colors])
    marks = []
    for number, (tip, direction) in enumerate(zip(tips, meshes.draws, strict=True), start=1):
        picture = _arrow(picture, camera, tip - 0.22 * size * np.array(direction), tip)
        marks.append(Mark(str(number), *camera.shares(tip - 0.255 * size * np.array(direction))))
    return Picture("Drawn apart", to_png(picture), camera.width_mm, camera.height_mm, marks=tuple(marks))


def _tip(piece: Mesh, direction: Point, size: float) -> Floats:
    """Where a piece's arrow ends: before its middle, seen along the draw."""
    low, high = piece.bounds_mm
    middle = (low + high) / 2
    reach = float(((piece.vertices - middle) @ np.array(direction)).max())
    tip: Floats = middle + (reach + 0.30 * size) * np.array(direction)
    return tip


def _arrow(picture: Floats32, camera: Camera, tail: Floats, tip: Floats) -> Floats32:
    """A black arrow with a white edge."""
    tall, wide = picture.shape[:2]
    ends = [np.array([x * wide, y * tall]) for x, y in (camera.shares(tail), camera.shares(tip))]
    along = ends[1] - ends[0]
    length = float(np.linalg.norm(along))
    if length < 8:
        return picture
    along /= length
    across = np.array([-along[1], along[0]])
    head, half = 0.022 * wide, 0.004 * wide
    neck = ends[1] - 1.5 * head * along
    outline = [ends[0] + half * across, neck + half * across, neck + head * across, ends[1]]
    outline += [neck - head * across, neck - half * across, ends[0] - half * across]
    image = Image.fromarray(np.clip(picture, 0, 255).astype(np.uint8))
    points = [(float(p[0]), float(p[1])) for p in outline]
    pen = ImageDraw.Draw(image)
    pen.line([*points, points[0]], fill=(255, 255, 255), width=max(4, wide // 240), joint="curve")
    pen.polygon(points, fill=(16, 32, 28))
    return np.asarray(image, dtype=np.float32)


def _glove(glove: Scene, draws: Sequence[Point]) -> Picture:
    camera = camera_around(glove.meshes, viewing_azimuth_deg(draws), 24.0)
    width, height = size_px(camera, 520)
    hits = look(glove, camera, 2 * width, 2 * height)
    picture = to_png(paint(hits, camera, [channels(RUBBER)]))
    return Picture("The glove", picture, camera.width_mm, camera.height_mm)
