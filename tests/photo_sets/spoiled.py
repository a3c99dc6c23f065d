"""Ways in which a set of photos goes wrong: single photos taken again wrongly, or the whole set."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import cv2
import numpy as np
import trimesh
from PIL import Image
from tests.photo_sets.camera import TrueView
from tests.photo_sets.materials import Material
from tests.photo_sets.shoot import Shoot, take
from tests.photo_sets.stage import UNCOLORED
from tests.photo_sets.truth import Truth


def blurred(truth: Truth, number: int, spread_px: float = 3.5) -> str:
    """One photo out of focus: the file."""
    path = truth.folder / truth.views[number].file
    with Image.open(path) as image:
        soft, exif = cv2.GaussianBlur(np.asarray(image), (0, 0), spread_px), image.getexif()
    Image.fromarray(soft).save(path, quality=88, exif=exif)
    return path.name


def cut_off(truth: Truth, how: Shoot, number: int) -> str:
    """One photo taken again aimed so far down that the top quarter of the piece is out of the frame."""
    view = truth.views[number]
    seen = view.seen_px(truth.body.vertices)[:, 1]
    above = 0.25 * (seen.max() - seen.min()) + seen.min()
    middle = view.lens.center_px[1]
    turn = np.arctan((above - middle) / view.lens.focal_px) - np.arctan(-middle / view.lens.focal_px)
    return _again(truth, how, _tilted(view, float(turn)), truth.body)


def moved(truth: Truth, how: Shoot, number: int, off_mm: float | None = None) -> str:
    """One photo taken after the piece was pushed and turned on its sheet (by 7 % of its height unless told)."""
    off = 0.07 * truth.height_mm if off_mm is None else off_mm
    body = truth.body.copy()
    middle = body.bounds.mean(axis=0)
    body.apply_transform(trimesh.transformations.rotation_matrix(np.radians(9), [0, 0, 1], middle))
    body.apply_translation([0.8 * off, -0.6 * off, 0])
    return _again(truth, how, truth.views[number], body)


def wrong_piece(truth: Truth, how: Shoot, number: int, other: trimesh.Trimesh) -> str:
    """One photo of another body, as tall, in the same place."""
    body = other.copy()
    body.apply_scale(truth.height_mm / body.bounds[1, 2])
    body.apply_translation([*(truth.body.bounds.mean(axis=0) - body.bounds.mean(axis=0))[:2], 0])
    return _again(truth, how, truth.views[number], body)


def without(truth: Truth, numbers: range) -> None:
    """Photos that were never taken: their files are removed."""
    for number in numbers:
        (truth.folder / truth.views[number].file).unlink()


def two_pieces(body: trimesh.Trimesh) -> trimesh.Trimesh:
    """A body and a smaller one of the same kind beside it, clear of it."""
    other = body.copy()
    other.apply_scale(0.6)
    gap = 0.06 * body.extents.max()
    other.apply_translation([body.bounds[1, 0] - other.bounds[0, 0] + gap, 0, -other.bounds[0, 2]])
    return trimesh.util.concatenate([body, other])


def white_on_white(how: Shoot) -> Shoot:
    """A white piece before white, on a sheet printed without color."""
    return replace(how, colors=UNCOLORED, material=Material.PLASTER)


def _tilted(view: TrueView, turn: float) -> TrueView:
    """The same place, the camera tilted down by an angle [rad]: what it sees goes up in the frame."""
    c, s = np.cos(turn), np.sin(turn)
    tilt = np.array([[1, 0, 0], [0, c, -s], [0, s, c]])
    return replace(view, rotation=tilt @ view.rotation, shift_mm=tilt @ view.shift_mm)


def _again(truth: Truth, how: Shoot, view: TrueView, body: trimesh.Trimesh) -> str:
    take(body, truth, [view], how)
    return view.file


def copied(truth: Truth, folder: Path) -> Truth:
    """The set in another folder, to be spoiled there."""
    folder.mkdir(parents=True, exist_ok=True)
    for view in truth.views:
        (folder / view.file).write_bytes((truth.folder / view.file).read_bytes())
    return replace(truth, folder=folder)
