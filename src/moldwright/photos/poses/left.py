"""Whether enough photos are left, of one zoom."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from moldwright.photos.poses.refuse import FEWEST_PHOTOS, too_few, zoom_changed
from moldwright.photos.told import PhotoReason, PhotoTold

OTHER_ZOOM_SHARE = 0.2


def check_left(left: int, told: Sequence[PhotoTold]) -> None:
    """Refuse a set of which too few photos are left, or which two zooms share.

    Parameters
    ----------
    left : photos that may still be used.
    told : of the others.
    """
    reasons = Counter(each.reason for each in told)
    most = max(5, int(OTHER_ZOOM_SHARE * (left + len(told))))
    if reasons[PhotoReason.OTHER_ZOOM] > most:
        raise zoom_changed(reasons[PhotoReason.OTHER_ZOOM], most)
    if left < FEWEST_PHOTOS:
        raise too_few(left, reasons.most_common(1)[0][0] if reasons else None)
