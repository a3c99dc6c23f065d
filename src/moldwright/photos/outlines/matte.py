"""Where exactly an outline runs: each pixel near it as a mixture of the colors on both sides, in linear light."""

from __future__ import annotations

import cv2
import numpy as np

from moldwright.photos.outlines.color import Floats
from moldwright.photos.outlines.settings import OutlineSettings

LEAST_WEIGHT = 1e-3
LEAST_CONTRAST = 2e-4


def covered_share(light: Floats, rough: Floats, settings: OutlineSettings) -> Floats:
    """(h, w) share of each pixel that the piece covers: 0 and 1 but in a band about the rough outline.

    Colors on both sides are means over pixels near by that lie wholly on that side. Where both sides look alike the
    rough outline stands.

    Parameters
    ----------
    light : (h, w, 3) linear light.
    rough : (h, w) 1 where the piece is, 0 elsewhere, by color alone.
    settings : breadth of the band, and how far colors are gathered.

    Source: the compositing equation of Porter & Duff 1984 (from memory), solved for the share along the line between
    two local means.
    """
    inside = (rough >= 0.5).astype(np.uint8)
    into = cv2.distanceTransform(inside, cv2.DIST_L2, cv2.DIST_MASK_5)
    out = cv2.distanceTransform(1 - inside, cv2.DIST_L2, cv2.DIST_MASK_5)
    band = np.where(inside > 0, into, out) <= settings.band_px
    near, far = _mean_of(light, into > settings.band_px, settings), _mean_of(light, out > settings.band_px, settings)
    across = near - far
    length = np.einsum("ijk,ijk->ij", across, across)
    share = np.einsum("ijk,ijk->ij", light - far, across) / np.maximum(length, 1e-12)
    clear = band & (length > LEAST_CONTRAST)
    return np.where(clear, np.clip(share, 0.0, 1.0), inside).astype(np.float32)


def guided(share: Floats, light: Floats, settings: OutlineSettings) -> Floats:
    """(h, w) a share that follows the edges of the light, and is settled between them.

    Parameters
    ----------
    share : (h, w) 0 to 1.
    light : (h, w, 3) linear light.
    settings : how far and how strongly.

    Source: guided filter, He, Sun & Tang 2013, "Guided image filtering" (from memory).
    """
    guide = np.log(light.sum(axis=2) + np.float32(0.02))
    box = (2 * settings.smooth_px + 1, 2 * settings.smooth_px + 1)
    mean, mean_share = cv2.blur(guide, box), cv2.blur(share, box)
    spread = cv2.blur(guide * guide, box) - mean * mean
    slope = (cv2.blur(guide * share, box) - mean * mean_share) / (spread + np.float32(settings.smooth_light**2))
    rest = mean_share - slope * mean
    return np.asarray(cv2.blur(slope, box) * guide + cv2.blur(rest, box), np.float32)


def _mean_of(light: Floats, sure: object, settings: OutlineSettings) -> Floats:
    """(h, w, 3) mean of the sure pixels near each, 0 where there is none; a wider look where few are near."""
    weight = np.asarray(sure, np.float32)
    side = 2 * settings.near_px + 1
    count = cv2.blur(weight, (side, side))
    total = cv2.blur(light * weight[..., None], (side, side))
    return np.asarray(total / np.maximum(count, LEAST_WEIGHT)[..., None], np.float32)
