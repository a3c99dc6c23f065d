"""The place where no plan gets past, as a picture: the piece as it stands, and cut open there, its height beside."""

from __future__ import annotations

import math

import fontpkg_atkinson_hyperlegible as font
import numpy as np
from PIL import Image, ImageDraw, ImageFont

from moldwright.errors import ComputationFailed
from moldwright.found_at import FoundAt
from moldwright.geometry.mesh import Mesh
from moldwright.geometry.solid import mesh_of, solid_of
from moldwright.plan.seam import AZIMUTH_DEG, ViewSide
from moldwright.sheets.camera import Camera, Floats, Floats32, camera_around, directions
from moldwright.sheets.look_picture import SMOOTH_FROM
from moldwright.sheets.pictures import ORIGINAL
from moldwright.sheets.scene import Scene, look
from moldwright.sheets.shading import channels, paint, size_px, to_png
from moldwright.units import show_length
from moldwright.units.system import UnitSystem

CUT = "#e8c48a"
INK, WHITE, RING = (16, 32, 28), (255, 255, 255), (176, 28, 28)
LONGEST_PX, LETTER_PX, EDGE_PX = 560, 40, 60
"""The longer side of one view; letters and margins at twice the size [px]."""
ELEVATION_DEG, TURNED_DEG = 14.0, 90.0
"""The outside is seen a little from above; the cut holds the way in to the place, and is seen square to it."""
LEAST_RING_SHARE, RING_SHARE = 0.05, 0.55
"""A ring's half width: at least so much of the view, else so much of what it rings."""
AHEAD_MM = 1e-4


def place_picture(place: FoundAt, units: UnitSystem) -> bytes | None:
    """PNG bytes of a place of a piece; None where the body is not known. No word is on it, only figures.

    Left the piece as one sees it who looks for the place; right cut open through the place from top to bottom. A ring
    is round the place on both, and its height over the board is beside the cut.

    Parameters
    ----------
    place : where, and the body it is on.
    units : in which its height is written.
    """
    if place.body is None:
        return None
    body = Mesh(np.asarray(place.body.vertices, np.float64), np.asarray(place.body.faces, np.int32))
    azimuth = AZIMUTH_DEG[ViewSide(place.side)] if place.side else 0.0
    panels = [_outside(body, place, azimuth)]
    cut = _half(body, place, azimuth + TURNED_DEG)
    if cut is not None:
        panels.append(_cut_open(cut, body, place, azimuth + TURNED_DEG, units))
    sheet = Image.new("RGB", (sum(panel.width for panel in panels), max(panel.height for panel in panels)), WHITE)
    left = 0
    for panel in panels:
        sheet.paste(panel, (left, sheet.height - panel.height))
        left += panel.width
    return to_png(np.asarray(sheet, dtype=np.float32))


def _outside(body: Mesh, place: FoundAt, azimuth: float) -> Image.Image:
    camera = camera_around([body], azimuth, ELEVATION_DEG)
    width, height = (2 * side for side in size_px(camera, LONGEST_PX))
    picture = paint(
        look(Scene([body], smooth=len(body.faces) >= SMOOTH_FROM), camera, width, height), camera, [channels(ORIGINAL)]
    )
    return _framed(picture, camera, place, "")


def _cut_open(half: Mesh, body: Mesh, place: FoundAt, azimuth: float, units: UnitSystem) -> Image.Image:
    camera = camera_around([body], azimuth, 0.0)
    width, height = (2 * side for side in size_px(camera, LONGEST_PX))
    hits = look(Scene([half], smooth=False), camera, width, height)
    at_mm = float((np.array(place.at_mm) - camera.center) @ camera.look) + camera.reach_mm
    on_cut = np.abs(hits.depth_mm - np.float32(at_mm)) < 1e-3 * camera.width_mm
    hits.solid[on_cut] = 1
    picture = paint(hits, camera, [channels(ORIGINAL), channels(CUT)])
    return _framed(picture, camera, place, show_length(max(round(place.height_mm), 0.0), units))


def _half(body: Mesh, place: FoundAt, azimuth: float) -> Mesh | None:
    """What of the body is behind the place, seen from there; None where that is no solid."""
    away, _, _ = directions(azimuth, 0.0)
    try:
        solid = solid_of(body).trim_by_plane(tuple(away), float(np.array(place.at_mm) @ away) + AHEAD_MM)
    except ComputationFailed:
        return None
    return None if solid.is_empty() else mesh_of(solid)


def _framed(picture: Floats32, camera: Camera, place: FoundAt, height: str) -> Image.Image:
    """A view with its ring, and room round it; with a height, a rule from the board up to the place."""
    tall, wide = picture.shape[:2]
    letters = ImageFont.truetype(str(font.ROOT / "files" / "AtkinsonHyperlegible-Regular.ttf"), LETTER_PX)
    beside = EDGE_PX + math.ceil(letters.getlength(height)) if height else 0
    image = Image.new("RGB", (wide + 2 * EDGE_PX + beside, tall + 2 * EDGE_PX), WHITE)
    image.paste(Image.fromarray(np.clip(picture, 0, 255).astype(np.uint8)), (EDGE_PX, EDGE_PX))
    pen = ImageDraw.Draw(image)

    def at(point: Floats) -> tuple[float, float]:
        x, y = camera.shares(point)
        return EDGE_PX + x * wide, EDGE_PX + y * tall

    middle = np.array(place.at_mm)
    x, y = at(middle)
    least = LEAST_RING_SHARE * max(wide, tall)
    radius = min(max(RING_SHARE * place.across_mm / camera.width_mm * wide, least), min(wide, tall) / 2)
    if height:
        board = at(middle * np.array([1.0, 1.0, 0.0]))[1]
        right = EDGE_PX + wide + EDGE_PX // 2
        pen.line([(x + radius, y), (right, y)], fill=INK, width=3)
        pen.line([(EDGE_PX // 2, board), (right + 12, board)], fill=INK, width=3)
        pen.line([(right, y), (right, board)], fill=INK, width=4)
        for tip, way in ((y, 1), (board, -1)):
            pen.polygon([(right, tip), (right - 9, tip + way * 26), (right + 9, tip + way * 26)], fill=INK)
        pen.text((right + 16, (y + board) / 2 - LETTER_PX / 2), height, font=letters, fill=INK)
    for color, thick in ((WHITE, 16), (RING, 9)):
        pen.ellipse([x - radius - thick / 2, y - radius - thick / 2, x + radius + thick / 2, y + radius + thick / 2],
                    outline=color, width=thick)  # fmt: skip
    return image
