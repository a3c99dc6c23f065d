"""The outline of the piece on one photo: told from sheet and backdrop by color, then measured at its edge."""

from __future__ import annotations

from dataclasses import dataclass

import cv2
import numpy as np
from numpy.typing import NDArray

from moldwright.photos.outlines.color import Floats, Pixels, chroma, linear
from moldwright.photos.outlines.matte import covered_share, guided
from moldwright.photos.outlines.outline import Outline, outline_from
from moldwright.photos.outlines.palette import Ground, apart, groups_of, palette, toward
from moldwright.photos.outlines.settings import OutlineSettings
from moldwright.photos.sheet.layout import PhotoSheet
from moldwright.photos.told import PhotoReason, PhotoTold
from moldwright.photos.view import View

Bools = NDArray[np.bool_]
SETTINGS = OutlineSettings()
CROP_PX = 40
FULLEST = 98
OWN_COLORS, LEAST_OWN = 3, 0.12


@dataclass(frozen=True, slots=True)
class _Rough:
    """The piece as it is first found: its box on the photo, the palette, its own colors and how far they are."""

    left: int
    top: int
    right: int
    bottom: int
    known: Floats
    own: Floats
    typical: float


def find_outline(
    rgb: Pixels, view: View, sheet: PhotoSheet, stretch: tuple[float, float] = (1.0, 1.0),
    settings: OutlineSettings = SETTINGS,
) -> Outline | PhotoTold:  # fmt: skip
    """The outline of the piece that stands on the sheet, or why there is none.

    Parameters
    ----------
    rgb : (h, w, 3) the photo.
    view : its pose.
    sheet : that the piece stands on.
    stretch : true size of the print over the drawn one, along x and along y.
    settings : figures.

    Source: our own; parts named where they stand.
    """
    rough = _rough(rgb, view, sheet, stretch, settings)
    if isinstance(rough, PhotoTold):
        return rough
    window = np.s_[rough.top : rough.bottom, rough.left : rough.right]
    light = linear(rgb[window])
    soft = np.asarray(cv2.GaussianBlur(light, (3, 3), 0), np.float32)
    far = toward(chroma(soft, settings.floor), rough.known, rough.own)
    ground, shape = Ground(view, sheet, stretch, 1.0), (rgb.shape[0], rgb.shape[1])
    least = _least(ground.printed(shape)[window], rough.typical, settings)
    sure = guided(np.clip(0.5 * far / least, 0.0, 1.0), light, settings)
    body = _standing(sure > 0.5, ground.middle(shape)[window], settings)
    if body is None:
        return PhotoTold(view.file, False, PhotoReason.NO_OUTLINE, 0.0, settings.least_apart)
    if _touches(body, rough, rgb, settings):
        return PhotoTold(view.file, False, PhotoReason.AT_THE_FRAME)
    found = outline_from(covered_share(light, body.astype(np.float32), settings))
    if found is None:
        return PhotoTold(view.file, False, PhotoReason.NO_OUTLINE, 0.0, settings.least_apart)
    return Outline(found.left_px + rough.left, found.top_px + rough.top, found.signed)


def given_outline(mask: Bools, view: View, settings: OutlineSettings = SETTINGS) -> Outline | PhotoTold:
    """The outline that the maker's own mask gives.

    Parameters
    ----------
    mask : (h, w) where the piece is.
    view : of the photo.
    settings : figures.
    """
    edge = settings.frame_px
    inner = np.zeros(mask.shape, np.bool_)
    inner[edge:-edge, edge:-edge] = True
    if (mask & ~inner).any():
        return PhotoTold(view.file, False, PhotoReason.AT_THE_FRAME)
    found = outline_from(mask.astype(np.float32))
    return found or PhotoTold(view.file, False, PhotoReason.NO_OUTLINE, 0.0, settings.least_apart)


def _rough(
    rgb: Pixels, view: View, sheet: PhotoSheet, stretch: tuple[float, float], settings: OutlineSettings
) -> _Rough | PhotoTold:
    scale = min(1.0, settings.coarse_px / max(rgb.shape[:2]))
    small = linear(np.asarray(cv2.resize(rgb, None, fx=scale, fy=scale, interpolation=cv2.INTER_AREA), np.uint8))
    colors = chroma(small, settings.floor)
    ground = Ground(view, sheet, stretch, scale)
    known = palette(small, colors, ground, settings.floor)
    shape = (small.shape[0], small.shape[1])
    middle = ground.middle(shape)
    far = apart(colors, known)
    body = _standing(far > settings.least_apart, middle, settings)
    if body is None:
        fullest = float(np.percentile(far[middle], FULLEST)) if middle.any() else 0.0
        return PhotoTold(view.file, False, PhotoReason.NO_OUTLINE, round(fullest, 4), settings.least_apart)
    own, _ = groups_of(colors[body], OWN_COLORS, LEAST_OWN)
    gone = toward(colors, known, own)
    typical = float(np.median(gone[body]))
    better = _standing(gone > _least(ground.printed(shape), typical, settings), middle, settings)
    body = body if better is None else better | body
    columns, rows = (np.flatnonzero(body.any(axis=axis)) for axis in (0, 1))
    left, top = (max(0, int(first / scale) - CROP_PX) for first in (columns[0], rows[0]))
    right, bottom = (int((last + 1) / scale) + CROP_PX for last in (columns[-1], rows[-1]))
    return _Rough(left, top, min(right, rgb.shape[1]), min(bottom, rgb.shape[0]), known, own, typical)


def _least(printed: Bools, typical: float, settings: OutlineSettings) -> Floats:
    """(h, w) from how far on a pixel's color is the piece's."""
    clear = max(settings.share * typical, settings.wavering)
    print_ = max(settings.share * typical, settings.print_wavering)
    return np.where(printed, print_, clear).astype(np.float32)


def _standing(mask: Bools, middle: Bools, settings: OutlineSettings) -> Bools | None:
    """The parts that are seen before the sheet's middle, crumbs left out; None where there is none."""
    _, labels, stats, _ = cv2.connectedComponentsWithStats(mask.astype(np.uint8), connectivity=8)
    area = stats[:, cv2.CC_STAT_AREA].astype(np.float64)
    area[0] = 0.0
    before = np.bincount(labels[middle], minlength=len(area)) > 0
    area[~before] = 0.0
    if area.max(initial=0.0) < settings.least_piece_share * mask.size:
        return None
    return np.asarray((area >= settings.crumb_share * area.max())[labels])


def _touches(body: Bools, rough: _Rough, rgb: Pixels, settings: OutlineSettings) -> bool:
    rows, columns = (np.flatnonzero(body.any(axis=axis)) for axis in (1, 0))
    edge = settings.frame_px
    low = rough.top + rows[0] < edge or rough.left + columns[0] < edge
    return bool(low or rough.top + rows[-1] >= rgb.shape[0] - edge or rough.left + columns[-1] >= rgb.shape[1] - edge)
