"""Which size of sheet a piece needs, and which sizes a paper gives.

The foot must leave room inside the markers, and a tall piece needs markers far apart: what the poses do not know of a
camera's tilt grows with the height over the sheet. On a sheet that holds the piece so, a marker of the far row covers
far more than the ten pixels that it takes (docs/decisions/0036).
"""

from __future__ import annotations

from dataclasses import dataclass

from moldwright.errors import InputRefused
from moldwright.photos.sheet.layout import MARGIN_MM, photo_sheet
from moldwright.photos.sheet.sizes import METRIC, US, SheetSize

ROOM_MM = 8.0
"""Clear room round the piece inside the markers: our own."""
TALLEST_SHARE = 0.8
"""Tallest piece as a share of the sheet's printed length: so a piece of about 220 mm is the tallest for A4."""
JOINED_FROM = {SheetSize.A4: METRIC, SheetSize.LETTER: US}
"""Papers of a desk printer: what they give, alone or joined, smallest first."""


@dataclass(frozen=True, slots=True)
class PieceSize:
    """A piece as it stands: its height, and its greatest breadth and depth seen from above [mm]."""

    height_mm: float
    width_mm: float
    depth_mm: float

    @property
    def across_mm(self) -> tuple[float, float]:
        """The shorter and the longer side seen from above [mm]."""
        return min(self.width_mm, self.depth_mm), max(self.width_mm, self.depth_mm)


def holds(size: SheetSize) -> PieceSize:
    """The largest piece that a sheet holds.

    Parameters
    ----------
    size : of the sheet.

    >>> largest = holds(SheetSize.A4)
    >>> round(largest.height_mm), round(largest.width_mm), round(largest.depth_mm)
    (218, 108, 201)
    """
    wide, long = photo_sheet(size).middle_mm
    tall = TALLEST_SHARE * (size.length_mm - 2 * MARGIN_MM)
    return PieceSize(tall, wide - 2 * ROOM_MM, long - 2 * ROOM_MM)


def sheet_for(piece: PieceSize, paper: SheetSize) -> SheetSize:
    """The smallest sheet that holds a piece; refused where the paper gives none.

    Parameters
    ----------
    piece : as it stands, its longer side to be laid along the sheet.
    paper : what is in the printer; pages of A4 and Letter are joined, every other paper is one sheet.
    """
    sizes = JOINED_FROM.get(paper, (paper,))
    for size in sizes:
        if _fits(piece, holds(size)):
            return size
    most = holds(sizes[-1])
    raise InputRefused("piece-past-sheet", _told(piece), _told(most), "mm", _remedy(piece, paper))


def _fits(piece: PieceSize, most: PieceSize) -> bool:
    short, long = piece.across_mm
    return piece.height_mm <= most.height_mm and short <= most.width_mm and long <= most.depth_mm


def _told(piece: PieceSize) -> str:
    short, long = piece.across_mm
    return f"{piece.height_mm:.0f} tall, {short:.0f} by {long:.0f}"


def _remedy(piece: PieceSize, paper: SheetSize) -> str:
    family = METRIC if paper in METRIC else US
    larger = next((size for size in family if _fits(piece, holds(size))), None)
    if larger is None:
        less = "tell its depth too if that is less than its width"
        return f"No sheet of ours holds it: {less}, have it scanned, or measure it with a tape."
    desk = SheetSize.A4 if paper in METRIC else SheetSize.LETTER
    return f"Use --paper {larger} at a copy shop, or --paper {desk}: its pages are joined, or one suffices."
