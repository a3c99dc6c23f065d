"""From photos to poses."""

from __future__ import annotations

from collections.abc import Iterable

from moldwright.photos.poses.poses import Poses
from moldwright.photos.reading.photo import Photo
from moldwright.progress import Progress, silent


def find_poses(photos: Iterable[Photo], bar_mm: float = 100.0, progress: Progress = silent) -> Poses:
    """Where each photo was taken from on the sheet that is in them.

    Raises `InputRefused` where no pose can be trusted; photos that do not fit the rest are dropped with their reason.

    Parameters
    ----------
    photos : upright at their working size.
    bar_mm : what the 100 mm bar measures on the print [mm].
    progress : told how far it is; may raise to cancel.
    """
    raise NotImplementedError
