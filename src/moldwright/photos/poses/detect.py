"""The sheet's markers in one photo."""

from __future__ import annotations

from functools import lru_cache

import cv2
import numpy as np
import numpy.typing as npt

from moldwright.photos.poses.edges import fit_edges
from moldwright.photos.poses.marks import Floats, Marks, Numbers
from moldwright.photos.reading.photo import Photo

Bytes = npt.NDArray[np.uint8]
DICTIONARY = cv2.aruco.DICT_4X4_250
WINDOWS_PX = (3, 53, 10)
LEAST_ROUND = 0.01
"""Least way round a marker as a share of the photo's long side."""
CLEAREST, LEAST_STEEP = 99.7, 1.0
"""The steepest places of a photo: above this percentage of all, and at least so many levels over a px."""
AROUND = 150
"""How near to such a place its light and dark side are: the long side over this."""
MOVED_MODULES = 1.2
"""A measured corner that is farther from the detected one belongs to something else."""


def marks_in(photo: Photo) -> Marks:
    """All markers that can be read, their corners measured at their edges.

    Parameters
    ----------
    photo : upright.
    """
    gray = np.asarray(cv2.cvtColor(np.asarray(photo.rgb()), cv2.COLOR_RGB2GRAY), dtype=np.uint8)
    numbers, found = _detected(gray)
    if not len(numbers):
        return Marks(photo, numbers, found, found, np.zeros(0), 0.0, 0.0)
    fitted = fit_edges(gray, found)
    side = np.linalg.norm(found - np.roll(found, 1, axis=1), axis=2).max(axis=1)
    moved = np.linalg.norm(fitted.corners_px - found, axis=2).max(axis=1)
    kept = np.isfinite(moved) & (moved <= 1.0 + MOVED_MODULES * side / 6)
    look = fitted.soft_px(), _contrast(gray, found)
    marks = Marks(photo, numbers, fitted.corners_px, fitted.outward_px, _across(found), *look)
    return marks.only(kept)


def edge_spread_px(photo: Photo) -> float:
    """Spread of the clearest edges of a whole photo [px], whatever they are of; 0 where there are none.

    Parameters
    ----------
    photo : upright.
    """
    gray = np.asarray(cv2.cvtColor(np.asarray(photo.rgb()), cv2.COLOR_RGB2GRAY), dtype=np.uint8)
    steep = np.asarray(cv2.magnitude(*(cv2.Sobel(gray, cv2.CV_32F, *way) for way in ((1, 0), (0, 1))))) / 8
    clear = steep >= max(LEAST_STEEP, float(np.percentile(steep, CLEAREST)))
    if not clear.any():
        return 0.0
    window = np.ones((2 * (max(gray.shape) // AROUND) + 1,) * 2, np.uint8)
    height = np.asarray(cv2.dilate(gray, window), np.float64) - np.asarray(cv2.erode(gray, window), np.float64)
    return float(np.median(height[clear] / steep[clear]) / np.sqrt(2 * np.pi))


def brightest(photo: Photo) -> float:
    """The level (of 255) that only a hundredth of the photo is above.

    Parameters
    ----------
    photo : upright.
    """
    return float(np.percentile(photo.rgb()[::8, ::8], 99))


def _detected(gray: Bytes) -> tuple[Numbers, Floats]:
    corners, numbers, _ = _detector().detectMarkers(gray)
    if numbers is None or not len(corners):
        return np.zeros(0, np.int64), np.zeros((0, 4, 2))
    found = np.asarray(corners, dtype=np.float64).reshape(-1, 4, 2)
    first = np.unique(np.asarray(numbers).ravel(), return_index=True)[1]
    return np.asarray(numbers, dtype=np.int64).ravel()[first], found[first]


@lru_cache(maxsize=1)
def _detector() -> cv2.aruco.ArucoDetector:
    how = cv2.aruco.DetectorParameters()
    how.adaptiveThreshWinSizeMin, how.adaptiveThreshWinSizeMax, how.adaptiveThreshWinSizeStep = WINDOWS_PX
    how.minMarkerPerimeterRate = LEAST_ROUND
    return cv2.aruco.ArucoDetector(cv2.aruco.getPredefinedDictionary(DICTIONARY), how)


def _across(corners: Floats) -> Floats:
    """Breadth at the slant: area over the longest side, (n,) [px]."""
    x, y = corners[..., 0], corners[..., 1]
    area = np.abs((x * np.roll(y, -1, axis=1) - y * np.roll(x, -1, axis=1)).sum(axis=1)) / 2
    side = np.linalg.norm(corners - np.roll(corners, 1, axis=1), axis=2).max(axis=1)
    return np.asarray(area / np.maximum(side, 1e-9))


def _contrast(gray: Bytes, corners: Floats) -> float:
    """Median over the markers of paper less ink: half a module outside and inside the middles of their sides."""
    middle = corners.mean(axis=1, keepdims=True)
    sides = (corners + np.roll(corners, -1, axis=1)) / 2
    levels = [_levels(gray, middle + (sides - middle) * far) for far in (1 + 1 / 6, 1 - 1 / 6)]
    return float(np.median(levels[0] - levels[1]))


def _levels(gray: Bytes, at: Floats) -> Floats:
    height, width = gray.shape
    x = np.clip(np.round(at[..., 0]), 0, width - 1).astype(int)
    y = np.clip(np.round(at[..., 1]), 0, height - 1).astype(int)
    return np.asarray(gray[y, x], dtype=np.float64)
