"""Whether a set of photos as a whole can be trusted: refused by its own reason, or warned of."""

from __future__ import annotations

import numpy as np

from moldwright.photos.poses.model import STRETCH
from moldwright.photos.poses.poses import PoseWarning
from moldwright.photos.poses.refuse import (
    bar_wrong,
    focal_doubtful,
    markers_small,
    print_stretched,
    ring_missing,
    sheet_bent,
    sheet_misjoined,
)
from moldwright.photos.poses.solve import PER_PX, Solved
from moldwright.photos.tally import FEWEST, RingFault, Tally

BAR_RANGE_MM = (90.0, 110.0)
LEAST_ACROSS_PX = 10.0
MOST_FOCAL_DOUBT, SOME_FOCAL_DOUBT = 0.005, 0.0025
MOST_STRETCH, SOME_STRETCH = 0.01, 0.002
MOST_BENT_MM, SOME_BENT_MM = 2.5, 1.0
MOST_MISJOINED_MM = 2.0
SOME_ZOOM = 0.01
SEVERAL = 6
SURE = 4.0
"""Standard uncertainties past which a figure counts as seen."""


def check_bar(bar_mm: float) -> None:
    """Refuse a bar that no printer makes of 100 mm.

    Parameters
    ----------
    bar_mm : what was measured [mm].
    """
    if not BAR_RANGE_MM[0] <= bar_mm <= BAR_RANGE_MM[1]:
        raise bar_wrong(bar_mm, *BAR_RANGE_MM)


def check_set(solved: Solved, tally: Tally) -> None:
    """Refuse a set whose small residuals would prove nothing.

    Parameters
    ----------
    solved : lens, sheet and poses.
    tally : the directions covered.
    """
    across = _across_px(solved)
    if across < LEAST_ACROSS_PX:
        raise markers_small(across, LEAST_ACROSS_PX)
    for ring, low in ((tally.low, True), (tally.high, False)):
        if ring.fault is RingFault.MISSING:
            raise ring_missing(ring.photos, FEWEST, low)
    if solved.focal_doubt > MOST_FOCAL_DOUBT:
        raise focal_doubtful(solved.focal_doubt, MOST_FOCAL_DOUBT)
    if abs(_stretch(solved)) > MOST_STRETCH:
        raise print_stretched(_stretch(solved), MOST_STRETCH)
    if _bent_mm(solved) > MOST_BENT_MM:
        raise sheet_bent(_bent_mm(solved), MOST_BENT_MM)
    if _misjoined_mm(solved) > MOST_MISJOINED_MM:
        raise sheet_misjoined(_misjoined_mm(solved), MOST_MISJOINED_MM)


def warnings_of(solved: Solved) -> tuple[tuple[PoseWarning, float], ...]:
    """What should be known of a set that is good enough, with its figure: mm, or a share.

    Parameters
    ----------
    solved : lens, sheet and poses.
    """
    found = []
    doubt = float(solved.adjusted.doubt[STRETCH])
    if abs(_stretch(solved)) > max(SOME_STRETCH, SURE * doubt):
        found.append((PoseWarning.PRINT_STRETCHED, _stretch(solved)))
    if _bent_mm(solved) > SOME_BENT_MM:
        found.append((PoseWarning.SHEET_CURLED, _bent_mm(solved)))
    if solved.focal_doubt > SOME_FOCAL_DOUBT:
        found.append((PoseWarning.FOCAL_DOUBT, solved.focal_doubt))
    zoom = float(np.ptp(np.percentile(solved.adjusted.model.zoom, (5, 95))))
    if zoom > SOME_ZOOM:
        found.append((PoseWarning.ZOOM_VARIES, zoom))
    return tuple(found)


def _across_px(solved: Solved) -> float:
    """Median breadth of a marker at its slant, of a photo 2000 px long."""
    each = [
        np.median(marks.across_px) * PER_PX / frame.long_px
        for marks, frame in zip(solved.marks, solved.frames, strict=True)
    ]
    return float(np.median(each))


def _stretch(solved: Solved) -> float:
    return float(solved.adjusted.model.shared[STRETCH])


def _bent_mm(solved: Solved) -> float:
    """How far off the plane of all markers the farthest corner lies."""
    return float(np.abs(solved.adjusted.model.points_mm(solved.sights)[..., 2]).max())


def _misjoined_mm(solved: Solved) -> float:
    """How far off its place the farthest marker lies, of those that several photos show."""
    several = solved.sights.there.sum(axis=0) >= SEVERAL
    return float(np.linalg.norm(solved.adjusted.model.moved_mm[several], axis=1).max(initial=0.0))
