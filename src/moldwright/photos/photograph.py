"""From decoded photos of a piece on its sheet to a solid with an honest range."""

from __future__ import annotations

import cv2
import numpy as np

from moldwright.errors import InputRefused
from moldwright.photos.hull.settings import HullSettings
from moldwright.photos.hull.solid import Hulled, hulled
from moldwright.photos.hull.views import Seen
from moldwright.photos.outlines.find import find_outline, given_outline
from moldwright.photos.outlines.outline import Outline
from moldwright.photos.outlines.settings import OutlineSettings
from moldwright.photos.photographed import Photographed, PhotosAsked, Pixels, SeenPhoto
from moldwright.photos.poses.find import find_poses
from moldwright.photos.poses.poses import Poses
from moldwright.photos.reading.photo import Photo, Photos
from moldwright.photos.refine.looks import gray_of
from moldwright.photos.told import PhotoReason, PhotoTold
from moldwright.photos.view import View
from moldwright.progress import Progress, silent

THUMB_PX = 400
NO_CONTRAST = (
    "The piece has nearly the color of sheet and backdrop. Print the sheet in color, green on green, and hang a"
    " backdrop of its green; where the piece is green itself, give a mask for each photo."
)
NOT_IN_FRAME = (
    "Step back until the whole piece and the sheet's markers are in the frame of every photo, and take them anew."
)
MANY = 0.5


def photograph(
    photos: Photos, asked: PhotosAsked, progress: Progress = silent,
    outline_settings: OutlineSettings | None = None, hull_settings: HullSettings | None = None,
) -> Photographed:  # fmt: skip
    """The piece as its photos show it: poses, outlines, hull, the likely solid and its range.

    Parameters
    ----------
    photos : as they were read.
    asked : the bar's length, the bowls that are told, and a better volume where there is one.
    progress : told how far it is; may raise to cancel.
    outline_settings, hull_settings : figures; ours where none are given.

    Raises InputRefused where no solid can be trusted. Source: our own, docs/decisions/0040.
    """
    poses = find_poses(photos.photos, asked.bar_mm, progress)
    found = _outlines(photos, poses, outline_settings or OutlineSettings(), progress)
    seen = [one for one in found if isinstance(one, Seen)]
    told = [*photos.told, *poses.told, *(one for one in found if isinstance(one, PhotoTold))]
    _refuse_unseen(len(poses.views), told)
    hull = hulled(seen, poses.sheet, asked, hull_settings or HullSettings(), progress)
    return _photographed(photos, poses, hull, seen, [*told, *hull.told])


def _outlines(photos: Photos, poses: Poses, settings: OutlineSettings, progress: Progress) -> list[Seen | PhotoTold]:
    by_file = {photo.file: photo for photo in photos.photos}
    found = []
    for n, view in enumerate(poses.views):
        found.append(_outline(by_file[view.file], view, poses, settings))
        progress("outlines of the piece", (n + 1) / len(poses.views))
    return found


def _outline(photo: Photo, view: View, poses: Poses, settings: OutlineSettings) -> Seen | PhotoTold:
    rgb, mask = photo.rgb(), photo.mask()
    if mask is None:
        outline = find_outline(rgb, view, poses.sheet, poses.print_scale, settings)
    else:
        outline = given_outline(mask, view, settings)
    return outline if isinstance(outline, PhotoTold) else Seen(view, outline, gray_of(rgb, outline))


def _refuse_unseen(views: int, told: list[PhotoTold]) -> None:
    """Refuse where most outlines fail for one reason: it is the scene's, not a photo's."""
    bland = [one for one in told if one.reason is PhotoReason.NO_OUTLINE]
    if len(bland) > MANY * views:
        figure = float(np.median([one.figure for one in bland]))
        raise InputRefused("piece-like-backdrop", round(figure, 3), bland[0].limit, "apart in color", NO_CONTRAST)
    cut = sum(one.reason is PhotoReason.AT_THE_FRAME for one in told)
    if cut > MANY * views:
        raise InputRefused("piece-out-of-frame", cut, None, "photos", NOT_IN_FRAME)


def _photographed(photos: Photos, poses: Poses, hull: Hulled, seen: list[Seen], told: list[PhotoTold]) -> Photographed:
    return Photographed(
        mesh=hull.mesh,
        step_mm=hull.step_mm,
        sheet=poses.sheet,
        tally=poses.tally,
        spread=hull.spread,
        photos_ml=hull.photos_ml,
        hull_ml=hull.hull_ml,
        seen=_seen_photos(photos, seen, told),
        warnings=(*poses.warnings, *hull.warnings),
        asks=hull.asks,
    )


def _seen_photos(photos: Photos, seen: list[Seen], told: list[PhotoTold]) -> tuple[SeenPhoto, ...]:
    """Every photo by name, those that were read with a small copy and the outline that was found."""
    dropped = {one.file: one for one in told}
    outlines = {one.view.file: one.outline for one in seen}
    read = {photo.file: photo for photo in photos.photos}
    everyone = []
    for file in sorted({*dropped, *read}):
        photo, outline = read.get(file), outlines.get(file)
        rings = _rings(outline, photo) if outline and photo else ()
        everyone.append(
            SeenPhoto(dropped.get(file, PhotoTold(file, True)), _small(photo.rgb()) if photo else None, rings)
        )
    return tuple(everyone)


def _small(rgb: Pixels) -> Pixels:
    scale = min(1.0, THUMB_PX / max(rgb.shape[:2]))
    size = max(1, round(rgb.shape[1] * scale)), max(1, round(rgb.shape[0] * scale))
    return np.asarray(cv2.resize(np.ascontiguousarray(rgb), size, interpolation=cv2.INTER_AREA), np.uint8)


def _rings(outline: Outline, photo: Photo) -> tuple[np.ndarray, ...]:
    size = np.array([photo.width_px, photo.height_px])
    return tuple((line + 0.5) / size for line in outline.lines_px() if len(line) > 2)
