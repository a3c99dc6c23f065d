"""All poses at once, photos that do not fit left out one round after another, each with its reason."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable
from dataclasses import dataclass, replace

import numpy as np
import numpy.typing as npt

from moldwright.photos.poses.adjust import Adjusted, adjust
from moldwright.photos.poses.frames import SensorFrame, frame_of
from moldwright.photos.poses.gates import Sifted
from moldwright.photos.poses.left import check_left
from moldwright.photos.poses.marks import Floats, Marks
from moldwright.photos.poses.model import SHARED, STRETCH, PoseModel, Sights, surfaces_over
from moldwright.photos.poses.start import FirstGuess, start
from moldwright.photos.sheet.layout import BAR_MM, PhotoSheet
from moldwright.photos.told import PhotoReason, PhotoTold

ROUNDS = 4
FAR_TIMES, FAR_PX = 3.0, 1.0
"""A photo is out past this many times the usual distance of its corners, and past these px of a photo 2000 px long."""
PER_PX = 2000
LOST_PX = 12.0
ZOOM_SHARE = 0.025
"""A focal length farther than this from that of most is another zoom; nearer, it is the focus (1 % or so is usual)."""
ZOOM_FIRST = 0.12
ZOOM_DOUBT, ZOOM_HELD = 0.02, 3e-4
EXIF_SHARE = 0.06
ASPECT_SHARE = 0.01

Which = npt.NDArray[np.bool_]
Tick = Callable[[], None]


def go_on() -> None:
    """A tick that nobody cancels by."""


@dataclass(frozen=True, slots=True, eq=False)
class Solved:
    """The photos that fit, how each lies against the sensor, what was found, and what is told of the others.

    `side_px` : the sensor's long side that all px are of; `sights` : what the photos that fit have seen; `zoom_doubt` :
    how near to one another the focal lengths were held.
    """

    marks: tuple[Marks, ...]
    frames: tuple[SensorFrame, ...]
    sights: Sights
    adjusted: Adjusted
    side_px: float
    zoom_doubt: float
    told: tuple[PhotoTold, ...]

    @property
    def focal_doubt(self) -> float:
        """Standard uncertainty of the usual focal length as a share, without what the photos differ by among them."""
        whole = float(self.adjusted.doubt[0] / self.adjusted.model.shared[0])
        return float(np.sqrt(max(whole**2 - self.zoom_doubt**2 / len(self.marks), 0.0)))

    @property
    def middle_mm(self) -> float:
        """How high the sheet's middle lies over the plane of all markers [mm]."""
        surfaces = surfaces_over(self.sights.drawn_mm, np.zeros(3))
        return float(surfaces @ self.adjusted.model.shared[STRETCH + 1 :])


def solve(sifted: Sifted, sheet: PhotoSheet, bar_mm: float, tick: Tick = go_on) -> Solved:
    """One lens, the sheet as it lies, and a pose for each photo that fits; refused where too few do.

    Parameters
    ----------
    sifted : the photos that show the sheet well enough, and what is told of the others.
    sheet : the sheet as drawn.
    bar_mm : what its bar measures on the print [mm].
    tick : called several times a second; may raise to cancel.
    """
    marks = sifted.kept
    usual = Counter(each.photo.quarters for each in marks if each.photo.quarters % 2)
    turn = usual.most_common(1)[0][0] if usual else 1
    frames = tuple(frame_of(each.photo, turn) for each in marks)
    side = float(max(frame.long_px for frame in frames))
    work = _Work(marks, frames, _sights(marks, frames, sheet, bar_mm, side), side, list(sifted.told), tick)
    work.drop_other_cameras()
    work.begin()
    for _ in range(ROUNDS):
        if not work.drop_far():
            break
    work.hold_zoom()
    return work.solved()


class _Work:
    """Photos under work, and those told of."""

    def __init__(
        self,
        marks: tuple[Marks, ...],
        frames: tuple[SensorFrame, ...],
        sights: Sights,
        side: float,
        told: list[PhotoTold],
        tick: Tick,
    ) -> None:
        self.marks, self.frames, self.sights, self.side, self.told = marks, frames, sights, side, told
        self.tick = tick
        self.adjusted: Adjusted
        self.zoom_doubt = ZOOM_DOUBT

    def drop_other_cameras(self) -> None:
        """Photos of another shape, or whose camera itself says another zoom than that of most."""
        aspects = np.array([frame.aspect for frame in self.frames])
        self._keep(*_near_most(aspects, ASPECT_SHARE))
        focals = np.array([each.photo.focal_35mm or np.nan for each in self.marks])
        self._keep(*_near_most(focals, EXIF_SHARE))

    def begin(self) -> None:
        """A first guess without the photos that it does not fit at all, then the best one."""
        first = start(self.sights, self.side, self.tick)
        far = LOST_PX * self.side / PER_PX
        zoomed = (np.abs(first.own_focal_px / first.model.shared[0] - 1) > ZOOM_FIRST) & _much_better(first)
        lost = ~zoomed & (first.off_px > far)
        self._tell(zoomed, PhotoReason.OTHER_ZOOM, first.own_focal_px / first.model.shared[0], 1 + ZOOM_SHARE)
        self._tell(lost, PhotoReason.NO_POSE, first.off_px, far)
        kept = ~(zoomed | lost)
        self._only(kept)
        model = first.model.only(kept)
        held = _free(model)
        held[STRETCH:] = False
        model = adjust(model, self.sights, self.side, held).model
        self.tick()
        self._adjust(adjust(model, self.sights, self.side, _free(model)).model)

    def drop_far(self) -> bool:
        """Whether photos were dropped that do not fit the rest, and the rest solved anew."""
        away = self._away()
        limit = max(FAR_TIMES * float(np.median(away)), FAR_PX * self.side / PER_PX)
        out = away > limit
        zoom = np.exp(self.adjusted.model.zoom)
        for photo in np.flatnonzero(out):
            zoom[photo] *= self._own_zoom(int(photo), limit)
        ratio, _, near = _near_most(zoom, ZOOM_SHARE)
        if not (out | ~near).any():
            return False
        self._tell(~near, PhotoReason.OTHER_ZOOM, ratio, 1 + ZOOM_SHARE)
        self._tell(out & near, PhotoReason.MOVED, away, limit)
        kept = near & ~out
        self._only(kept)
        self._adjust(self.adjusted.model.only(kept))
        return True

    def hold_zoom(self) -> None:
        """Once more, each focal length held as near to that of all as they are to one another."""
        self.tick()
        zoom = self.adjusted.model.zoom
        apart = 1.4826 * float(np.median(np.abs(zoom - np.median(zoom))))
        self.zoom_doubt = min(max(2 * apart, ZOOM_HELD), ZOOM_DOUBT)
        free = _free(self.adjusted.model)
        self.adjusted = adjust(self.adjusted.model, self.sights, self.side, free, self.zoom_doubt)

    def solved(self) -> Solved:
        return Solved(self.marks, self.frames, self.sights, self.adjusted, self.side, self.zoom_doubt, tuple(self.told))

    def _own_zoom(self, photo: int, limit: float) -> float:
        """A photo's own focal length over that of all, 1 where that does not make it fit."""
        self.tick()
        alone = np.array([photo])
        model = self.adjusted.model.only(alone)
        focal = np.zeros(SHARED + model.moved_mm.size, bool)
        focal[0] = True
        own = min(
            (adjust(_zoomed(model, by), self.sights.only(alone), self.side, focal) for by in (1.0, 0.6, 1.7)),
            key=lambda found: float(np.nanmedian(found.away_px)),
        )
        fits = float(np.nanmedian(own.away_px)) <= limit
        return float(own.model.shared[0] / model.shared[0]) if fits else 1.0

    def _adjust(self, model: PoseModel) -> None:
        self.tick()
        self.adjusted = adjust(model, self.sights, self.side, _free(model), ZOOM_DOUBT)

    def _away(self) -> Floats:
        return np.asarray(np.nanmedian(self.adjusted.away_px, axis=(1, 2)))

    def _keep(self, figure: Floats, limit: float, kept: Which) -> None:
        self._tell(~kept, PhotoReason.OTHER_ZOOM, figure, limit)
        self._only(kept)

    def _tell(self, which: Which, reason: PhotoReason, figure: Floats, limit: float) -> None:
        for photo in np.flatnonzero(which):
            self.told.append(PhotoTold(self.marks[photo].photo.file, False, reason, float(figure[photo]), limit))

    def _only(self, kept: Which) -> None:
        self.marks = tuple(each for each, keep in zip(self.marks, kept, strict=True) if keep)
        self.frames = tuple(each for each, keep in zip(self.frames, kept, strict=True) if keep)
        self.sights = self.sights.only(kept)
        check_left(len(self.marks), self.told)


def _near_most(values: Floats, share: float) -> tuple[Floats, float, Which]:
    """Each value over the one that most are near, the limit, and which are near it; unknown ones (NaN) are."""
    known = values[np.isfinite(values)]
    if not known.size:
        return np.ones(len(values)), 1 + share, np.ones(len(values), bool)
    near = (np.abs(known[:, None] / known - 1) <= share).sum(axis=0)
    ratio = values / known[int(near.argmax())]
    return ratio, 1 + share, ~(np.abs(ratio - 1) > share)


def _much_better(first: FirstGuess) -> Which:
    return first.own_off_px < 0.4 * first.off_px


def _zoomed(model: PoseModel, by: float) -> PoseModel:
    shared = model.shared.copy()
    shared[0] *= by
    return replace(model, shared=shared, shifts_mm=model.shifts_mm * (1, 1, by))


def _free(model: PoseModel) -> Which:
    return np.ones(SHARED + model.moved_mm.size, bool)


def _sights(
    marks: tuple[Marks, ...], frames: tuple[SensorFrame, ...], sheet: PhotoSheet, bar_mm: float, side: float
) -> Sights:
    drawn = np.zeros((len(sheet.markers), 4, 3))
    drawn[..., :2] = [marker.corners_mm(sheet.side_mm) for marker in sheet.markers]
    shape = len(marks), len(sheet.markers)
    seen, outward, there = np.zeros((*shape, 4, 2)), np.zeros((*shape, 4, 2)), np.zeros(shape, bool)
    for photo, (each, frame) in enumerate(zip(marks, frames, strict=True)):
        at = each.numbers - sheet.numbers.start
        seen[photo, at] = frame.to_sensor(each.corners_px) * side
        outward[photo, at] = frame.turned_to_sensor(each.outward_px) * (side / frame.long_px)
        there[photo, at] = True
    drawn *= bar_mm / BAR_MM
    return Sights(drawn, surfaces_over(drawn, drawn), seen, outward, there)
