"""Linear light and its color apart from brightness."""

from __future__ import annotations

import cv2
import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float32]
Pixels = NDArray[np.uint8]


def _to_linear() -> Floats:
    level = np.arange(256) / 255.0
    curve = np.where(level <= 0.04045, level / 12.92, ((level + 0.055) / 1.055) ** 2.4)
    return np.asarray(curve, np.float32).reshape(1, 256)


LINEAR = _to_linear()
"""Source: IEC 61966-2-1 (sRGB), its decoding function (from memory)."""


def linear(rgb: Pixels) -> Floats:
    """(h, w, 3) linear light, 0 to 1.

    Parameters
    ----------
    rgb : (h, w, 3) as a photo has it.
    """
    return np.asarray(cv2.LUT(np.ascontiguousarray(rgb), LINEAR), np.float32)


def chroma(light: Floats, floor: float) -> Floats:
    """(..., 2) log R/G and log B/G: what stays the same in a shadow.

    Parameters
    ----------
    light : (..., 3) linear light.
    floor : added to each, > 0.

    Source: log-chromaticity, Finlayson & Hordley 2001, "Color constancy at a pixel" (from memory).
    """
    logs = np.log(light + np.float32(floor))
    return np.asarray(logs[..., (0, 2)] - logs[..., 1:2], np.float32)
