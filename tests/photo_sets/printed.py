"""The printed sheet as a picture: how much ink lies where."""

from __future__ import annotations

import cv2
import numpy as np
import numpy.typing as npt

from moldwright.photos.sheet.layout import PhotoSheet

Floats = npt.NDArray[np.float32]
OVER = 4
MOST_PX = 3600
CROSS_MM = (9.0, 0.5)
BAR_MM = 1.2


def px_per_mm(sheet: PhotoSheet) -> int:
    """How finely the sheet is drawn."""
    return max(4, int(MOST_PX / sheet.size.length_mm))


def ink(sheet: PhotoSheet) -> Floats:
    """Share of ink at each dot, 0 to 1: the first row lies at the sheet's far edge (+y), the first column at -x.

    The dictionary's own pictures give the markers' bits; edges that fall between dots are mixed, as paper does.
    """
    wide, long = sheet.size.breadth_mm, sheet.size.length_mm
    fine = px_per_mm(sheet) * OVER
    big = np.zeros((round(long * fine), round(wide * fine)), dtype=np.uint8)
    for marker in sheet.markers:
        _stamp(big, _bits(marker.number), (marker.x_mm, marker.y_mm), sheet.side_mm, fine, (wide, long))
    for low, high in _marks(sheet):
        _fill(big, low, high, fine, (wide, long))
    small = cv2.resize(big, (big.shape[1] // OVER, big.shape[0] // OVER), interpolation=cv2.INTER_AREA)
    return small.astype(np.float32)


def _bits(number: int) -> npt.NDArray[np.uint8]:
    """The marker's 6 x 6 cells, not 0 where there is ink."""
    words = cv2.aruco.getPredefinedDictionary(cv2.aruco.DICT_4X4_250)
    return np.asarray(255 - cv2.aruco.generateImageMarker(words, number, 6), dtype=np.uint8)


def _marks(sheet: PhotoSheet) -> list[tuple[tuple[float, float], tuple[float, float]]]:
    """The bar, and the fine cross in the middle that the piece is put on."""
    (x, low), (_, high) = sheet.bar_mm
    arm, thin = CROSS_MM
    return [((x - BAR_MM / 2, low), (x + BAR_MM / 2, high)), ((-arm, -thin), (arm, thin)), ((-thin, -arm), (thin, arm))]


def _stamp(
    big: npt.NDArray[np.uint8],
    cells: npt.NDArray[np.uint8],
    middle_mm: tuple[float, float],
    side_mm: float,
    fine: int,
    sheet_mm: tuple[float, float],
) -> None:
    cell = side_mm / len(cells)
    for row, column in np.argwhere(cells):
        x = middle_mm[0] - side_mm / 2 + column * cell
        y = middle_mm[1] + side_mm / 2 - row * cell
        _fill(big, (x, y - cell), (x + cell, y), fine, sheet_mm)


def _fill(
    big: npt.NDArray[np.uint8],
    low_mm: tuple[float, float],
    high_mm: tuple[float, float],
    fine: int,
    sheet_mm: tuple[float, float],
) -> None:
    left, right = (round((x + sheet_mm[0] / 2) * fine) for x in (low_mm[0], high_mm[0]))
    top, bottom = (round((sheet_mm[1] / 2 - y) * fine) for y in (high_mm[1], low_mm[1]))
    big[top:bottom, left:right] = 1
