"""The guess that fits all photos best: damped least squares, strays weighed down, photos eliminated first.

Source: common practice (bundle adjustment by Levenberg and Marquardt with the Schur complement, Cauchy weights).
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from moldwright.photos.poses.marks import Floats
from moldwright.photos.poses.model import BLEED, HEIGHTS, PLACE, SHARED, ZOOM, Misses, PoseModel, Sights, misses

ROUNDS = 40
FIRST_DAMPING = 1e-6
ENOUGH = 1e-7
CENTER_SHARE = 0.02
STRETCH_DOUBT = 0.005
PLACE_DOUBT_MM = 1.0
HEIGHT_DOUBT_MM = 2.0
BLEED_DOUBT_PX = 2.0
HELD_MM = 1e-3
HELD_ZOOM = 1e-6
BEND_DOUBT = (0.5, 1.0)
LEAST_SPREAD_PX = 0.03


@dataclass(frozen=True, slots=True, eq=False)
class Adjusted:
    """The best guess; `away_px` (photos, m, 4) from where each corner was seen, NaN where it was not; `spread_px` of
    one coordinate; `doubt` (18 + 2 m,) standard uncertainty of the shared unknowns, NaN where they were held."""

    model: PoseModel
    away_px: Floats
    spread_px: float
    doubt: Floats


def adjust(
    start: PoseModel, sights: Sights, side_px: float, free: npt.NDArray[np.bool_], zoom_doubt: float = HELD_ZOOM
) -> Adjusted:
    """The best guess near a first one.

    Parameters
    ----------
    start : the first guess.
    sights : what was seen.
    side_px : the sensor's long side, which tells how far its center may be from the lens's [px].
    free : (18 + 2 m,), which of the shared unknowns may change.
    zoom_doubt : how much one photo's focal length may differ from that of all, one standard deviation as a share.
    """
    known = _Known(_shared_known(sights.drawn_mm, side_px), _own_known(zoom_doubt))
    model, damping = start, FIRST_DAMPING
    at = misses(model, sights)
    spread = _spread(at, sights)
    cost = _cost(at, model, sights, spread, known)
    for _ in range(ROUNDS):
        normal = _normal(at, model, sights, spread, known, free)
        step = model.stepped(*normal.step(damping))
        there = misses(step, sights)
        new = _cost(there, step, sights, spread, known)
        if not new < cost:
            damping *= 10
            if damping > 1e6:
                break
            continue
        gain, model, at, damping = cost - new, step, there, damping / 10
        spread = _spread(at, sights)
        cost = _cost(at, model, sights, spread, known)
        if gain < ENOUGH * cost:
            break
    doubt = _normal(at, model, sights, spread, known, free).doubt()
    away = np.where(sights.there[..., None], np.linalg.norm(at.miss_px, axis=-1), np.nan)
    return Adjusted(model, away, spread, doubt)


def _shared_known(drawn_mm: Floats, side_px: float) -> Floats:
    """How well the shared unknowns are known before anything is seen: the inverse of their covariance.

    What moves all markers alike, or draws them apart along x or y, is no fault of a marker's place: the poses,
    the bar and the stretch stand for that, so it is held at 0.
    """
    lens = [np.inf, CENTER_SHARE * side_px, CENTER_SHARE * side_px, *BEND_DOUBT, STRETCH_DOUBT]
    places = [PLACE_DOUBT_MM] * (PLACE * len(drawn_mm))
    known = np.diag(np.array([*lens, *([HEIGHT_DOUBT_MM] * HEIGHTS), *places]) ** -2.0)
    x, y = drawn_mm.mean(axis=1)[:, :2].T
    one, none = np.ones_like(x), np.zeros_like(x)
    ways = [(one, none), (none, one), (x, none), (none, y)]
    alike = np.linalg.qr(np.column_stack([np.column_stack(way).ravel() for way in ways]))[0]
    known[SHARED:, SHARED:] += alike @ alike.T / HELD_MM**2
    return known


def _own_known(zoom_doubt: float) -> Floats:
    known = np.zeros(8)
    known[[BLEED, ZOOM]] = BLEED_DOUBT_PX**-2, zoom_doubt**-2
    return known


def _own(model: PoseModel) -> Floats:
    """The unknowns of each photo that something is known of beforehand, the others 0, (photos, 8)."""
    own = np.zeros((len(model.bleed_px), 8))
    own[:, BLEED], own[:, ZOOM] = model.bleed_px, model.zoom
    return own


def _shared(model: PoseModel) -> Floats:
    return np.concatenate([model.shared, model.moved_mm.ravel()])


@dataclass(frozen=True, slots=True, eq=False)
class _Known:
    """What is known beforehand: of the shared unknowns (s, s), and of each of a photo's own (8,)."""

    shared: Floats
    own: Floats


def _spread(at: Misses, sights: Sights) -> float:
    """Standard deviation of one coordinate, from the median of what is off."""
    off = np.abs(at.miss_px[sights.there])
    return max(LEAST_SPREAD_PX, 1.4826 * float(np.median(off))) if off.size else 1.0


def _weights(at: Misses, sights: Sights, spread: float) -> Floats:
    far2 = (at.miss_px**2).sum(axis=-1) / (3 * spread) ** 2
    return np.asarray(sights.there[..., None] / (1 + far2) / spread**2)


def _cost(at: Misses, model: PoseModel, sights: Sights, spread: float, known: _Known) -> float:
    far2 = (at.miss_px**2).sum(axis=-1) / (3 * spread) ** 2
    seen = 9.0 * float(np.log1p(far2)[sights.there].sum())
    shared = _shared(model)
    return seen + float(shared @ known.shared @ shared + (known.own * _own(model) ** 2).sum())


@dataclass(frozen=True, slots=True, eq=False)
class _Normal:
    """The normal equations: shared (s, s), own (photos, 8, 8), between (photos, s, 8), and their right sides."""

    shared: Floats
    own: Floats
    between: Floats
    shared_side: Floats
    own_side: Floats
    free: npt.NDArray[np.bool_]

    def step(self, damping: float) -> tuple[Floats, Floats]:
        own = self.own * (1 + damping * np.eye(self.own.shape[1])) + 1e-12 * np.eye(self.own.shape[1])
        through = np.asarray(np.linalg.solve(own, self.between.transpose(0, 2, 1)), dtype=np.float64)
        straight = np.linalg.solve(own, self.own_side[..., None])[..., 0]
        left = self._without(through) + damping * np.diag(np.diag(self.shared))
        right = self.shared_side - np.einsum("vsp,vp->s", self.between, straight)
        shared = np.zeros(self.free.size)
        f = self.free
        if f.any():
            shared[f] = np.linalg.solve(left[np.ix_(f, f)], right[f])
        return shared, straight - np.einsum("vps,s->vp", through, shared)

    def doubt(self) -> Floats:
        own = self.own + 1e-12 * np.eye(self.own.shape[1])
        left = self._without(np.asarray(np.linalg.solve(own, self.between.transpose(0, 2, 1)), dtype=np.float64))
        doubt = np.full(self.free.size, np.nan)
        f = self.free
        if f.any():
            doubt[f] = np.sqrt(np.maximum(np.diag(np.linalg.pinv(left[np.ix_(f, f)])), 0.0))
        return doubt

    def _without(self, through: Floats) -> Floats:
        return np.asarray(self.shared - np.einsum("vsp,vpt->st", self.between, through))


def _normal(
    at: Misses, model: PoseModel, sights: Sights, spread: float, known: _Known, free: npt.NDArray[np.bool_]
) -> _Normal:
    weight = _weights(at, sights, spread)
    photos, markers = sights.there.shape
    rows = (photos, markers, 8)
    off, own = at.miss_px.reshape(rows), at.by_own.reshape(*rows, -1)
    both = np.concatenate([at.by_shared, at.by_place], axis=-1).reshape(*rows, -1)
    heavy = np.repeat(weight, 2, axis=-1)
    own_left = np.einsum("vmri,vmr,vmrj->vij", own, heavy, own, optimize=True)
    own_side = -np.einsum("vmri,vmr,vmr->vi", own, heavy, off, optimize=True)
    own_left += np.diag(known.own)
    own_side -= known.own * _own(model)
    each = np.einsum("vmri,vmr,vmrj->mij", both, heavy, both, optimize=True)
    each_side = -np.einsum("vmri,vmr,vmr->mi", both, heavy, off, optimize=True)
    cross = np.einsum("vmri,vmr,vmrj->vmij", both, heavy, own, optimize=True)
    left, side, between = _spread_out(each, each_side, cross)
    return _Normal(left + known.shared, own_left, between, side - known.shared @ _shared(model), own_side, free)


def _spread_out(each: Floats, each_side: Floats, cross: Floats) -> tuple[Floats, Floats, Floats]:
    """From per-marker blocks (the shared, two of the place) to the whole: shared first, then marker by marker."""
    markers, photos = len(each), len(cross)
    size = SHARED + PLACE * markers
    left, side, between = np.zeros((size, size)), np.zeros(size), np.zeros((photos, size, cross.shape[-1]))
    s = SHARED
    left[:s, :s], side[:s] = each[:, :s, :s].sum(axis=0), each_side[:, :s].sum(axis=0)
    between[:, :s] = cross[:, :, :s].sum(axis=1)
    for m in range(markers):
        own = slice(s + PLACE * m, s + PLACE * (m + 1))
        left[own, own], side[own], between[:, own] = each[m, s:, s:], each_side[m, s:], cross[:, m, s:]
        left[:s, own], left[own, :s] = each[m, :s, s:], each[m, s:, :s]
    return left, side, between
