"""Bowls that no outline shows: asked for, answered, and taken out; volumes against closed forms.

A box seen in outline is a box, whatever its top holds; photos taken at the height of its top leave no dome on it.
Cylinder pi r^2 d, half ellipsoid 2/3 pi r^2 d (from memory).
"""

from __future__ import annotations

from math import pi

import numpy as np
import pytest
from tests.photo_silhouettes import box_share, lens, ring, seen

from moldwright.errors import InputRefused
from moldwright.photos.ask import AskName, Bowl, BowlFloor
from moldwright.photos.hull.settings import HullSettings
from moldwright.photos.hull.solid import Hulled, hulled
from moldwright.photos.photographed import PhotosAsked
from moldwright.photos.sheet.layout import photo_sheet
from moldwright.photos.sheet.sizes import SheetSize

LOW, HIGH = np.array([-35.0, -30.0, 0.0]), np.array([35.0, 30.0, 50.0])
SHEET = photo_sheet(SheetSize.A4)
QUICK = HullSettings(least_step_mm=1.0, steps=90, compare_steps=80)
DEEP_MM, WIDE_MM = 20.0, 36.0
LEVEL_DEG = np.degrees(np.arcsin(25.0 / 300.0))


def box_with(*bowls: Bowl) -> Hulled:
    middle = np.array([0.0, 0.0, 25.0])
    views = [*ring(24, 300.0, LEVEL_DEG, middle, lens(), "low"), *ring(24, 300.0, 48.0, middle, lens(), "high")]
    shown = [seen(view, box_share(view, LOW, HIGH)) for view in views]
    return hulled(shown, SHEET, PhotosAsked(bowls=bowls), QUICK)


@pytest.fixture(scope="module")
def plain() -> Hulled:
    return box_with(Bowl(AskName.A, 0.0))


@pytest.fixture(scope="module")
def unanswered() -> Hulled:
    return box_with()


def test_a_level_top_is_asked_about(unanswered: Hulled) -> None:
    (ask,) = unanswered.asks
    assert ask.name is AskName.A
    assert ask.at_mm == pytest.approx((0.0, 0.0, 50.0), abs=4.0)
    assert ask.across_mm == pytest.approx(60.0, abs=6.0)


def test_an_open_question_keeps_a_bowl_possible(unanswered: Hulled, plain: Hulled) -> None:
    """The box with a bowl lies in the range until the maker says that there is none."""
    bowl_ml = pi * 25.0**2 * 30.0 / 1000.0
    assert unanswered.photos_ml.low < plain.photos_ml.likely - bowl_ml < plain.photos_ml.low
    assert unanswered.mesh.volume_ml == pytest.approx(plain.mesh.volume_ml, rel=1e-3)
    assert unanswered.spread.area.high > plain.spread.area.high
    assert unanswered.spread.rubber.high > plain.spread.rubber.high
    assert plain.asks == ()


@pytest.mark.parametrize(("floor", "full"), [(BowlFloor.FLAT, 1.0), (BowlFloor.ROUND, 2.0 / 3.0)])
def test_a_told_bowl_is_taken_out(plain: Hulled, floor: BowlFloor, full: float) -> None:
    found = box_with(Bowl(AskName.A, DEEP_MM, WIDE_MM, floor))
    bowl_ml = full * pi * (WIDE_MM / 2) ** 2 * DEEP_MM / 1000.0
    assert plain.mesh.volume_ml - found.mesh.volume_ml == pytest.approx(bowl_ml, rel=0.06)
    assert plain.hull_ml - found.hull_ml == pytest.approx(bowl_ml, rel=0.06)
    assert found.mesh.volume_ml == pytest.approx(found.photos_ml.likely, rel=1e-3)
    assert found.asks == ()
    wall_mm2 = 2 * pi * WIDE_MM / 2 * DEEP_MM
    more_mm2 = found.mesh.area_mm2 - plain.mesh.area_mm2
    assert 0.4 * wall_mm2 < more_mm2 < 1.1 * wall_mm2


def test_its_floor_is_where_it_was_told() -> None:
    mesh = box_with(Bowl(AskName.A, DEEP_MM, WIDE_MM, BowlFloor.FLAT)).mesh
    near = np.linalg.norm(mesh.vertices[:, :2], axis=1) < 0.3 * WIDE_MM
    floor = mesh.vertices[near & (mesh.vertices[:, 2] > 5.0), 2]
    assert np.median(floor) == pytest.approx(50.0 - DEEP_MM, abs=1.5)


def test_a_bore_goes_down_to_the_board() -> None:
    mesh = box_with(Bowl(AskName.A, 50.0, WIDE_MM, BowlFloor.FLAT)).mesh
    assert np.linalg.norm(mesh.vertices[:, :2], axis=1).min() > 0.35 * WIDE_MM
    assert mesh.why_invalid() == ""


@pytest.mark.parametrize(
    ("bowls", "code"),
    [
        ((Bowl(AskName.B, 10.0),), "bowl-not-asked"),
        ((Bowl(AskName.A, 10.0, 20.0), Bowl(AskName.A, 12.0, 20.0)), "bowl-not-asked"),
        ((Bowl(AskName.A, 20.0),), "bowl-without-width"),
        ((Bowl(AskName.A, 58.0, 30.0),), "bowl-too-deep"),
        ((Bowl(AskName.A, 20.0, 130.0),), "bowl-too-wide"),
    ],
)
def test_an_answer_that_does_not_fit_is_refused(bowls: tuple[Bowl, ...], code: str) -> None:
    with pytest.raises(InputRefused) as refused:
        box_with(*bowls)
    assert refused.value.code == code
    assert refused.value.remedy
