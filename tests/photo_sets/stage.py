"""The scene for VTK: sheet, table, backdrop and piece with their baked light, rendered straight (no lens)."""

from __future__ import annotations

from dataclasses import dataclass

import cv2
import numpy as np
import numpy.typing as npt
import pyvista as pv
import trimesh
from tests.photo_sets.camera import TrueView, source_map, widest
from tests.photo_sets.film import Film, coded, linear, smeared
from tests.photo_sets.light import Baked, Light, bake
from tests.photo_sets.materials import Looks, reflectance, wavering
from tests.photo_sets.printed import ink
from vtkmodules.util.numpy_support import numpy_to_vtk, vtk_to_numpy
from vtkmodules.vtkCommonCore import vtkUnsignedCharArray

from moldwright.photos.sheet.layout import PhotoSheet

Floats = npt.NDArray[np.float64]
Bytes = npt.NDArray[np.uint8]
OVER = 1.75
FULL = 0.62
"""Linear value of a white paper in full light."""
TABLE_BELOW_MM = 0.6
GRID = 150
FIBER = np.float32(0.012)


@dataclass(frozen=True, slots=True)
class Colors:
    """Reflectances of paper, ink, and of the cloth or card that sheet and piece stand before (linear)."""

    paper: tuple[float, float, float] = (0.49, 0.72, 0.46)
    ink: tuple[float, float, float] = (0.022, 0.085, 0.035)
    cloth: tuple[float, float, float] = (0.33, 0.52, 0.30)


COLORED = Colors()
UNCOLORED = Colors((0.80, 0.80, 0.79), (0.03, 0.03, 0.03), (0.72, 0.72, 0.70))


@dataclass(frozen=True, slots=True, eq=False)
class Scene:
    """What stands before the camera.

    `bend_mm` : how far the sheet's right edge lifts; `wave_mm` : how far the paper is off flat elsewhere;
    `print_scale` : the print's size by what it should be; `seed` : of all that wavers;
    `detail` : points for light along the piece's height.
    """

    solid: trimesh.Trimesh
    sheet: PhotoSheet
    colors: Colors
    looks: Looks
    light: Light
    seed: int
    bend_mm: float = 0.0
    wave_mm: float = 0.0
    print_scale: float = 1.0
    detail: float = 110.0


@dataclass(slots=True, eq=False)
class Piece:
    """The body as it is drawn: points with normals (sharp edges parted), faces, and what light falls on it."""

    points: Floats
    normals: Floats
    faces: npt.NDArray[np.int64]
    color: Floats
    baked: Baked


class Stage:
    """One window for all photos of a set. Close it when done."""

    def __init__(self, scene: Scene) -> None:
        self.scene, self.piece = scene, _piece(scene)
        self.plotter = pv.Plotter(off_screen=True, window_size=(64, 64), lighting="none")
        self.window = self.plotter.render_window
        self.window.SetMultiSamples(0)
        self._actors = [
            self.plotter.add_mesh(_sheet_mesh(scene), texture=_texture(_sheet_picture(scene)), lighting=False),
            self.plotter.add_mesh(_around(scene), scalars="rgb", rgb=True, lighting=False),
        ]
        self._drawn = pv.PolyData(
            self.piece.points, np.column_stack([np.full(len(self.piece.faces), 3), self.piece.faces]).ravel()
        )
        self._drawn["rgb"] = np.zeros((len(self.piece.points), 3), dtype=np.uint8)
        self._body = self.plotter.add_mesh(self._drawn, scalars="rgb", rgb=True, lighting=False, smooth_shading=False)
        self._got = vtkUnsignedCharArray()

    def close(self) -> None:
        """Give the window back."""
        self.plotter.close()

    def light_of(self, view: TrueView, film: Film) -> npt.NDArray[np.float32]:
        """Linear light on the photo's pixels, (h, w, 3)."""
        self._paint(_shaded(self.piece, view.eye_mm, self.scene))
        for actor in self._actors:
            actor.SetVisibility(True)
        return self._photo(view, film)

    def mask_of(self, view: TrueView) -> Bytes:
        """255 where the piece covers half of a pixel or more, straight from the true mesh."""
        self._paint(np.full((len(self.piece.points), 3), 255, dtype=np.uint8))
        for actor in self._actors:
            actor.SetVisibility(False)
        self.plotter.background_color = "black"
        cover = self._photo(view, Film(soft_px=0.3, smear_px=(0.0, 0.0)))[..., 0]
        return np.where(cover >= 0.5, 255, 0).astype(np.uint8)

    def _paint(self, rgb: Bytes) -> None:
        data = numpy_to_vtk(rgb, deep=True, array_type=3)
        data.SetName("rgb")
        self._drawn.GetPointData().SetScalars(data)
        self._drawn.Modified()

    def _photo(self, view: TrueView, film: Film) -> npt.NDArray[np.float32]:
        half_w, half_h = widest(view.lens)
        focal = view.lens.focal_px * OVER
        size = tuple(2 * int(np.ceil(half * focal) + 4) for half in (half_w, half_h))
        frame = self._frame(view, size, focal)
        x, y = source_map(view.lens, size, focal)
        return np.asarray(cv2.remap(smeared(linear(frame), film, OVER), x, y, cv2.INTER_LINEAR))

    def _frame(self, view: TrueView, size: tuple[int, int], focal: float) -> Bytes:
        camera = self.plotter.camera
        camera.position = view.eye_mm
        camera.focal_point = view.eye_mm + view.rotation[2] * 100
        camera.up = -view.rotation[1]
        camera.view_angle = float(np.degrees(2 * np.arctan(size[1] / 2 / focal)))
        camera.clipping_range = (20.0, 20000.0)
        if tuple(self.window.GetSize()) != size:
            self.window.SetSize(*size)
        self.window.Render()
        self.window.GetRGBACharPixelData(0, 0, size[0] - 1, size[1] - 1, 0, self._got)
        return cv2.cvtColor(np.flipud(vtk_to_numpy(self._got).reshape(size[1], size[0], 4)), cv2.COLOR_RGBA2RGB)


def _piece(scene: Scene) -> Piece:
    """Fine enough for its shadows, edges past 40 degrees parted so that they are shaded sharp."""
    solid, looks = scene.solid, scene.looks
    height = float(solid.extents.max())
    edge = height / scene.detail / (1.5 if looks.speckle > 0.2 else 1.0)
    points, faces = trimesh.remesh.subdivide_to_size(solid.vertices, solid.faces, edge, max_iter=12)
    whole = pv.PolyData(points, np.column_stack([np.full(len(faces), 3), faces]).ravel()).clean(tolerance=1e-7)
    whole = whole.compute_normals(
        split_vertices=True, feature_angle=40, cell_normals=False, consistent_normals=False, auto_orient_normals=False
    )
    at, normals = np.asarray(whole.points, dtype=float), np.asarray(whole.point_data["Normals"], dtype=float)
    faces = np.asarray(whole.faces).reshape(-1, 4)[:, 1:]
    return Piece(at, normals, faces, reflectance(looks, at, height, scene.seed), bake(solid, at, normals, scene.light))


def _shaded(piece: Piece, eye: Floats, scene: Scene) -> Bytes:
    """Codes of the piece's points as seen from an eye."""
    light, looks = scene.light, scene.looks
    paper, own = np.array(scene.colors.paper), np.array(looks.rgb)
    around = piece.baked
    got = (around.lamp + around.sky)[:, None] + 0.8 * around.sheet[:, None] * paper + 0.45 * around.piece[:, None] * own
    got = got * piece.color
    to_eye = eye - piece.points
    to_eye /= np.linalg.norm(to_eye, axis=1, keepdims=True)
    facing = np.einsum("ij,ij->i", to_eye, piece.normals)
    mirrored = 2 * facing[:, None] * piece.normals - to_eye
    fresnel = looks.shine * (1 + 4 * (1 - np.clip(facing, 0, 1)) ** 4)
    above = np.clip(0.5 + 2.5 * mirrored[:, 2], 0, 1)[:, None]
    open_ = np.clip(1 - around.piece, 0, 1)[:, None]
    reflected = (above * light.sky(mirrored)[:, None] * (1 - light.lamp_share) + (1 - above) * 0.6 * paper) * open_
    spot = np.clip(mirrored @ light.lamp_way, 0, 1) ** looks.power * around.lamp * looks.power / 8
    got += fresnel[:, None] * (reflected + spot[:, None])
    return _codes(got)


def _sheet_picture(scene: Scene) -> Bytes:
    """The print with the light that falls on it, far edge first."""
    sheet, colors = scene.sheet, scene.colors
    wide, long = sheet.size.breadth_mm / 2, sheet.size.length_mm / 2
    x, y = np.linspace(-wide, wide, GRID), np.linspace(long, -long, round(GRID * long / wide))
    at = np.stack([*np.meshgrid(x, y), np.zeros((len(y), len(x)))], axis=-1).reshape(-1, 3)
    lit = _on_flat(scene, at).reshape(len(y), len(x), 3)
    share = ink(sheet)[..., None]
    print_ = share * np.array(colors.ink, np.float32) + (1 - share) * np.array(colors.paper, np.float32)
    lit = cv2.resize(
        cv2.GaussianBlur(lit.astype(np.float32), (0, 0), 0.8), print_.shape[1::-1], interpolation=cv2.INTER_CUBIC
    )
    fiber = np.random.default_rng(scene.seed).standard_normal((*print_.shape[:2], 1), dtype=np.float32)
    return _codes(print_ * lit * (1 + FIBER * fiber))


def _on_flat(scene: Scene, at: Floats) -> Floats:
    """Light on the sheet or table, free = 1, with a little of the piece's own color thrown back, (n, 3)."""
    got = bake(scene.solid, at, np.broadcast_to([0.0, 0.0, 1.0], at.shape), scene.light)
    return np.asarray(np.repeat((got.lamp + got.sky + 0.15 * got.piece)[:, None], 3, axis=1))


def _sheet_mesh(scene: Scene) -> pv.PolyData:
    """The paper: flat but for a slight waviness, or its right side lifting off the table."""
    size, scale = scene.sheet.size, scene.print_scale
    wide, long = size.breadth_mm * scale, size.length_mm * scale
    flat = pv.Plane(i_size=wide, j_size=long, i_resolution=60, j_resolution=60)
    points = np.asarray(flat.points, dtype=float)
    flat.texture_map_to_plane(
        inplace=True,
        origin=(-wide / 2, -long / 2, 0),
        point_u=(wide / 2, -long / 2, 0),
        point_v=(-wide / 2, long / 2, 0),
    )
    points[:, 2] = scene.wave_mm * wavering(points / (0.35 * wide), scene.seed + 11)
    points[:, 2] += scene.bend_mm * np.clip(points[:, 0] / (wide / 2), 0, 1) ** 2
    flat.points = points
    return flat


def _around(scene: Scene) -> pv.PolyData:
    """Table and backdrop in one cloth: flat near the sheet, rising far off, its brightness wavering."""
    sheet, seed = scene.sheet, scene.seed
    reach = float(np.hypot(sheet.size.breadth_mm, sheet.size.length_mm))
    r = np.concatenate([np.linspace(0.01, 1.2, 90) * reach, np.linspace(1.3, 7.0, 40) * reach])
    high = np.where(r > 3 * reach, (r - 3 * reach) ** 2 / (2 * reach), 0) - TABLE_BELOW_MM
    a = np.linspace(0, 2 * np.pi, 181)[:-1]
    points = np.stack(
        [r[:, None] * np.cos(a), r[:, None] * np.sin(a), np.repeat(high[:, None], len(a), 1)], axis=-1
    ).reshape(-1, 3)
    i, j = np.meshgrid(np.arange(len(r) - 1), np.arange(len(a)), indexing="ij")
    near = i * len(a) + j, i * len(a) + (j + 1) % len(a)
    quads = np.stack([near[0], near[1], near[1] + len(a), near[0] + len(a)], axis=-1).reshape(-1, 4)
    lit = np.ones((len(points), 3))
    close = np.flatnonzero(np.hypot(points[:, 0], points[:, 1]) <= 1.2 * reach)
    lit[close] = _on_flat(scene, points[close] + [0, 0, TABLE_BELOW_MM])
    waver = 1 + 0.10 * wavering(points / reach, seed + 7) + 0.04 * wavering(points / (0.13 * reach), seed + 8)
    mesh = pv.PolyData(points, np.column_stack([np.full(len(quads), 4), quads]).ravel())
    mesh["rgb"] = _codes(np.array(scene.colors.cloth) * lit * waver[:, None])
    return mesh


def _texture(picture: Bytes) -> pv.Texture:
    texture = pv.Texture(picture)
    texture.MipmapOn()
    texture.InterpolateOn()
    texture.SetMaximumAnisotropicFiltering(8)
    return texture


def _codes(light: Floats) -> Bytes:
    return (coded(np.asarray(light * FULL / 0.8, dtype=np.float32)) + np.float32(0.5)).astype(np.uint8)
