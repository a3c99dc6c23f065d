"""An outline of the piece on a photo: signed distances in a box about it."""

from __future__ import annotations

from dataclasses import dataclass

import cv2
import numpy as np
from numpy.typing import NDArray

Pixels = NDArray[np.uint8]
Floats = NDArray[np.float32]

PARTS_OF_A_PIXEL = 64
"""Signed distances are kept as whole parts of a pixel: 1/64 px is a tenth of what an outline is known to."""
FURTHEST_PX = 500.0
MARGIN_PX = 24
FINER = 2
SMOOTH_PX = 0.8


@dataclass(frozen=True, slots=True, eq=False)
class Outline:
    """Signed distances to the outline, negative inside, in a box of the photo about the piece.

    `left_px`, `top_px` : the box's first pixel on the photo; `signed` : (h, w) int16 [1/64 px], within +-500 px.
    """

    left_px: int
    top_px: int
    signed: NDArray[np.int16]

    @property
    def inside(self) -> NDArray[np.bool_]:
        """(h, w) pixels of the box whose middles lie in the piece."""
        return np.asarray(self.signed < 0)

    @property
    def area_px(self) -> int:
        """Pixels whose middles lie in the piece."""
        return int(np.count_nonzero(self.signed < 0))

    def lines_px(self) -> tuple[NDArray[np.int32], ...]:
        """The closed lines of the outline on the photo, (n, 2) each [px], holes too."""
        found, _ = cv2.findContours(self.inside.astype(np.uint8), cv2.RETR_CCOMP, cv2.CHAIN_APPROX_TC89_L1)
        at = np.array([self.left_px, self.top_px], np.int32)
        return tuple(np.asarray(line.reshape(-1, 2) + at, np.int32) for line in found)


def outline_from(covered: Floats) -> Outline | None:
    """The outline where a piece covers half of a pixel; None where it covers nothing.

    Distances are taken on half pixels, between the middles of those inside and those outside, and smoothed a little.

    Parameters
    ----------
    covered : (h, w) share of each pixel that the piece covers, 0 to 1.

    Source: exact distance transform of Felzenszwalb & Huttenlocher 2012 (from memory), as OpenCV has it.
    """
    columns, rows = (np.flatnonzero((covered >= 0.5).any(axis=axis)) for axis in (0, 1))
    if not len(columns):
        return None
    left, top = max(0, int(columns[0]) - MARGIN_PX), max(0, int(rows[0]) - MARGIN_PX)
    part = covered[top : int(rows[-1]) + MARGIN_PX + 1, left : int(columns[-1]) + MARGIN_PX + 1]
    return Outline(left, top, _kept(_signed_px(part)))


def _signed_px(covered: Floats) -> Floats:
    height, width = covered.shape
    fine = cv2.resize(covered, (FINER * width, FINER * height), interpolation=cv2.INTER_CUBIC)
    inside = (fine >= 0.5).astype(np.uint8)
    out = cv2.distanceTransform(1 - inside, cv2.DIST_L2, cv2.DIST_MASK_PRECISE)
    into = cv2.distanceTransform(inside, cv2.DIST_L2, cv2.DIST_MASK_PRECISE)
    signed = np.where(inside > 0, 0.5 - into, out - 0.5).astype(np.float32)
    signed = np.asarray(cv2.GaussianBlur(signed, (0, 0), FINER * SMOOTH_PX), np.float32)
    return np.asarray(cv2.resize(signed, (width, height), interpolation=cv2.INTER_AREA) / FINER, np.float32)


def _kept(signed_px: Floats) -> NDArray[np.int16]:
    clipped = np.clip(signed_px, -FURTHEST_PX, FURTHEST_PX)
    return np.asarray(np.rint(clipped * PARTS_OF_A_PIXEL), np.int16)
