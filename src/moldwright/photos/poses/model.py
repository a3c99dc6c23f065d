"""The equations behind all photos: one lens, a sheet whose markers may lie a little off, a pose for each photo.

A point P of marker m: x (1 + stretch) + dx, y + dy, and a height that is a smooth surface over the sheet. In a photo:
p = R P + t, then OpenCV's k1 k2 model on square pixels. Each photo has a bleed: how far out its edges seem to be, by
ink, tone curve and blur.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
import numpy.typing as npt

from moldwright.photos.poses.marks import Floats

LENS = 5
STRETCH = 5
DEGREE = 4
HEIGHTS = (DEGREE + 1) * (DEGREE + 2) // 2 - 3
SHARED = 6 + HEIGHTS
"""Unknowns that all photos share before those of the markers: focal length, center x and y, k1, k2, stretch, and the
shares of the surfaces that make up the sheet's height."""
PLACE = 2
"""Unknowns of a marker: how far it lies off its place along x and y."""
BLEED, ZOOM = 6, 7
"""Unknowns of one photo: a turn (3), a shift (3), its bleed, and by how much its focal length is longer than that of
all, as a natural logarithm: a lens that focuses nearer draws a little larger."""


@dataclass(frozen=True, slots=True, eq=False)
class Sights:
    """What all photos saw: `drawn_mm` (m, 4, 3) corners as drawn, true to the bar; `surfaces` (m, 4, heights) the
    sheet's possible bends there; `seen_px`, `outward_px` (photos, m, 4, 2) on the sensor, from its middle; `there`
    (photos, m) whether a marker was seen."""

    drawn_mm: Floats
    surfaces: Floats
    seen_px: Floats
    outward_px: Floats
    there: npt.NDArray[np.bool_]

    def only(self, which: npt.NDArray[np.bool_] | npt.NDArray[np.int64]) -> Sights:
        """Those of some photos.

        Parameters
        ----------
        which : of the photos.
        """
        return replace(self, seen_px=self.seen_px[which], outward_px=self.outward_px[which], there=self.there[which])


@dataclass(frozen=True, slots=True, eq=False)
class PoseModel:
    """One guess at everything: `shared` (18,), `moved_mm` (m, 2), `turns` (photos, 3, 3), `shifts_mm` (photos, 3),
    `bleed_px` (photos,), `zoom` (photos,)."""

    shared: Floats
    moved_mm: Floats
    turns: Floats
    shifts_mm: Floats
    bleed_px: Floats
    zoom: Floats

    def only(self, which: npt.NDArray[np.bool_] | npt.NDArray[np.int64]) -> PoseModel:
        """That of some photos.

        Parameters
        ----------
        which : of the photos.
        """
        return replace(
            self,
            turns=self.turns[which],
            shifts_mm=self.shifts_mm[which],
            bleed_px=self.bleed_px[which],
            zoom=self.zoom[which],
        )

    def stepped(self, shared: Floats, own: Floats) -> PoseModel:
        """The guess after a step.

        Parameters
        ----------
        shared : of the shared unknowns and the markers', (18 + 2 m,).
        own : of each photo's, (photos, 8).
        """
        return PoseModel(
            self.shared + shared[:SHARED],
            self.moved_mm + shared[SHARED:].reshape(-1, PLACE),
            _rotations(own[:, :3]) @ self.turns,
            self.shifts_mm + own[:, 3:6],
            self.bleed_px + own[:, BLEED],
            self.zoom + own[:, ZOOM],
        )

    def points_mm(self, sights: Sights) -> Floats:
        """Where the corners are on the sheet, (m, 4, 3) [mm].

        Parameters
        ----------
        sights : the drawing.
        """
        points = sights.drawn_mm.copy()
        points[..., 0] *= 1 + self.shared[STRETCH]
        points[..., :2] += self.moved_mm[:, None]
        points[..., 2] += sights.surfaces @ self.shared[STRETCH + 1 :]
        return np.asarray(points)


def surfaces_over(drawn_mm: Floats, at_mm: Floats) -> Floats:
    """Smooth surfaces over the sheet, (..., heights): all polynomials to the fourth degree but planes, each 1 in the
    root mean square at the corners and square to planes and to one another there.

    Parameters
    ----------
    drawn_mm : (m, 4, 3) corners as drawn.
    at_mm : (..., 3), where the surfaces are wanted.
    """
    reach = np.abs(drawn_mm[..., :2]).max(axis=(0, 1))
    corners = _powers(drawn_mm[..., :2] / reach).reshape(-1, HEIGHTS + 3)
    square = np.linalg.solve(np.linalg.qr(corners)[1].T, _powers(at_mm[..., :2] / reach)[..., None])[..., 0]
    return np.asarray(square[..., 3:] * np.sqrt(len(corners)))


def _powers(at: Floats) -> Floats:
    x, y = at[..., 0], at[..., 1]
    powers = [(total - k, k) for total in range(DEGREE + 1) for k in range(total + 1)]
    return np.stack([x**i * y**k for i, k in powers], axis=-1)


@dataclass(frozen=True, slots=True, eq=False)
class Misses:
    """How far off a guess is: `miss_px` (photos, m, 4, 2), and how that changes with the photo's own unknowns
    (photos, m, 4, 2, 8), the shared ones (..., 18) and the marker's place (..., 2)."""

    miss_px: Floats
    by_own: Floats
    by_shared: Floats
    by_place: Floats


def misses(model: PoseModel, sights: Sights) -> Misses:
    """What the guess puts elsewhere than it was seen; meaningless where a marker was not seen.

    Parameters
    ----------
    model : the guess.
    sights : what was seen.
    """
    points = model.points_mm(sights)
    turned = np.einsum("vij,mcj->vmci", model.turns, points)
    at = turned + model.shifts_mm[:, None, None]
    seen, by_at, by_lens = _projected(at, model.shared, np.exp(model.zoom)[:, None, None, None])
    bleed = model.bleed_px[:, None, None, None] * sights.outward_px
    by_turn = np.cross(turned[..., None, :], by_at)
    by_zoom = (seen - model.shared[1:3])[..., None]
    by_own = np.concatenate([by_turn, by_at, sights.outward_px[..., None], by_zoom], axis=-1)
    by_place = np.einsum("vmckj,vji->vmcki", by_at, model.turns)
    by_stretch = by_place[..., :1] * sights.drawn_mm[None, :, :, None, :1]
    by_height = by_place[..., 2:] * sights.surfaces[None, :, :, None]
    by_shared = np.concatenate([by_lens, by_stretch, by_height], axis=-1)
    return Misses(seen + bleed - sights.seen_px, by_own, by_shared, by_place[..., :PLACE])


def _projected(at: Floats, shared: Floats, larger: Floats) -> tuple[Floats, Floats, Floats]:
    """Where points (..., 3) are seen (..., 2), and its change by the point (..., 2, 3) and by the lens (..., 2, 5)."""
    focal, center, k1, k2 = shared[0] * larger, shared[1:3], shared[3], shared[4]
    depth = np.where(np.abs(at[..., 2:]) < 1e-6, 1e-6, at[..., 2:])
    flat = at[..., :2] / depth
    r2 = (flat**2).sum(axis=-1)[..., None]
    bend = 1 + r2 * (k1 + r2 * k2)
    by_flat = focal[..., None] * (
        bend[..., None] * np.eye(2) + 2 * (k1 + 2 * k2 * r2)[..., None] * flat[..., :, None] * flat[..., None, :]
    )
    to_flat = (
        np.concatenate([np.broadcast_to(np.eye(2), (*flat.shape, 2)), -flat[..., None]], axis=-1) / depth[..., None]
    )
    by_center = np.broadcast_to(np.eye(2), (*flat.shape, 2))
    by_lens = [
        (larger * flat * bend)[..., None],
        by_center,
        (focal * flat * r2)[..., None],
        (focal * flat * r2**2)[..., None],
    ]
    return focal * flat * bend + center, by_flat @ to_flat, np.concatenate(by_lens, axis=-1)


def _rotations(turns: Floats) -> Floats:
    """Rotation matrices of many turns, (n, 3, 3), each an axis times its angle [rad] (Rodrigues' formula)."""
    angle = np.maximum(np.linalg.norm(turns, axis=1), 1e-12)[:, None, None]
    x, y, z = turns.T
    none = np.zeros_like(x)
    cross = np.stack([none, -z, y, z, none, -x, -y, x, none], axis=-1).reshape(-1, 3, 3)
    return np.asarray(np.eye(3) + np.sin(angle) / angle * cross + (1 - np.cos(angle)) / angle**2 * cross @ cross)
