"""The tally while photos are still being taken: places by a pinhole in closed form, no set is refused."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest

from moldwright.photos.poses import gates
from moldwright.photos.poses.marks import Marks
from moldwright.photos.poses.so_far import eye_of, tally_so_far
from moldwright.photos.reading.photo import Photo
from moldwright.photos.sheet.layout import photo_sheet
from moldwright.photos.sheet.sizes import SheetSize
from moldwright.photos.tally import RingFault
from moldwright.photos.told import PhotoReason

SHEET = photo_sheet(SheetSize.A4)
WIDE, TALL, FILM_35 = 1600, 1200, 28.0


def eye_at(around: float, up: float, far_mm: float = 600.0) -> np.ndarray:
    """Clockwise from the front as seen from above, and up, both in degrees: front -y, left -x."""
    a, h = np.radians(around), np.radians(up)
    return far_mm * np.array([-np.sin(a) * np.cos(h), -np.cos(a) * np.cos(h), np.sin(h)])


def marks_from(eye: np.ndarray, file: str, film: float | None = FILM_35, numbers: slice = slice(None)) -> Marks:
    """What a pinhole that looks at the sheet's middle sees of its markers."""
    ahead = -eye / np.linalg.norm(eye)
    right = np.cross(ahead, [0.0, 0.0, 1.0])
    right /= np.linalg.norm(right)
    camera = np.stack([right, np.cross(ahead, right), ahead])
    markers = SHEET.markers[numbers]
    flat = np.array([m.corners_mm(SHEET.side_mm) for m in markers])
    at = (np.concatenate([flat, np.zeros((*flat.shape[:2], 1))], axis=2) - eye) @ camera.T
    focal = WIDE * FILM_35 / 36
    seen = focal * at[..., :2] / at[..., 2:] + ((WIDE - 1) / 2, (TALL - 1) / 2)
    photo = Photo(file, WIDE, TALL, 0, film, "", Path("none.npy"))
    count = np.array([m.number for m in markers])
    return Marks(photo, count, seen, np.ones_like(seen), np.full(len(markers), 30.0), 1.5, 120.0)


@pytest.mark.parametrize("up", [15.0, 20.0, 50.0, 80.0])
@pytest.mark.parametrize("around", [0.0, 90.0, 215.0])
def test_a_photo_is_placed_by_itself(around: float, up: float) -> None:
    eye = eye_at(around, up)
    assert eye_of(marks_from(eye, "a.jpg"), SHEET) == pytest.approx(eye, abs=0.1)


def test_without_a_focal_length_the_direction_is_still_near() -> None:
    """A lens of 28 mm taken for 26: within 5 degrees, a third of the way to the next photo of a ring."""
    eye = eye_at(120.0, 50.0)
    found = eye_of(marks_from(eye, "a.jpg", None), SHEET)
    assert found is not None
    cosine = found @ eye / np.linalg.norm(found) / np.linalg.norm(eye)
    assert np.degrees(np.arccos(cosine)) < 5.0


def test_half_a_ring_is_told_and_not_refused() -> None:
    marks = tuple(marks_from(eye_at(around, 20.0), f"{around:03.0f}.jpg") for around in np.arange(0, 180, 15.0))
    so_far = tally_so_far(marks)
    assert so_far.told == ()
    assert so_far.tally.low.photos == 12
    assert so_far.tally.low.elevation_deg == pytest.approx(20.0, abs=0.1)
    (gap,) = so_far.tally.low.gaps
    assert (gap.from_deg, gap.to_deg, gap.photos) == pytest.approx((165.0, 360.0 % 360, 12), abs=0.1)
    assert so_far.tally.high.fault is RingFault.MISSING


def test_the_first_photo_and_none_are_told() -> None:
    one = tally_so_far((marks_from(eye_at(90.0, 50.0), "a.jpg"),))
    assert one.tally.low.photos + one.tally.high.photos == 1
    assert tally_so_far(()).tally.more == 48
    bare = tally_so_far((marks_from(eye_at(0.0, 20.0), "a.jpg", numbers=slice(0, 2)),))
    assert [(told.file, told.reason, told.figure) for told in bare.told] == [("a.jpg", PhotoReason.FEW_MARKERS, 2.0)]


def test_a_photo_of_few_markers_is_named_among_good_ones(monkeypatch: pytest.MonkeyPatch) -> None:
    good = [marks_from(eye_at(around, 20.0), f"{around}.jpg") for around in (0.0, 15.0, 30.0)]
    poor = marks_from(eye_at(45.0, 20.0), "poor.jpg", numbers=slice(0, 3))
    monkeypatch.setattr(gates, "brightest", lambda _photo: 200.0)
    monkeypatch.setattr(gates, "edge_spread_px", lambda _photo: 1.0)
    so_far = tally_so_far((*good, poor))
    assert [told.file for told in so_far.told] == ["poor.jpg"]
    assert so_far.tally.low.photos == 3
