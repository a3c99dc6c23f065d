"""Bodies photographed without a renderer: their outlines projected (OpenCV), each pose off as a found one is off.

A view's outline is that of the true pose; the carving is told another, turned at random so that points lie `POSE_PX`
off on the photo (found poses are 0.3 to 0.6 px off: docs/decisions/0040).
"""

from __future__ import annotations

import cv2
import numpy as np
import trimesh
from tests.held_truth import Guessed
from tests.photo_sets.camera import TrueView
from tests.photo_sets.catalog import fitting
from tests.photo_sets.person import answers
from tests.photo_sets.shoot import Shoot, put_down, views_of

from moldwright.photos.hull.settings import HullSettings
from moldwright.photos.hull.solid import hulled
from moldwright.photos.hull.views import Seen
from moldwright.photos.outlines.outline import outline_from
from moldwright.photos.photographed import PhotosAsked
from moldwright.photos.sheet.layout import photo_sheet
from moldwright.photos.view import Lens, View

POSE_PX = 0.4
WIDE_PX = 800
FINER, PARTS = 2, 4
STEPS = 140


def outlined(body: trimesh.Trimesh, seed: int) -> Guessed:
    """Two rings of 24 views and one from above; the likely solid as photos would give it."""
    size = fitting(body)
    sheet = photo_sheet(size)
    how = Shoot(seed=seed, width_px=WIDE_PX, height_px=WIDE_PX * 3 // 4, top=True)
    stood = put_down(body, sheet, np.random.default_rng(seed))
    chance = np.random.default_rng([seed, 9])
    views = views_of(stood, sheet, how, np.random.default_rng([seed, 3]))
    seen = [_seen(stood, view, chance) for view in views]
    settings = HullSettings(steps=STEPS)
    found = hulled(seen, sheet, PhotosAsked(), settings)
    if found.asks:
        found = hulled(seen, sheet, PhotosAsked(bowls=answers(stood, found.asks)), settings)
    return Guessed(stood, found.mesh, found.spread)


def _seen(body: trimesh.Trimesh, view: TrueView, chance: np.random.Generator) -> Seen:
    lens = view.lens
    told = Lens(lens.width_px, lens.height_px, lens.focal_px, lens.center_px, lens.k1, lens.k2, 0.001)
    turn, _ = cv2.Rodrigues(chance.normal(0.0, POSE_PX / lens.focal_px, 3))
    outline = outline_from(covered_share(body, view))
    assert outline is not None
    return Seen(View(view.file, told, turn @ view.rotation, turn @ view.shift_mm, POSE_PX), outline)


def covered_share(body: trimesh.Trimesh, view: TrueView) -> np.ndarray:
    """(rows, columns) share of each pixel that a body covers."""
    px = view.seen_px(np.asarray(body.vertices))
    wide, tall = view.lens.width_px, view.lens.height_px
    picture = np.zeros((tall * FINER, wide * FINER), np.uint8)
    corners = np.round(((px + 0.5) * FINER - 0.5) * 2**PARTS).astype(np.int32)[body.faces]
    for triangle in corners:
        cv2.fillConvexPoly(picture, triangle, 255, shift=PARTS)
    return cv2.resize(picture, (wide, tall), interpolation=cv2.INTER_AREA).astype(np.float32) / 255.0
