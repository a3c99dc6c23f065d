"""A first guess: the focal length under which most photos show a flat sheet, and a pose for each by it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import cv2
import numpy as np
import numpy.typing as npt

from moldwright.photos.poses.marks import Floats
from moldwright.photos.poses.model import PLACE, SHARED, PoseModel, Sights

FOCALS = np.geomspace(0.4, 4.0, 36)
"""Focal lengths tried, as shares of the sensor's long side: 14 to 144 mm in terms of film."""
FINE = np.linspace(0.94, 1.06, 7)
FAR_PX = 1e3


@dataclass(frozen=True, slots=True, eq=False)
class FirstGuess:
    """The first guess, and for each photo how far off it is and how far at best with a focal length of its own [px];
    `own_focal_px` : that focal length."""

    model: PoseModel
    off_px: Floats
    own_off_px: Floats
    own_focal_px: Floats


def start(sights: Sights, side_px: float, tick: Callable[[], None]) -> FirstGuess:
    """A first guess without lens bends.

    Parameters
    ----------
    sights : what was seen; at least four corners in each photo.
    side_px : the sensor's long side [px].
    tick : called for each photo; may raise to cancel.
    """
    photos = range(len(sights.there))
    focals = FOCALS * side_px
    off = np.array([_offs(sights, v, focals, tick) for v in photos])
    best = focals[int(np.log(off + 0.1).sum(axis=0).argmin())]
    near = best * FINE
    close = np.array([_offs(sights, v, near, tick) for v in photos])
    focal = near[int(np.log(close + 0.1).sum(axis=0).argmin())]
    poses = [_pose(sights, v, focal) for v in photos]
    all_off, all_focals = np.hstack([off, close]), np.concatenate([focals, near])
    shared = np.zeros(SHARED)
    shared[0] = focal
    turns, shifts = np.array([pose[0] for pose in poses]), np.array([pose[1] for pose in poses])
    model = PoseModel(
        shared, np.zeros((len(sights.drawn_mm), PLACE)), turns, shifts, np.zeros(len(poses)), np.zeros(len(poses))
    )
    own = all_off.argmin(axis=1)
    return FirstGuess(model, np.array([pose[2] for pose in poses]), all_off.min(axis=1), all_focals[own])


def _offs(sights: Sights, photo: int, focals: Floats, tick: Callable[[], None]) -> list[float]:
    tick()
    return [_pose(sights, photo, float(focal))[2] for focal in focals]


def _pose(sights: Sights, photo: int, focal: float) -> tuple[Floats, Floats, float]:
    """Rotation, shift and how far off the corners are in the median [px], by the flat sheet alone."""
    there = sights.there[photo]
    drawn = sights.drawn_mm[there].reshape(-1, 3)
    seen = sights.seen_px[photo][there].reshape(-1, 2)
    camera: npt.NDArray[np.float64] = np.diag([focal, focal, 1.0])
    _, turns, shifts, _ = cv2.solvePnPGeneric(drawn, seen[:, None], camera, None, flags=cv2.SOLVEPNP_IPPE)
    best = np.eye(3), np.array([0.0, 0.0, 1.0]), FAR_PX
    for turn, shift in zip(turns, shifts, strict=True):
        rotation = np.asarray(cv2.Rodrigues(turn)[0], dtype=np.float64)
        at = drawn @ rotation.T + shift.ravel()
        if at[:, 2].min() <= 0:
            continue
        off = float(np.median(np.linalg.norm(focal * at[:, :2] / at[:, 2:] - seen, axis=1)))
        if off < best[2]:
            best = rotation, np.asarray(shift, dtype=np.float64).ravel(), off
    return best
