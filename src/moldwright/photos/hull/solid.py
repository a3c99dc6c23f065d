"""From outlines to the likely solid and how well it stands for the piece."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
from scipy import ndimage

from moldwright.errors import InputRefused
from moldwright.geometry.field import Sampled
from moldwright.geometry.grid import Grid
from moldwright.geometry.level import body_at, body_of_volume, lowered
from moldwright.geometry.mesh import Mesh
from moldwright.photos.ask import Ask
from moldwright.photos.hull.agree import Agreeing, agreeing
from moldwright.photos.hull.bowl import bowls
from moldwright.photos.hull.box import refined, standing_box
from moldwright.photos.hull.carve import carved
from moldwright.photos.hull.dig import answered, dug, less_bowls, lost_ml
from moldwright.photos.hull.likely import REFINED, Likely, likely_volume
from moldwright.photos.hull.settings import HullSettings
from moldwright.photos.hull.spread import spread_of
from moldwright.photos.hull.tunnels import without_tunnels
from moldwright.photos.hull.views import FlatViews, Seen, flat_views
from moldwright.photos.photographed import HullWarning, PhotosAsked
from moldwright.photos.refine.looks import Grays, flat_grays
from moldwright.photos.refine.recess import recessed
from moldwright.photos.refine.settings import RefineSettings
from moldwright.photos.sheet.layout import PhotoSheet
from moldwright.photos.told import PhotoTold
from moldwright.progress import Progress, silent
from moldwright.ranges import Range, Spread

BAND_STEPS = 5.0
SPARE_REACH = 1.5
RING_SHARES = (10, 90)
TALL = 1.5
UNSTEADY = 0.05
FEW_LEFT = "Take photos until at least this many are used: two rings of 24, the low one and the high one."
TWO_PIECES = "Stand one piece alone on the sheet; photograph the other by itself."


@dataclass(frozen=True, slots=True, eq=False)
class Hulled:
    """The likely solid, how well it stands for the piece, the strangers among the photos, warnings and questions."""

    mesh: Mesh
    step_mm: float
    spread: Spread
    photos_ml: Range
    hull_ml: float
    told: tuple[PhotoTold, ...]
    warnings: tuple[tuple[HullWarning, float], ...]
    asks: tuple[Ask, ...]


def hulled(
    seen: Sequence[Seen],
    sheet: PhotoSheet,
    asked: PhotosAsked,
    settings: HullSettings,
    progress: Progress = silent,
) -> Hulled:
    """The likely solid from outlines, and from speckles where all photos have gray levels and the piece has speckles.

    Parameters
    ----------
    seen : photos with pose and outline.
    sheet : that the piece stands on.
    asked : the likely volume where something better told it, and the bowls that the maker told.
    settings : figures.
    progress : told how far it is; may raise to cancel.

    Raises InputRefused where too few photos agree, or two pieces stand on the sheet. Source: our own,
    docs/decisions/0040.
    """
    _enough(len(seen), settings)
    views = flat_views(seen)
    box = _first_box(views, sheet, settings, progress)
    agreed = agreeing(views, [one.view.file for one in seen], box, settings, progress)
    _enough(len(agreed.kept), settings)
    order = _round_rings([seen[n] for n in agreed.kept])
    chosen = views.only(agreed.kept)
    box = standing_box(chosen, *_room(sheet, settings), progress=progress)
    coarse = refined(box, _step_mm(box, settings, settings.compare_steps))
    likely = likely_volume(chosen, order, coarse, progress)
    return _solid(chosen, flat_grays(seen), box, likely, agreed, sheet, asked, settings, progress)


def _solid(
    views: FlatViews, gray: Grays | None, box: Grid, likely: Likely, agreed: Agreeing, sheet: PhotoSheet,
    asked: PhotosAsked, settings: HullSettings, progress: Progress,
) -> Hulled:  # fmt: skip
    step = _step_mm(box, settings, settings.steps)
    band = BAND_STEPS * step
    field = carved(views, refined(box, step), band, progress)
    hull = _one_piece(field, settings)
    band, field = _wide_enough(views, field, hull, asked, band, progress)
    base, field, likely, clear = _refined(hull, field, views, gray, likely, band, progress)
    told, opened = answered(bowls(base, step), asked.bowls)
    lost = lost_ml(field, told)
    photos_ml = less_bowls(likely.of_hull * base.volume_ml, lost, told, opened)
    wanted = (asked.volume_ml or photos_ml.likely) * 1000.0
    outer = without_tunnels(lowered(field, wanted + 1000.0 * lost))
    mesh = body_of_volume(dug(outer, told), wanted, band)
    return Hulled(
        mesh=mesh,
        step_mm=step,
        spread=spread_of(likely, base, photos_ml, opened),
        photos_ml=photos_ml,
        hull_ml=hull.volume_ml - lost,
        told=agreed.told,
        warnings=_warnings(hull, sheet, likely, clear),
        asks=opened,
    )


def _wide_enough(
    views: FlatViews, field: Sampled, hull: Mesh, asked: PhotosAsked, band: float, progress: Progress
) -> tuple[float, Sampled]:
    """The field in a band that reaches the level of the volume that is asked for."""
    if asked.volume_ml is None:
        return band, field
    far = SPARE_REACH * abs(asked.volume_ml * 1000.0 - hull.volume_mm3) / hull.area_mm2
    return (band, field) if far <= band else (far, carved(views, field.grid, far, progress))


def _refined(
    hull: Mesh, field: Sampled, views: FlatViews, gray: Grays | None, likely: Likely, band: float, progress: Progress
) -> tuple[Mesh, Sampled, Likely, float | None]:
    """The hull with the recesses that speckles tell, where there are enough; how many points match clearly."""
    if gray is None:
        return hull, field, likely, None
    found = recessed(hull, field, views, gray, band, RefineSettings(), progress)
    if found.field is None:
        return hull, field, likely, found.clear_share
    return body_at(found.field), found.field, replace(likely, of_hull=REFINED, refined=True), found.clear_share


def _enough(count: int, settings: HullSettings) -> None:
    if count < settings.least_photos:
        raise InputRefused("few-photos-left", count, settings.least_photos, "photos", FEW_LEFT)


def _room(sheet: PhotoSheet, settings: HullSettings) -> tuple[tuple[float, float], float]:
    """How far the piece may reach from the sheet's middle, and how high [mm]."""
    size = sheet.size
    return (size.breadth_mm, size.length_mm), settings.top_sides * size.length_mm


def _first_box(views: FlatViews, sheet: PhotoSheet, settings: HullSettings, progress: Progress) -> Grid:
    """A box about the piece even where a few photos are strangers."""
    half, top = _room(sheet, settings)
    return standing_box(views, half, top, settings.spare, progress)


def _step_mm(box: Grid, settings: HullSettings, steps: int) -> float:
    return float(max(settings.least_step_mm, box.step_mm * max(box.shape) / steps))


def _round_rings(seen: Sequence[Seen]) -> list[int]:
    """Numbers of the views ring by ring, the low one first, each in turn round the sheet."""
    eyes = np.array([one.view.eye_mm for one in seen])
    flat = np.hypot(eyes[:, 0], eyes[:, 1])
    elevation, azimuth = np.arctan2(eyes[:, 2], flat), np.arctan2(eyes[:, 1], eyes[:, 0])
    high = elevation > np.mean(np.percentile(elevation, RING_SHARES))
    return [int(n) for n in np.lexsort((azimuth, high))]


def _one_piece(field: Sampled, settings: HullSettings) -> Mesh:
    """The hull's largest body; crumbs that outlines happen to leave are dropped."""
    labels, count = ndimage.label(field.field < 0)
    sizes = np.sort(np.bincount(labels.ravel())[1:]) if count else np.zeros(0, np.int64)
    if len(sizes) > 1 and sizes[-2] > settings.body_share * sizes[-1]:
        share = round(float(sizes[-2] / sizes[-1]), 3)
        raise InputRefused("two-pieces-on-sheet", share, settings.body_share, "of the larger", TWO_PIECES)
    return body_at(field)


def _warnings(
    hull: Mesh, sheet: PhotoSheet, likely: Likely, clear: float | None
) -> tuple[tuple[HullWarning, float], ...]:
    low, high = hull.bounds_mm
    tall = float(high[2]) / sheet.size.length_mm
    wide = float(max((high[0] - low[0]) / sheet.middle_mm[0], (high[1] - low[1]) / sheet.middle_mm[1]))
    found = (
        (HullWarning.TALL_FOR_SHEET, tall, TALL),
        (HullWarning.WIDE_FOR_SHEET, wide, TALL),
        (HullWarning.UNSTEADY_HULL, likely.half_excess, UNSTEADY),
    )
    told = [(kind, round(figure, 3)) for kind, figure, limit in found if figure > limit]
    if clear is not None and not likely.refined:
        told.append((HullWarning.TOO_PLAIN, round(clear, 3)))
    return tuple(told)
