"""Which photos can be used at all, before any pose: enough markers of the one sheet, sharp, light enough."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass

import numpy as np

from moldwright.photos.poses.detect import brightest, readable_if_smaller
from moldwright.photos.poses.marks import Marks
from moldwright.photos.sheet.layout import COUNT, PhotoSheet, photo_sheet
from moldwright.photos.sheet.sizes import SheetSize
from moldwright.photos.told import PhotoReason, PhotoTold

FEWEST_MARKERS = 4
SHARPEST_SHARE = 0.55
"""Of the usual sharpness that a photo must have (tried, METHODS of the prototype: 0.55 of the median)."""
SMALLER = 3
LEAST_CONTRAST = 25.0
LEAST_BRIGHT = 60.0


@dataclass(frozen=True, slots=True, eq=False)
class Sifted:
    """What is kept, and what is told of the rest."""

    kept: tuple[Marks, ...]
    told: tuple[PhotoTold, ...]


def sheet_in(marks: tuple[Marks, ...]) -> PhotoSheet | None:
    """The sheet that most photos show, None where none shows enough of any.

    Parameters
    ----------
    marks : of all photos.
    """
    votes: Counter[int] = Counter()
    for each in marks:
        votes.update(block for block, seen in _blocks(each).items() if seen >= FEWEST_MARKERS)
    sizes = list(SheetSize)
    known = [(count, -block) for block, count in votes.items() if block < len(sizes)]
    return photo_sheet(sizes[-max(known)[1]]) if known else None


def sift(marks: tuple[Marks, ...], sheet: PhotoSheet) -> Sifted:
    """The photos that show the sheet well enough, their markers those of the sheet alone.

    Parameters
    ----------
    marks : of all photos.
    sheet : the one of most.
    """
    first = sheet.numbers
    own = [each.only((each.numbers >= first.start) & (each.numbers < first.stop)) for each in marks]
    usual = [each.soft_px for each in own if len(each.numbers) >= FEWEST_MARKERS]
    limit = float(np.median(usual)) / SHARPEST_SHARE if usual else 0.0
    kept, told = [], []
    for each, whole in zip(own, marks, strict=True):
        fault = _fault(each, whole, limit)
        if fault is None:
            kept.append(each)
        else:
            told.append(fault)
    return Sifted(tuple(kept), tuple(told))


def _blocks(marks: Marks) -> Counter[int]:
    return Counter(int(number) // COUNT for number in marks.numbers)


def _fault(own: Marks, whole: Marks, softest_px: float) -> PhotoTold | None:
    file, seen = own.photo.file, len(own.numbers)
    if seen < FEWEST_MARKERS:
        return _why_few(own, whole)
    if own.contrast < LEAST_CONTRAST:
        return PhotoTold(file, False, PhotoReason.DARK, own.contrast, LEAST_CONTRAST)
    if own.soft_px > softest_px:
        share = softest_px * SHARPEST_SHARE / own.soft_px
        return PhotoTold(file, False, PhotoReason.SOFT, share, SHARPEST_SHARE)
    return None


def _why_few(own: Marks, whole: Marks) -> PhotoTold:
    file = own.photo.file
    others = max((seen for block, seen in _blocks(whole).items()), default=0)
    if others >= FEWEST_MARKERS:
        return PhotoTold(file, False, PhotoReason.OTHER_SHEET, others, 0.0)
    light = brightest(own.photo)
    if light < LEAST_BRIGHT:
        return PhotoTold(file, False, PhotoReason.DARK, light, LEAST_BRIGHT)
    if readable_if_smaller(own.photo, SMALLER) >= FEWEST_MARKERS:
        return PhotoTold(file, False, PhotoReason.SOFT, 0.0, SHARPEST_SHARE)
    return PhotoTold(file, False, PhotoReason.FEW_MARKERS, len(own.numbers), FEWEST_MARKERS)
