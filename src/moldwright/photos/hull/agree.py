"""Which photos agree: one that carves what the others hold, or shows what they do not leave, is a stranger."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from moldwright.errors import InputRefused
from moldwright.geometry.grid import Grid
from moldwright.photos.hull.box import refined
from moldwright.photos.hull.ranked import Ranked, ranked, unexplained
from moldwright.photos.hull.settings import HullSettings
from moldwright.photos.hull.views import FlatViews
from moldwright.photos.told import PhotoReason, PhotoTold
from moldwright.progress import Progress, silent

AT_ONCE_SHARE = 0.5
STRANGERS = (
    "Too many photos show the piece elsewhere or otherwise than the rest: photograph it anew, and move neither the"
    " piece nor anything on the sheet between photos."
)


@dataclass(frozen=True, slots=True, eq=False)
class Agreeing:
    """Numbers of the views that agree and what is told of the others."""

    kept: tuple[int, ...]
    told: tuple[PhotoTold, ...]


@dataclass(frozen=True, slots=True, eq=False)
class _Marks:
    """Of each view: what it carves alone, its outline without anything behind it, what others miss by it."""

    alone: NDArray[np.float64]
    own: NDArray[np.float64]
    blamed: NDArray[np.float64]

    def excess(self, settings: HullSettings) -> NDArray[np.float64]:
        """How many times each view is past its limit; up to 1 it agrees."""
        conflict = (self.own + self.blamed) / settings.conflict_share
        doubtful = np.minimum(conflict, self.alone / settings.doubtful_alone_share)
        return np.maximum(np.maximum(doubtful, self.alone / settings.alone_share), self.own / settings.own_share)

    def told(self, n: int, file: str, settings: HullSettings) -> PhotoTold:
        """Why a view is dropped.

        Parameters
        ----------
        n : its number.
        file : its name.
        settings : limits.
        """
        if self.alone[n] > settings.doubtful_alone_share:
            limit = settings.alone_share if self.alone[n] > settings.alone_share else settings.doubtful_alone_share
            return PhotoTold(file, False, PhotoReason.CARVES_ALONE, round(float(self.alone[n]), 5), limit)
        return PhotoTold(file, False, PhotoReason.DISAGREES, round(float(self.own[n]), 5), settings.own_share)


def agreeing(
    views: FlatViews, files: Sequence[str], box: Grid, settings: HullSettings, progress: Progress = silent
) -> Agreeing:
    """Views without the strangers, the worst dropped first and the rest compared anew.

    Parameters
    ----------
    views : poses and outlines.
    files : their names.
    box : a grid about the piece and what strangers take of it.
    settings : limits.
    progress : told while comparing; it may raise to cancel.

    Raises InputRefused where too many are strangers. Source: our own.
    """
    grid = refined(box, max(settings.least_step_mm, _longest_mm(box) / settings.compare_steps))
    kept = list(range(len(files)))
    told: list[PhotoTold] = []
    while True:
        field = ranked(views.only(kept), grid, progress)
        marks = _marks(views.only(kept), field, settings)
        excess = marks.excess(settings)
        if excess.max() <= 1.0:
            return Agreeing(tuple(kept), tuple(told))
        out = excess >= max(1.0 + 1e-9, AT_ONCE_SHARE * excess.max())
        told += [marks.told(n, files[kept[n]], settings) for n in np.flatnonzero(out).tolist()]
        kept = [n for n, strange in zip(kept, out, strict=True) if not strange]
        if len(told) > settings.dropped_share * len(files) or len(kept) < 2:
            raise InputRefused(
                "photos-disagree", len(told), int(settings.dropped_share * len(files)), "photos", STRANGERS
            )


def _longest_mm(grid: Grid) -> float:
    return grid.step_mm * max(grid.shape)


def _marks(views: FlatViews, field: Ranked, settings: HullSettings) -> _Marks:
    own, blamed = unexplained(views, field, settings.tolerance_steps * field.grid.step_mm)
    return _Marks(field.alone_share(len(views.cameras)), own, blamed)
