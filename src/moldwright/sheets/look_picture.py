"""How a scan will stand on the board, as a picture: seen from the front left, with its height and a scale bar."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import fontpkg_atkinson_hyperlegible as font
import numpy as np
from PIL import Image, ImageDraw, ImageFont

from moldwright.geometry.mesh import Mesh
from moldwright.sheets.camera import Camera, Floats, camera_around
from moldwright.sheets.pictures import ORIGINAL
from moldwright.sheets.scene import Scene, look
from moldwright.sheets.shading import channels, paint, size_px, to_png
from moldwright.units import show_length

BOARD = "#d9c7a5"
INK, WHITE = (16, 32, 28), (255, 255, 255)
AZIMUTH_DEG, ELEVATION_DEG = 30.0, 18.0
BOARD_SHARE, BOARD_LEAST_SHARE, BOARD_THICK_SHARE = 0.14, 0.55, 0.02
PANEL_PX, WAYS_PX = 760, 460
BAR_SHARE = 0.35
NICE = (1.0, 2.0, 5.0)
MOST_ABREAST = 3
SMOOTH_FROM = 5000


@dataclass(frozen=True, slots=True, eq=False)
class Stood:
    """A piece as it stands: z up, the board at z = 0, lengths in mm where `sized`, else in no known unit.

    Parameters
    ----------
    mesh : the piece; what lies below z = 0 is hidden by the board.
    title : what is written over it.
    sized : whether its lengths are known.
    """

    mesh: Mesh
    title: str
    sized: bool = True


def look_picture(pieces: Sequence[Stood]) -> bytes:
    """PNG bytes of one piece as it will stand, or of several ways side by side; the same input gives the same bytes.

    Parameters
    ----------
    pieces : each is drawn as large as its panel allows, with a scale bar of its own.
    """
    longest = PANEL_PX if len(pieces) == 1 else WAYS_PX
    panels = [_panel(piece, longest) for piece in pieces]
    abreast = 2 if len(panels) == 4 else min(len(panels), MOST_ABREAST)
    wide = max(panel.width for panel in panels)
    rows = [panels[at : at + abreast] for at in range(0, len(panels), abreast)]
    tall = [max(panel.height for panel in row) for row in rows]
    sheet = Image.new("RGB", (wide * abreast, sum(tall)), WHITE)
    for number, row in enumerate(rows):
        for place, panel in enumerate(row):
            sheet.paste(panel, (place * wide + (wide - panel.width) // 2, sum(tall[: number + 1]) - panel.height))
    return to_png(np.asarray(sheet, dtype=np.float32))


def _panel(piece: Stood, longest_px: int) -> Image.Image:
    """One piece on its board with title, height and scale bar, at twice the size."""
    above = _above_board(piece.mesh)
    board = _board(*above)
    camera = camera_around([piece.mesh, board] if len(piece.mesh.vertices) else [board], AZIMUTH_DEG, ELEVATION_DEG)
    width, height = (2 * side for side in size_px(camera, longest_px))
    hits = look(Scene([piece.mesh, board], smooth=len(piece.mesh.faces) >= SMOOTH_FROM), camera, width, height)
    picture = np.clip(paint(hits, camera, [channels(ORIGINAL), channels(BOARD)]), 0, 255)
    return _Page(picture.astype(np.uint8), camera, longest_px).finished(piece, *above)


def _above_board(mesh: Mesh) -> tuple[Floats, Floats]:
    """The box of what stands above the board."""
    points = mesh.vertices[mesh.vertices[:, 2] >= 0]
    low, high = points.min(axis=0), points.max(axis=0)
    return np.array([low[0], low[1], 0.0]), high


def _board(low: Floats, high: Floats) -> Mesh:
    """A flat slab under the piece, its upper side at z = 0."""
    size = float((high - low).max())
    least = BOARD_LEAST_SHARE * size
    half = np.maximum((high - low)[:2] / 2 + BOARD_SHARE * size, least / 2)
    middle = (low + high)[:2] / 2
    corners = [(x, y, z) for z in (-BOARD_THICK_SHARE * size, 0.0) for y in (-1, 1) for x in (-1, 1)]
    points = np.array([(middle[0] + x * half[0], middle[1] + y * half[1], z) for x, y, z in corners])
    quads = ((0, 2, 3, 1), (4, 5, 7, 6), (0, 1, 5, 4), (2, 6, 7, 3), (0, 4, 6, 2), (1, 3, 7, 5))
    return Mesh(points, np.array([(q[0], q[k], q[k + 1]) for q in quads for k in (1, 2)], np.int32))


class _Page:
    """A picture with room round it to write on; lengths on it are pixels at twice the size."""

    def __init__(self, picture: np.ndarray[tuple[int, ...], np.dtype[np.uint8]], camera: Camera, longest: int) -> None:
        self._camera = camera
        self._size = picture.shape[1], picture.shape[0]
        self._letter = max(38, longest // 18)
        self._edge = 2 * self._letter
        wide = self._size[0] + 2 * self._edge + 5 * self._letter
        self._image = Image.new("RGB", (wide, self._size[1] + 2 * self._edge + 4 * self._letter), WHITE)
        self._image.paste(Image.fromarray(picture), (self._edge, self._edge + self._letter))
        self._pen = ImageDraw.Draw(self._image)
        self._font = ImageFont.truetype(str(font.ROOT / "files" / "AtkinsonHyperlegible-Regular.ttf"), self._letter)
        self._line = max(4, longest // 150)

    def finished(self, piece: Stood, low: Floats, high: Floats) -> Image.Image:
        """Title, height and scale bar drawn in."""
        self._write(piece.title, self._edge, self._letter // 2)
        self._draw_height(piece, low, high)
        if piece.sized:
            self._draw_bar(high - low)
        return self._image

    def _at(self, point: Floats) -> tuple[float, float]:
        x, y = self._camera.shares(point)
        return self._edge + x * self._size[0], self._edge + self._letter + y * self._size[1]

    def _write(self, text: str, x: float, y: float) -> None:
        self._pen.text((x, y), text, font=self._font, fill=INK)

    def _draw_height(self, piece: Stood, low: Floats, high: Floats) -> None:
        """A measuring line right of the piece from the board's level to the top, with the height beside it."""
        middle = (low + high) / 2
        foot, top = (self._at(np.array([middle[0], middle[1], z])) for z in (0.0, float(high[2])))
        x = self._edge + self._size[0] + self._letter * 0.6
        for y in (foot[1], top[1]):
            self._pen.line([(x - self._letter, y), (x + self._letter * 0.4, y)], fill=INK, width=self._line)
        self._pen.line([(x, foot[1]), (x, top[1])], fill=INK, width=self._line)
        for y, way in ((foot[1], -1), (top[1], 1)):
            tip = self._letter * 0.28
            self._pen.polygon([(x, y), (x - tip, y + way * 2.4 * tip), (x + tip, y + way * 2.4 * tip)], fill=INK)
        text = show_length(float(high[2])) if piece.sized else "height"
        self._write(text, x + self._letter * 0.7, (foot[1] + top[1]) / 2 - self._letter * 0.6)
        self._write("board", x + self._letter * 0.7, foot[1] - self._letter * 0.6)

    def _draw_bar(self, size: Floats) -> None:
        """A bar of a round length below the picture, as long as it is across the picture."""
        bar_mm = round_length(BAR_SHARE * float(size.max()))
        length = bar_mm / self._camera.width_mm * self._size[0]
        x, y = self._edge, self._edge + self._size[1] + 2.2 * self._letter
        thick = self._letter * 0.35
        self._pen.rectangle([x, y, x + length, y + thick], fill=INK)
        self._pen.rectangle(
            [x + length / 2, y + self._line, x + length - self._line, y + thick - self._line], fill=WHITE
        )
        self._write(show_length(bar_mm), x + length + self._letter * 0.5, y - self._letter * 0.5)


def round_length(length_mm: float) -> float:
    """The largest of 1, 2 or 5 times a power of ten that is not longer [mm].

    Parameters
    ----------
    length_mm : above 0 [mm].

    >>> round_length(48.0), round_length(0.6), round_length(200.0)
    (20.0, 0.5, 200.0)
    """
    power = 10.0 ** math.floor(math.log10(length_mm))
    return max(nice * power for nice in NICE if nice * power <= length_mm * (1 + 1e-9))
