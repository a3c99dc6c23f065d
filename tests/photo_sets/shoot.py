"""A set of photos of a body: two rings by hand, as the page of the printed sheet asks."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

import numpy as np
import numpy.typing as npt
import trimesh
from PIL import Image
from tests.photo_sets.camera import DIAGONAL_35_MM, TrueLens, TrueView, looking
from tests.photo_sets.film import Film, exposed, write_jpeg
from tests.photo_sets.light import chance_light
from tests.photo_sets.materials import LOOKS, Material
from tests.photo_sets.stage import COLORED, Colors, Scene, Stage
from tests.photo_sets.truth import FOLDER, Truth

from moldwright.photos.sheet.layout import PhotoSheet, photo_sheet
from moldwright.photos.sheet.sizes import SheetSize

Floats = npt.NDArray[np.float64]
RINGS = ((20.0, 24), (50.0, 24))
FILLED = 0.92
MARGIN = 0.02


@dataclass(frozen=True, slots=True)
class Shoot:
    """How a set is taken; everything by chance comes from `seed`.

    `width_px`, `height_px` : of the sensor, long side first; `focal_35_mm` : of the lens; `rings` : elevation [deg] and
    count; `top` : one more from above; `bend_mm` : how far the sheet's right edge lifts; `wave_mm` : how far the
    paper is off flat; `breath` : how much the focal length varies as the phone focuses; `print_scale` : the print's
    size by what it should be; `noise` : of the sensor; `exif` : the photos tell their focal length;
    `zoom_midway` : by how much the second half of the photos is zoomed in; `masks` : exact outlines are kept;
    `detail` : of the light on the piece.
    """

    seed: int = 1
    material: Material = Material.PLASTER
    colors: Colors = COLORED
    width_px: int = 1600
    height_px: int = 1200
    focal_35_mm: float = 26.0
    rings: tuple[tuple[float, int], ...] = RINGS
    top: bool = False
    bend_mm: float = 0.0
    wave_mm: float = 0.15
    breath: float = 0.001
    print_scale: float = 1.0
    noise: float = 0.03
    quality: int = 88
    exif: bool = True
    zoom_midway: float = 1.0
    masks: bool = True
    detail: float = 110.0


def shoot(body: trimesh.Trimesh, size: SheetSize, folder: Path, how: Shoot) -> Truth:
    """Photograph a body that stands at z = 0 in the sheet's middle, as a set of JPEGs in a folder.

    Parameters
    ----------
    body : closed [mm, z up]; it is put about the sheet's middle as a person would, somewhat off and turned.
    size : of the printed sheet.
    folder : made if it is not there; the truth goes into its folder `truth`.
    """
    (folder / FOLDER).mkdir(parents=True, exist_ok=True)
    rng = np.random.default_rng(how.seed)
    stood = put_down(body, photo_sheet(size), rng)
    truth = Truth(folder, size, stood, tuple(views_of(stood, photo_sheet(size), how, rng)))
    truth.write()
    take(stood, truth, truth.views, how, masks=how.masks)
    return truth


def take(body: trimesh.Trimesh, truth: Truth, views: Sequence[TrueView], how: Shoot, masks: bool = False) -> None:
    """Write photos of a set, in its light and each with its own exposure, of this body on its sheet."""
    sheet, light = photo_sheet(truth.size), chance_light(np.random.default_rng([how.seed, 1]))
    looks, bad = LOOKS[how.material], (how.bend_mm, how.wave_mm, how.print_scale, how.detail)
    stage = Stage(Scene(body, sheet, how.colors, looks, light, how.seed, *bad))
    try:
        for view in views:
            own = np.random.default_rng([how.seed, 2, *view.file.encode()])
            film = chance_film(how, own)
            picture = exposed(stage.light_of(view, film), film, own)
            focal = view.lens.focal_35_mm if how.exif else None
            write_jpeg(picture, truth.folder / view.file, film, focal, turned=picture.shape[0] > picture.shape[1])
            if masks:
                Image.fromarray(stage.mask_of(view)).save(truth.mask_path(view), compress_level=1)
    finally:
        stage.close()


def put_down(body: trimesh.Trimesh, sheet: PhotoSheet, rng: np.random.Generator) -> trimesh.Trimesh:
    """The body on the sheet: its longer side along the sheet's, some degrees turned, about the middle but not quite."""
    stood = body.copy()
    turn = (90 if body.extents[0] > body.extents[1] else 0) + rng.uniform(-12, 12)
    stood.apply_transform(trimesh.transformations.rotation_matrix(np.radians(turn), [0, 0, 1]))
    low, high = stood.bounds
    off = rng.uniform(-0.03, 0.03, 2) * sheet.middle_mm[0]
    stood.apply_translation([*(off - (low + high)[:2] / 2), -low[2]])
    return stood


def views_of(body: trimesh.Trimesh, sheet: PhotoSheet, how: Shoot, rng: np.random.Generator) -> Iterator[TrueView]:
    """The rings, jittered as by hand; the whole piece is always in the frame, the sheet nearly always."""
    lens = chance_lens(how, rng)
    zoomed = replace(lens, focal_px=lens.focal_px * how.zoom_midway)
    first = rng.uniform(0, 2 * np.pi)
    number, half = 0, sum(count for _, count in how.rings) // 2
    for elevation, count in how.rings:
        for n in range(count):
            number += 1
            round_ = first + 2 * np.pi * n / count + np.radians(rng.normal(0, 2.5))
            rise, used = np.radians(elevation + rng.normal(0, 2.0)), lens if number <= half else zoomed
            used = replace(used, focal_px=used.focal_px * (1 + how.breath * float(rng.normal())))
            yield by_hand(f"img_{number:04d}.jpg", body, sheet, used, round_, rise, rng)
    if how.top:
        yield by_hand(f"img_{number + 1:04d}.jpg", body, sheet, lens, first, np.radians(86), rng)


def chance_lens(how: Shoot, rng: np.random.Generator) -> TrueLens:
    """A phone's: its focal length some percent off what it tells, its center some pixels off the middle."""
    w, h = how.width_px, how.height_px
    focal = how.focal_35_mm / DIAGONAL_35_MM * float(np.hypot(w, h)) * rng.uniform(0.98, 1.02)
    off = rng.normal(0, 0.003, 2) * w
    return TrueLens(
        w, h, focal, ((w - 1) / 2 + off[0], (h - 1) / 2 + off[1]), rng.uniform(-0.03, 0.09), rng.uniform(-0.09, 0.03)
    )


def upright(lens: TrueLens) -> TrueLens:
    """The same lens with the phone held upright (its pictures shown upright)."""
    x, y = lens.center_px
    return TrueLens(lens.height_px, lens.width_px, lens.focal_px, (lens.height_px - 1 - y, x), lens.k1, lens.k2)


def by_hand(
    file: str,
    body: trimesh.Trimesh,
    sheet: PhotoSheet,
    lens: TrueLens,
    round_: float,
    rise: float,
    rng: np.random.Generator,
) -> TrueView:
    """One view about as asked: as near as sheet and piece fit into the frame, then somewhat nearer or farther."""
    way = np.array([np.cos(round_) * np.cos(rise), np.sin(round_) * np.cos(rise), np.sin(rise)])
    height = body.bounds[1, 2]
    lens = upright(lens) if height > 1.5 * sheet.size.breadth_mm else lens
    w, h = sheet.size.breadth_mm / 2, sheet.size.length_mm / 2
    corners = np.array([[x, y, 0.0] for x in (-w, w) for y in (-h, h)])
    hull = body.convex_hull.vertices
    roll = np.radians(rng.normal(0, 2.0))
    aim, far = _framed(np.vstack([corners, hull]), lens, way, roll)
    aim = aim + rng.normal(0, 0.02, 3) * sheet.size.breadth_mm
    far *= rng.uniform(0.99, 1.12)
    while not whole(hull, view := _view(file, lens, way, aim, roll, far), 1 - 2 * MARGIN):
        far *= 1.03
    return view


def _framed(points: Floats, lens: TrueLens, way: Floats, roll: float) -> tuple[Floats, float]:
    """Where to aim, and how near, so that points just fill the frame."""
    aim, far = points.mean(axis=0), 1.0
    for _ in range(6):
        rotation, _ = looking(aim + way, aim, roll)
        at = (points - aim) @ rotation.T
        size = np.array([lens.width_px, lens.height_px]) * FILLED / 2 / lens.focal_px
        far = float(max((np.abs(at[:, :2]) / size).max(axis=1) - at[:, 2]))
        flat = at[:, :2] / (at[:, 2:] + far)
        middle = (flat.max(axis=0) + flat.min(axis=0)) / 2
        aim = aim + far * (middle @ rotation[:2])
    return aim, far


def whole(points: Floats, view: TrueView, share: float) -> bool:
    """Whether points lie in the middle share of the frame."""
    size = np.array([view.lens.width_px, view.lens.height_px])
    depth = points @ view.rotation[2] + view.shift_mm[2]
    flat = (points @ view.rotation.T + view.shift_mm)[:, :2] / np.maximum(depth, 1e-6)[:, None]
    off = np.abs(flat * view.lens.focal_px) * 2 / size
    return bool((depth > 1).all() and off.max() < share)


def _view(file: str, lens: TrueLens, way: Floats, aim: Floats, roll: float, far: float) -> TrueView:
    rotation, shift = looking(aim + way * far, aim, roll)
    return TrueView(file, lens, rotation, shift)


def chance_film(how: Shoot, rng: np.random.Generator) -> Film:
    """A photo's own exposure, white balance and shake; finer sensors are not sharper in proportion."""
    finer = how.width_px / 1600
    return Film(
        exposure=1.1 * float(np.exp(rng.normal(0, 0.06))),
        balance=(float(np.exp(rng.normal(0, 0.025))), float(np.exp(rng.normal(0, 0.025)))),
        noise=how.noise,
        soft_px=0.55 * finer**0.5 * float(rng.uniform(0.9, 1.3)),
        smear_px=(float(rng.exponential(0.3)) * finer, float(rng.uniform(0, np.pi))),
        quality=how.quality,
    )
