"""What the photos taken so far cover: roughly, from each photo by itself, while the rest is still to be taken.

Nothing is refused here. A ring that is not there yet is what the maker is told of; whether the set as a whole can be
trusted is found at its end, with one lens for all photos (`find_poses`).
"""

from __future__ import annotations

from dataclasses import dataclass

import cv2
import numpy as np
import numpy.typing as npt

from moldwright.photos.poses.gates import sheet_in, sift
from moldwright.photos.poses.marks import Marks
from moldwright.photos.sheet.layout import PhotoSheet
from moldwright.photos.tally import Tally, tally_of
from moldwright.photos.told import PhotoReason, PhotoTold

Floats = npt.NDArray[np.float64]

FILM_MM = 36.0
USUAL_35MM = 26.0
"""Focal length in terms of film where the camera wrote none: a phone's main lens (common practice, no source)."""


@dataclass(frozen=True, slots=True)
class SoFar:
    """`told` : the photos that cannot be used, with the reason; `tally` : what the others cover."""

    told: tuple[PhotoTold, ...]
    tally: Tally


def tally_so_far(marks: tuple[Marks, ...]) -> SoFar:
    """What photos cover, each placed by itself.

    Parameters
    ----------
    marks : what each photo shows of the sheet.
    """
    sheet = sheet_in(marks)
    if sheet is None:
        told = tuple(PhotoTold(each.photo.file, False, PhotoReason.FEW_MARKERS, len(each.numbers)) for each in marks)
        return SoFar(told, tally_of(np.zeros((0, 3))))
    sifted = sift(marks, sheet)
    eyes = {each.photo.file: eye for each in sifted.kept if (eye := eye_of(each, sheet)) is not None}
    lost = [each.photo.file for each in sifted.kept if each.photo.file not in eyes]
    told = (*sifted.told, *(PhotoTold(file, False, PhotoReason.NO_POSE) for file in lost))
    return SoFar(tuple(sorted(told, key=lambda each: each.file)), tally_of(np.array([*eyes.values()]).reshape(-1, 3)))


def eye_of(marks: Marks, sheet: PhotoSheet) -> Floats | None:
    """Where one photo was taken from on the sheet, (3,) [mm], by the focal length that its camera tells.

    Parameters
    ----------
    marks : of that sheet alone.
    sheet : which it is.

    Source: SQPnP (Terzakis & Lourakis 2020, from memory), as OpenCV has it; IPPE gives none for some photos that are
    taken right along an axis.
    """
    drawn = np.array([sheet.markers[n - sheet.numbers.start].corners_mm(sheet.side_mm) for n in marks.numbers])
    flat = np.concatenate([drawn.reshape(-1, 2), np.zeros((drawn.size // 2, 1))], axis=1)
    seen = marks.corners_px.reshape(-1, 1, 2)
    wide, tall = marks.photo.width_px, marks.photo.height_px
    focal = max(wide, tall) * (marks.photo.focal_35mm or USUAL_35MM) / FILM_MM
    camera = np.array([[focal, 0.0, (wide - 1) / 2], [0.0, focal, (tall - 1) / 2], [0.0, 0.0, 1.0]])
    found, turn, shift = cv2.solvePnP(flat, seen, camera, None, flags=cv2.SOLVEPNP_SQPNP)
    eye: Floats = -np.asarray(cv2.Rodrigues(turn)[0]).T @ np.asarray(shift, dtype=np.float64).ravel()
    return eye if found and eye[2] > 0 else None
