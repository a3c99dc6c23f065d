"""Where everything is on the printed sheet [mm], from its middle: x to the right, y away from its front edge.

A sheet tells by its markers' numbers which size it is, so that nobody has to say it and none is taken for another.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache

from moldwright.photos.sheet.sizes import SheetSize

MARGIN_MM = 12.0
"""Blank border: so wide that the printed part of the larger sheets is two, or two by two, times what a page of the next
family size takes inside a printer's own margin of `TILE_MARGIN_MM`."""
TILE_MARGIN_MM = 6.0
ALONG, ACROSS = 8, 6
"""Markers along a long and along a short side, corners counted in both."""
COUNT = 2 * (ALONG + ACROSS) - 4
GAP_SHARE = 0.28
"""Least gap between two markers of a side as a share of a marker's side: room to see each edge."""
BAR_MM = 100.0
BAR_GAP_MM = 3.0
PAPER_RGB = (196, 232, 192)
INK_RGB = (12, 78, 40)


@dataclass(frozen=True, slots=True)
class Marker:
    """A square marker: its number in the dictionary and its middle on the sheet [mm]; its top points to +y."""

    number: int
    x_mm: float
    y_mm: float

    def corners_mm(self, side_mm: float) -> tuple[tuple[float, float], ...]:
        """Its corners from the upper left, clockwise as it is read [mm].

        Parameters
        ----------
        side_mm : of all markers of the sheet [mm].
        """
        half, x, y = side_mm / 2, self.x_mm, self.y_mm
        return ((x - half, y + half), (x + half, y + half), (x + half, y - half), (x - half, y - half))


@dataclass(frozen=True, slots=True)
class PhotoSheet:
    """A sheet: its size, its markers and their side, the clear middle for the piece and the bar to be measured [mm].

    `middle_mm` : breadth (x) and length (y) of the clear middle, about the sheet's own middle, bar left out.
    `bar_mm` : the bar's two ends, the nearer to the front first; it lies along y, inside the right row of markers.
    """

    size: SheetSize
    side_mm: float
    markers: tuple[Marker, ...]
    middle_mm: tuple[float, float]
    bar_mm: tuple[tuple[float, float], tuple[float, float]]

    @property
    def numbers(self) -> range:
        """The numbers that only this size of sheet has."""
        first = self.markers[0].number
        return range(first, first + COUNT)


@lru_cache(maxsize=len(SheetSize))
def photo_sheet(size: SheetSize) -> PhotoSheet:
    """The sheet of a size as it is printed, true to scale.

    Parameters
    ----------
    size : of the whole sheet, tiles put together.

    >>> sheet = photo_sheet(SheetSize.A4)
    >>> len(sheet.markers), round(sheet.side_mm, 1), [round(side) for side in sheet.middle_mm]
    (24, 25.1, [124, 217])
    """
    wide, long = size.breadth_mm - 2 * MARGIN_MM, size.length_mm - 2 * MARGIN_MM
    side = round(min(wide / (ACROSS + GAP_SHARE * (ACROSS - 1)), long / (ALONG + GAP_SHARE * (ALONG - 1))), 1)
    first = COUNT * list(SheetSize).index(size)
    markers = tuple(Marker(first + n, x, y) for n, (x, y) in enumerate(_round(wide - side, long - side)))
    edge = wide / 2 - side - BAR_GAP_MM
    bar = (edge, -BAR_MM / 2), (edge, BAR_MM / 2)
    return PhotoSheet(size, side, markers, (2 * (edge - BAR_GAP_MM), long - 2 * side - 2 * BAR_GAP_MM), bar)


def _round(wide: float, long: float) -> Iterator[tuple[float, float]]:
    """Middles of the markers round the sheet, from the front left corner, counterclockwise."""
    x, y = wide / 2, long / 2
    for n in range(ACROSS - 1):
        yield -x + wide * n / (ACROSS - 1), -y
    for n in range(ALONG - 1):
        yield x, -y + long * n / (ALONG - 1)
    for n in range(ACROSS - 1):
        yield x - wide * n / (ACROSS - 1), y
    for n in range(ALONG - 1):
        yield -x, y - long * n / (ALONG - 1)
