"""From photos to poses."""

from __future__ import annotations

from collections.abc import Iterable

import numpy as np

from moldwright.photos.poses.checks import check_bar, check_set, warnings_of
from moldwright.photos.poses.detect import marks_in
from moldwright.photos.poses.gates import Sifted, sheet_in, sift
from moldwright.photos.poses.left import check_left
from moldwright.photos.poses.model import STRETCH
from moldwright.photos.poses.poses import Poses
from moldwright.photos.poses.refuse import no_sheet
from moldwright.photos.poses.solve import Solved, Tick, go_on, solve
from moldwright.photos.reading.photo import Photo
from moldwright.photos.sheet.layout import BAR_MM, PhotoSheet
from moldwright.photos.tally import tally_of
from moldwright.photos.view import View
from moldwright.progress import Progress, silent

STAGE = "where each photo was taken from"
SEEKING = 0.9
"""Of the stage's time that goes into finding the markers."""


def find_poses(photos: Iterable[Photo], bar_mm: float = BAR_MM, progress: Progress = silent) -> Poses:
    """Where each photo was taken from on the sheet that is in them.

    Raises `InputRefused` where no pose can be trusted; photos that do not fit the rest are dropped with their reason.

    Parameters
    ----------
    photos : upright at their working size.
    bar_mm : what the 100 mm bar measures on the print [mm].
    progress : told how far it is; may raise to cancel.
    """
    check_bar(bar_mm)
    pictures = tuple(photos)
    marks = []
    for number, photo in enumerate(pictures):
        progress(STAGE, SEEKING * number / len(pictures))
        marks.append(marks_in(photo))
    sheet = sheet_in(tuple(marks))
    if sheet is None:
        raise no_sheet(len(pictures))
    sifted = sift(tuple(marks), sheet)
    check_left(len(sifted.kept), sifted.told)
    progress(STAGE, SEEKING)
    poses = poses_of(sifted, sheet, bar_mm, lambda: progress(STAGE, SEEKING))
    progress(STAGE, 1.0)
    return poses


def poses_of(sifted: Sifted, sheet: PhotoSheet, bar_mm: float = BAR_MM, tick: Tick = go_on) -> Poses:
    """Poses from the markers of the photos that show the sheet well enough.

    Parameters
    ----------
    sifted : their markers, and what is told of the other photos.
    sheet : the sheet as drawn.
    bar_mm : what its bar measures on the print [mm].
    tick : called several times a second; may raise to cancel.
    """
    solved = solve(sifted, sheet, bar_mm, tick)
    views = views_of(solved)
    tally = tally_of(np.array([view.eye_mm for view in views]))
    check_set(solved, tally)
    scale = bar_mm / BAR_MM
    stretch = 1 + float(solved.adjusted.model.shared[STRETCH])
    told = tuple(sorted(solved.told, key=lambda each: each.file))
    return Poses(sheet, (scale * stretch, scale), views, told, tally, warnings_of(solved))


def views_of(solved: Solved) -> tuple[View, ...]:
    """The views of the photos that fit, each as its upright photo has it, over the board in the sheet's middle.

    Where the sheet is not quite flat, its middle lies as high as the smooth surface through its markers goes on there.

    Parameters
    ----------
    solved : lens and poses on the sensor.
    """
    model, side = solved.adjusted.model, solved.side_px
    focal, x, y, k1, k2 = (float(value) for value in model.shared[:STRETCH])
    middle = np.array([0.0, 0.0, solved.middle_mm])
    away = np.nanmedian(solved.adjusted.away_px, axis=(1, 2))
    views = []
    for photo, (marks, frame) in enumerate(zip(solved.marks, solved.frames, strict=True)):
        lens = frame.lens(
            focal * float(np.exp(model.zoom[photo])) / side, (x / side, y / side), (k1, k2), solved.focal_doubt
        )
        rotation, shift = frame.upright(model.turns[photo], model.shifts_mm[photo] + model.turns[photo] @ middle)
        off = float(away[photo]) * frame.long_px / side
        views.append(View(marks.photo.file, lens, rotation, shift, off))
    return tuple(views)
