"""Gray levels of the piece, cut out of its photos by the boxes of their outlines."""

from __future__ import annotations

from collections.abc import Sequence

import cv2
import numpy as np
from numpy.typing import NDArray

from moldwright.photos.hull.views import Seen
from moldwright.photos.outlines.outline import Outline

Grays = NDArray[np.uint8]
SOFT_PX = 0.6


def gray_of(rgb: Grays, outline: Outline) -> Grays:
    """(h, w) the box of an outline in gray, smoothed a little.

    Parameters
    ----------
    rgb : (h, w, 3) the photo.
    outline : of the piece on it.
    """
    rows, columns = outline.signed.shape
    part = rgb[outline.top_px : outline.top_px + rows, outline.left_px : outline.left_px + columns]
    gray = cv2.cvtColor(np.ascontiguousarray(part), cv2.COLOR_RGB2GRAY)
    return np.asarray(cv2.GaussianBlur(gray, (0, 0), SOFT_PX), np.uint8)


def flat_grays(seen: Sequence[Seen]) -> Grays | None:
    """All gray levels one after another, as the outlines are; None where a photo has none.

    Parameters
    ----------
    seen : photos in the order of their outlines.
    """
    grays = [one.gray.ravel() for one in seen if one.gray is not None]
    return np.concatenate(grays) if len(grays) == len(seen) else None
