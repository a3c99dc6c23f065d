"""The printed sheet that a piece stands on for its photographs, as shapes: markers, middle, bar, and how pages join."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace
from functools import lru_cache
from typing import Any

import cv2
import shapely

from moldwright.photos.sheet.layout import BAR_MM, INK_RGB, PAPER_RGB, Marker, PhotoSheet, photo_sheet
from moldwright.photos.sheet.pages import SheetPage, sheet_pages
from moldwright.photos.sheet.sizes import SheetSize
from moldwright.sheets.joined_pages import joints
from moldwright.sheets.photo_words import photo_words
from moldwright.sheets.shapes import Anchor, Area, Disc, Line, Note, Place, Shape, Wire, box, shape_data

CELLS = 6
"""Cells along a marker's side, its dark border counted in: four of the pattern and one on either side."""
FINE_RGB = (144, 177, 143)
"""Lines of the middle: paper and ink mixed half and half in linear light, whose color is all but the paper's own, so
that no line beside a piece's foot is taken for it."""
FINE_MM, BAR_CELL_MM, BAR_WIDE_MM, END_MM = 0.25, 10.0, 2.0, 0.3
TURN_DEG, NAMED_DEG, TICK_MM = 15, 45, 4.0
"""A tick for each photo of a ring of 24; how long it is."""
RING_STEP_MM = 50.0
WORDS_PT, NAME_PT = 8.0, 13.0
NEAR_MM = 1e-6


def sheet_data(size: SheetSize, paper: SheetSize) -> list[dict[str, Any]]:
    """The pages of a sheet as the form prints them.

    Parameters
    ----------
    size : of the sheet.
    paper : what it is printed on.
    """
    pages = sheet_pages(size, paper)
    return [
        {"wide": page.wide_mm, "tall": page.tall_mm, "shapes": [shape_data(s) for s in page_shapes(size, page)]}
        for page in pages
    ]


def page_shapes(size: SheetSize, page: SheetPage) -> list[Shape]:
    """What one page shows, from its upper left corner [mm].

    Parameters
    ----------
    size : of the sheet.
    page : one of its pages.
    """
    sheet = photo_sheet(size)
    shapes = [*_middle(sheet), *_bar(sheet), *_names(sheet, page), *joints(sheet, page)]
    shapes += [shape for marker in sheet.markers for shape in _marker(marker, sheet.side_mm)]
    return [_on(page, shape) for shape in shapes if _shown(page, shape)]


def _shown(page: SheetPage, shape: Shape) -> bool:
    """Texts and markers stand on one page only; lines run on to where a page is cut or covered."""
    if isinstance(shape, Note):
        return page.has(shape.at)
    return not isinstance(shape, Area) or any(page.has(at) for ring in shape.rings for at in ring)


def _on(page: SheetPage, shape: Shape) -> Shape:
    match shape:
        case Area():
            return replace(shape, rings=tuple(tuple(map(page.down, ring)) for ring in shape.rings))
        case Wire():
            return replace(shape, points=tuple(map(page.down, shape.points)))
        case Disc():
            return replace(shape, middle=page.down(shape.middle))
        case Note():
            return replace(shape, at=page.down(shape.at))


@lru_cache(maxsize=256)
def _light(number: int) -> tuple[tuple[Line, ...], ...]:
    """The light parts of a marker, each its outer ring and the rings of its holes, in cells from the upper left."""
    dictionary = cv2.aruco.getPredefinedDictionary(cv2.aruco.DICT_4X4_250)
    cells = dictionary.generateImageMarker(number, CELLS) > 127
    light = shapely.union_all([shapely.box(c, r, c + 1, r + 1) for r, c in zip(*cells.nonzero(), strict=True)])
    parts = getattr(light, "geoms", [light])
    return tuple(tuple(_ring(ring) for ring in (part.exterior, *part.interiors)) for part in parts)


def _ring(ring: shapely.LinearRing) -> Line:
    return tuple((float(x), float(y)) for x, y in list(ring.coords)[:-1])


def _marker(marker: Marker, side_mm: float) -> Iterator[Shape]:
    yield Area((marker.corners_mm(side_mm),), INK_RGB)
    cell, (left, top) = side_mm / CELLS, marker.corners_mm(side_mm)[0]
    for part in _light(marker.number):
        yield Area(tuple(tuple((left + x * cell, top - y * cell) for x, y in ring) for ring in part), PAPER_RGB)


def _middle(sheet: PhotoSheet) -> Iterator[Shape]:
    """A cross, rings every 50 mm across, and a tick for each photo of a ring."""
    wide, long = sheet.middle_mm
    reach = 2 * RING_STEP_MM
    across, along = min(wide / 2 - 14.0, reach), min(long / 2 - 26.0, reach)
    yield Wire(((-across, 0.0), (across, 0.0)), FINE_MM, FINE_RGB)
    yield Wire(((0.0, -along), (0.0, along)), FINE_MM, FINE_RGB)
    for n in range(1, int((wide - 24.0) // RING_STEP_MM) + 1):
        radius = n * RING_STEP_MM / 2
        yield Disc((0.0, 0.0), radius, FINE_MM, FINE_RGB)
        yield _note((radius * math.sqrt(0.5), radius * math.sqrt(0.5)), f"{2 * radius:.0f}", 6.5)
    for deg in range(0, 360, TURN_DEG):
        yield Wire((edge_of(sheet, deg, 0.0), edge_of(sheet, deg, TICK_MM)), FINE_MM, FINE_RGB)


def edge_of(sheet: PhotoSheet, deg: float, inside_mm: float) -> Place:
    """Where a way from the middle meets the edge of the clear middle, or a little before it [mm].

    Parameters
    ----------
    sheet : the sheet.
    deg : the way, from the front clockwise as seen from above.
    inside_mm : how much before the edge [mm].
    """
    x, y = -math.sin(math.radians(deg)), -math.cos(math.radians(deg))
    wide, long = sheet.middle_mm
    far = min(wide / 2 / abs(x) if abs(x) > 1e-9 else math.inf, long / 2 / abs(y) if abs(y) > 1e-9 else math.inf)
    return x * (far - inside_mm), y * (far - inside_mm)


def _bar(sheet: PhotoSheet) -> Iterator[Shape]:
    """The bar that proves the print: cells of 10 mm, its ends the outer edges of two long marks."""
    (x, low), (_, high) = sheet.bar_mm
    half = BAR_WIDE_MM / 2
    for k in range(round(BAR_MM / BAR_CELL_MM)):
        left = x - half * (1 + k % 2)
        bottom = low + k * BAR_CELL_MM
        yield Area((box(left, bottom + BAR_CELL_MM, left + half, bottom),), INK_RGB)
    for end, inner in ((low, low + END_MM), (high, high - END_MM)):
        yield Area((box(x - 2.5 * BAR_WIDE_MM, end, x, inner),), INK_RGB)


def _names(sheet: PhotoSheet, page: SheetPage) -> Iterator[Shape]:
    """What the sheet says: its sides, the degrees, what the bar is for and which sheet it is."""
    words = photo_words()["sheet"]
    for deg in range(0, 360, NAMED_DEG):
        x, y = edge_of(sheet, deg, TICK_MM + 4.0)
        yield _note((x + _off_joint(x, page.columns, 5.0), y + _off_joint(y, page.rows, 4.0)), f"{deg}°")
    yield from _sides(sheet, page)
    x, high = sheet.bar_mm[1]
    yield _note((x - BAR_WIDE_MM / 2, high + 2.0), words["bar"], side=Anchor.LEFT, bold=True, turned_deg=-90.0)
    middle = 0.0 if page.columns == 1 else -sheet.middle_mm[0] / 4
    front = -sheet.middle_mm[1] / 2
    yield _note((middle, front + 22.0), words["which"].format(name=words["size"][sheet.size]), bold=True)
    yield _note((middle, front + 18.0), words["stand"])


def _sides(sheet: PhotoSheet, page: SheetPage) -> Iterator[Shape]:
    """The names of the sheet's four sides; those of the left and right stand beside the cross."""
    words = photo_words()["sheet"]
    for deg, name, turned in ((0, "front", 0.0), (90, "left", 90.0), (180, "back", 0.0), (270, "right", -90.0)):
        x, y = edge_of(sheet, deg, TICK_MM + 9.0)
        at = (x + _off_joint(x, page.columns, 14.0), y + (14.0 if abs(y) < NEAR_MM else 0.0))
        yield _note(at, words[name], NAME_PT, bold=True, turned_deg=turned)


def _off_joint(along_mm: float, pages: int, by_mm: float) -> float:
    """How far a text is moved that would stand on a joint [mm]."""
    return by_mm if pages > 1 and abs(along_mm) < NEAR_MM else 0.0


def _note(at: Place, text: str, size_pt: float = WORDS_PT, **more: Any) -> Note:
    return Note(at, text, size_pt, color=INK_RGB, ground=PAPER_RGB, **more)
