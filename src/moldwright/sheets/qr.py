"""A square code as shapes: printed as one drawn area, never as dots of a picture."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import segno
import shapely

from moldwright.sheets.shapes import BLACK, Area, Line, Place, shape_data

QUIET = 4
"""Light modules all round (ISO/IEC 18004, 6.3.8; from memory)."""
LEAST_MODULE_MM = 0.33
"""Smallest module that is printed [mm]: common practice for a telephone's camera and a plain printer, no source."""
LEVEL = "M"
"""Least level of error correction: 15 % of the code may be stained (ISO/IEC 18004, 6.5.1; from memory)."""


@dataclass(frozen=True, slots=True)
class QrCode:
    """A square code: what it holds, and its modules row by row, True for dark, without what is left light around."""

    text: str
    level: str
    cells: tuple[tuple[bool, ...], ...]

    @property
    def across(self) -> int:
        """Modules along a side."""
        return len(self.cells)

    @property
    def across_with_quiet(self) -> int:
        """Modules along a side, those counted in that are left light on both."""
        return self.across + 2 * QUIET


def qr_code(text: str) -> QrCode:
    """The smallest code that holds a text; where it has room it is made to bear more stains.

    Parameters
    ----------
    text : what a reader gets.
    """
    made = segno.make(text, error=LEVEL, micro=False, boost_error=True)
    return QrCode(text, str(made.error), tuple(tuple(bool(cell) for cell in row) for row in made.matrix))


def qr_area(code: QrCode, module_mm: float, at: Place = (0.0, 0.0)) -> Area:
    """The dark of a code as one area without seams.

    Parameters
    ----------
    code : the code.
    module_mm : side of a module [mm].
    at : upper left corner of the first module, which is dark [mm].
    """
    dark = [(row, column) for row, cells in enumerate(code.cells) for column, cell in enumerate(cells) if cell]
    joined = shapely.union_all([shapely.box(c, r, c + 1, r + 1) for r, c in dark])
    parts = getattr(joined, "geoms", [joined])
    rings = [ring for part in parts for ring in (part.exterior, *part.interiors)]
    return Area(tuple(_ring(ring, module_mm, at) for ring in rings), BLACK)


def qr_data(code: QrCode, module_mm: float, at: Place = (0.0, 0.0)) -> dict[str, Any]:
    """What the form draws, and tells to who does not see it.

    Parameters
    ----------
    code : the code.
    module_mm : side of a module [mm].
    at : upper left corner of the first module [mm].
    """
    return {
        "at": list(at), "side": code.across * module_mm, "alt": f"Code to scan: {code.text}",
        "shape": shape_data(qr_area(code, module_mm)),
    }  # fmt: skip


def _ring(ring: shapely.LinearRing, module_mm: float, at: Place) -> Line:
    left, top = at
    corners = list(ring.coords)[:-1]
    return tuple((left + x * module_mm, top + y * module_mm) for x, y in corners)
