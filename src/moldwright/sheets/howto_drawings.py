"""The drawings of the page that tells how to photograph: from the side, from above, and four photos."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import Any

import numpy as np
import shapely

from moldwright.photos.sheet.layout import INK_RGB, PAPER_RGB, photo_sheet
from moldwright.photos.sheet.sizes import SheetSize
from moldwright.sheets.howto_scene import TOP_MM, Floats, Project, figure, from_eye, sheet_seen
from moldwright.sheets.photo_words import photo_words
from moldwright.sheets.shapes import BLACK, WHITE, Anchor, Area, Color, Disc, Line, Note, Place, Shape, Wire, box
from moldwright.sheets.shapes import shape_data as data_of

LOW_DEG, HIGH_DEG = 20.0, 50.0
"""Height of the two rings of photos over the table, seen from the piece."""
RING = 24
WORDS_PT, LINE_MM, THICK_MM = 11.0, 0.3, 0.7
GRAY: Color = (110, 110, 110)
SIDE_MM, PLAN_MM, PHOTO_MM = (93.0, 75.0), (93.0, 75.0), (45.0, 33.0)
SIDE_SCALE, PLAN_SCALE = 0.2, 0.145
BAR_MM, BAR_SCALE, READ_MM = (84.0, 16.0), 0.75, 99.6
"""The drawing of the bar under a rule, and what it reads there."""
TABLE_MM, PIECE_MM = 68.0, 53.0
"""On the drawing from the side: how far down the table lies, how far right the piece stands."""


def howto_drawings() -> dict[str, Any]:
    """The drawings as the form draws them: "side", "plan", "bar" and four "photos"."""
    return {
        "side": _data(SIDE_MM, _side()),
        "plan": _data(PLAN_MM, _plan()),
        "bar": _data(BAR_MM, _bar()),
        "photos": [_data(PHOTO_MM, shapes) for shapes in _photos()],
    }


def _data(size_mm: Place, shapes: Iterator[Shape]) -> dict[str, Any]:
    return {"wide": size_mm[0], "tall": size_mm[1], "shapes": [data_of(shape) for shape in shapes]}


def _side() -> Iterator[Shape]:
    """From the side: the piece on sheet and board before its backdrop, the phone at three heights."""
    words = photo_words()["drawn"]
    wide, _ = SIDE_MM
    sheet = photo_sheet(SheetSize.A4).size.length_mm / 2 * SIDE_SCALE

    def project(points: Floats) -> Floats:
        return np.column_stack([PIECE_MM + SIDE_SCALE * points[:, 1], TABLE_MM - 2.4 - SIDE_SCALE * points[:, 2]])

    yield from _backdrop()
    yield Wire(((0.0, TABLE_MM), (wide, TABLE_MM)), THICK_MM)
    yield Area((box(PIECE_MM - sheet - 1, TABLE_MM - 1.8, PIECE_MM + sheet + 1, TABLE_MM),), GRAY)
    yield Area((box(PIECE_MM - sheet, TABLE_MM - 2.4, PIECE_MM + sheet, TABLE_MM - 1.8),), INK_RGB)
    middle = (PIECE_MM, TABLE_MM - 2.4 - SIDE_SCALE * TOP_MM / 2)
    for deg, far in ((LOW_DEG, 47.0), (HIGH_DEG, 47.0), (90.0, 44.0)):
        at = _toward(middle, 180.0 - deg, far)
        yield Wire((middle, at), LINE_MM, GRAY, dashed=True)
        yield from _phone(at, deg)
    yield Wire((middle, _toward(middle, 180.0, 47.0)), 0.2, GRAY)
    for deg, far in ((LOW_DEG, 34.0), (HIGH_DEG, 24.0)):
        yield Wire(tuple(_toward(middle, 180.0 - turn, far) for turn in np.linspace(0, deg, 20)), 0.2, GRAY)
    yield from figure(project)
    yield Note(_toward(middle, 170.0, 28.5), f"{LOW_DEG:.0f}°", WORDS_PT, ground=WHITE)
    yield Note(_toward(middle, 152.0, 19.5), f"{HIGH_DEG:.0f}°", WORDS_PT, ground=WHITE)
    yield Note((0.0, 22.8), words["low"], WORDS_PT, Anchor.LEFT)
    yield Note((0.0, 9.0), words["high"], WORDS_PT, Anchor.LEFT)
    yield Note((60.0, 4.5), words["above"], WORDS_PT, Anchor.LEFT)
    yield Note((PIECE_MM + 33.5, 37.0), words["backdrop"], WORDS_PT, turned_deg=-90.0)
    yield Note((PIECE_MM, TABLE_MM + 4.5), words["board"], WORDS_PT)


def _backdrop() -> Iterator[Shape]:
    """A cloth that comes down behind the piece and lies under it."""
    right, bend = SIDE_MM[0] - 1.0, 16.0
    turn = [_toward((right - bend, TABLE_MM - bend), deg, bend) for deg in np.linspace(-90, 0, 16)]
    path = ((6.0, TABLE_MM - 0.6), *((x, y - 0.6) for x, y in turn), (right, 10.0))
    yield Wire(path, 1.8, INK_RGB)
    yield Wire(path, 1.2, PAPER_RGB)


def _phone(at: Place, deg: float, long_mm: float = 8.0, thick_mm: float = 1.8) -> Iterator[Shape]:
    """A phone seen from its edge, square to the way that it looks."""
    along, away = math.radians(90.0 + deg), math.radians(deg)
    u = (math.cos(along) * -1, -math.sin(along))
    v = (-math.cos(away), -math.sin(away))
    half = long_mm / 2
    corners = ((-half, 0.0), (half, 0.0), (half, thick_mm), (-half, thick_mm))
    yield Area((tuple((at[0] + a * u[0] + b * v[0], at[1] + a * u[1] + b * v[1]) for a, b in corners),), BLACK)


def _plan() -> Iterator[Shape]:
    """From above: the sheet, a photo at each of its ticks, and a light on either side."""
    words = photo_words()["drawn"]
    middle = (PLAN_MM[0] / 2, PLAN_MM[1] / 2 - 1.0)

    def project(points: Floats) -> Floats:
        return np.column_stack([middle[0] + PLAN_SCALE * points[:, 0], middle[1] - PLAN_SCALE * points[:, 1]])

    ring = 31.5
    yield Disc(middle, ring, 0.2, GRAY)
    yield from sheet_seen(photo_sheet(SheetSize.A4), project)
    yield from figure(project)
    for n in range(RING):
        turn = 270.0 + n * 360.0 / RING
        yield from _phone(_toward(middle, turn, ring), 180.0 - turn, 5.0, 1.6)
    for side in (-1, 1):
        yield from _light((middle[0] + side * (ring + 10.6), middle[1] - 14.0), -side)
    yield Note((middle[0], middle[1] + ring + 5.2), words["ring"], WORDS_PT)
    yield Note((0.0, middle[1] + 4.0), words["light"], WORDS_PT, Anchor.LEFT)
    yield Note((PLAN_MM[0], middle[1] + 4.0), words["light"], WORDS_PT, Anchor.RIGHT)


def _light(at: Place, way: int) -> Iterator[Shape]:
    """A lamp behind a cloth that makes its light soft."""
    x, y = at
    yield Disc((x, y), 2.2, LINE_MM, fill=WHITE)
    for deg in range(0, 360, 45):
        yield Wire((_toward(at, deg, 2.9), _toward(at, deg, 4.0)), LINE_MM)
    cloth = x + way * 5.6
    yield Wire(tuple((cloth + 0.6 * math.sin(2.4 * k), y - 9.0 + k) for k in np.linspace(0, 18, 40)), 0.5, GRAY)


def _bar() -> Iterator[Shape]:
    """The bar of a print under a steel rule."""
    left, read = 3.0, 3.0 + BAR_SCALE * READ_MM
    for k in range(10):
        near, far = (left + BAR_SCALE * READ_MM * share / 10 for share in (k, k + 1))
        yield Area((box(near, 2.0 + k % 2, far, 3.0 + k % 2),), INK_RGB)
    for near, far in ((left, left + 0.4), (read - 0.4, read)):
        yield Area((box(near, 1.0, far, 5.0),), INK_RGB)
    yield Wire(((left - 2.5, 5.6), (BAR_MM[0] - 1.0, 5.6), (BAR_MM[0] - 1.0, 15.5), (left - 2.5, 15.5)), LINE_MM)
    for k in range(103):
        x = left + BAR_SCALE * k
        yield Wire(((x, 5.6), (x, 8.6 if k % 10 == 0 else 7.6 if k % 5 == 0 else 6.8)), 0.12)
    for k in range(0, 101, 20):
        yield Note((left + BAR_SCALE * k, 12.2), f"{k}", WORDS_PT, Anchor.RIGHT if k == 100 else Anchor.MIDDLE)


def _photos() -> Iterator[Iterator[Shape]]:
    """A good photo and three that are dropped."""
    aim = np.array([0.0, 0.0, 52.0])
    eye = aim + 520.0 * np.array([-0.42, -0.84, 0.40])
    middle = (PHOTO_MM[0] / 2, PHOTO_MM[1] / 2)
    yield _photo([from_eye(eye, aim, 70.0, (middle[0] + 0.5, middle[1] - 0.5))], True)
    yield _photo([from_eye(eye, aim, 78.0, (middle[0] + 1.0, middle[1] - 11.0))], False)
    yield _photo([from_eye(eye, aim, 150.0, (middle[0], middle[1] - 1.0))], False)
    shaken = [from_eye(eye, aim, 78.0, (middle[0] + k, middle[1] + 0.5 - 0.6 * k)) for k in (-1.2, 0.0, 1.2)]
    yield _photo(shaken, False)


def _photo(views: Sequence[Project], good: bool) -> Iterator[Shape]:
    wide, tall = PHOTO_MM
    frame = box(0.2, 0.2, wide - 0.2, tall - 0.2)
    window = shapely.Polygon(frame)
    yield Area((frame,), (232, 244, 230))
    for project in views:
        shapes = [*sheet_seen(photo_sheet(SheetSize.A4), project, window), *figure(project, window)]
        yield from (shapes if len(views) == 1 else _pale(shapes))
    yield Wire((*frame, frame[0]), THICK_MM if good else LINE_MM)
    yield from _mark(good, (wide - 4.6, 4.4))


def _pale(shapes: Sequence[Shape]) -> Iterator[Shape]:
    """One of several ghosts: nearly as light as the ground, without its edge."""
    for shape in shapes:
        if isinstance(shape, Area) and shape.fill != PAPER_RGB:
            red, green, blue = ((value + 2 * ground) // 3 for value, ground in zip(shape.fill, PAPER_RGB, strict=True))
            yield replace(shape, fill=(red, green, blue))


def _mark(good: bool, at: Place) -> Iterator[Shape]:
    """A tick, or a cross."""
    x, y = at
    yield Disc(at, 3.2, LINE_MM, fill=WHITE)
    if good:
        yield Wire(((x - 1.7, y + 0.1), (x - 0.5, y + 1.4), (x + 1.8, y - 1.5)), THICK_MM)
    else:
        arms: tuple[Line, ...] = (((x - 1.4, y - 1.4), (x + 1.4, y + 1.4)), ((x - 1.4, y + 1.4), (x + 1.4, y - 1.4)))
        yield from (Wire(arm, THICK_MM) for arm in arms)


def _toward(at: Place, deg: float, far_mm: float) -> Place:
    """A place some way off, counterclockwise from the right as it is drawn."""
    return at[0] + far_mm * math.cos(math.radians(deg)), at[1] - far_mm * math.sin(math.radians(deg))
