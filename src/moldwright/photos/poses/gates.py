"""Which photos can be used at all, before any pose: enough markers of the one sheet, sharp, light enough."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from moldwright.photos.poses.detect import brightest, edge_spread_px
from moldwright.photos.poses.marks import Marks
from moldwright.photos.sheet.layout import COUNT, PhotoSheet, photo_sheet
from moldwright.photos.sheet.sizes import SheetSize
from moldwright.photos.told import PhotoReason, PhotoTold

FEWEST_MARKERS = 4
SHARPEST_SHARE = 0.55
"""Of the usual sharpness that a photo must have (tried, METHODS of the prototype: 0.55 of the median)."""
SOME = 8
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
    enough = [each for each in own if len(each.numbers) >= FEWEST_MARKERS]
    usual = _Usual(tuple(enough))
    kept, told = [], []
    for each, whole in zip(own, marks, strict=True):
        fault = _fault(each, whole, usual)
        if fault is None:
            kept.append(each)
        else:
            told.append(fault)
    return Sifted(tuple(kept), tuple(told))


class _Usual:
    """How soft the photos that show enough usually are [px]: the markers' edges, and the clearest edges of all."""

    def __init__(self, enough: tuple[Marks, ...]) -> None:
        self.markers_px = float(np.median([each.soft_px for each in enough])) if enough else 0.0
        self._enough = enough

    @cached_property
    def edges_px(self) -> float:
        some = self._enough[:: max(1, len(self._enough) // SOME)]
        return float(np.median([edge_spread_px(each.photo) for each in some])) if some else 0.0


def _blocks(marks: Marks) -> Counter[int]:
    return Counter(int(number) // COUNT for number in marks.numbers)


def _fault(own: Marks, whole: Marks, usual: _Usual) -> PhotoTold | None:
    file, seen = own.photo.file, len(own.numbers)
    if seen < FEWEST_MARKERS:
        return _why_few(own, whole, usual)
    if own.contrast < LEAST_CONTRAST:
        return PhotoTold(file, False, PhotoReason.DARK, own.contrast, LEAST_CONTRAST)
    if usual.markers_px < SHARPEST_SHARE * own.soft_px:
        return PhotoTold(file, False, PhotoReason.SOFT, usual.markers_px / own.soft_px, SHARPEST_SHARE)
    return None


def _why_few(own: Marks, whole: Marks, usual: _Usual) -> PhotoTold:
    file = own.photo.file
    others = max((seen for block, seen in _blocks(whole).items()), default=0)
    if others >= FEWEST_MARKERS:
        return PhotoTold(file, False, PhotoReason.OTHER_SHEET, others, 0.0)
    light = brightest(own.photo)
    if light < LEAST_BRIGHT:
        return PhotoTold(file, False, PhotoReason.DARK, light, LEAST_BRIGHT)
    spread = edge_spread_px(own.photo)
    if usual.edges_px < SHARPEST_SHARE * spread:
        return PhotoTold(file, False, PhotoReason.SOFT, usual.edges_px / spread, SHARPEST_SHARE)
    return PhotoTold(file, False, PhotoReason.FEW_MARKERS, len(own.numbers), FEWEST_MARKERS)
