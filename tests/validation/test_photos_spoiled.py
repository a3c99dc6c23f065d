"""Sets of photos that went wrong: single bad photos are named and change nothing, bad sets are refused or warned of.

Rendered (tests/photo_sets); which photo or set is bad is known because it was made so.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest
import trimesh
from tests.photo_sets.bodies import OWN
from tests.photo_sets.materials import Material
from tests.photo_sets.shoot import Shoot, shoot
from tests.photo_sets.spoiled import blurred, copied, cut_off, moved, two_pieces, white_on_white, without, wrong_piece
from tests.photo_sets.truth import Truth

from moldwright.errors import InputRefused
from moldwright.photos.photograph import photograph
from moldwright.photos.photographed import HullWarning, Photographed, PhotosAsked
from moldwright.photos.poses.poses import PoseWarning
from moldwright.photos.reading.read import read_photos
from moldwright.photos.sheet.sizes import SheetSize
from moldwright.photos.told import PhotoReason

SOURCE = ("Photos rendered (VTK, Embree) with known faults; common practice, no source",)
pytestmark = pytest.mark.slow
HOW = Shoot(seed=31, masks=False)
FEWER = replace(HOW, rings=((20.0, 14), (50.0, 14)))
R = PhotoReason


def body() -> trimesh.Trimesh:
    """A figure with one arm akimbo, 180 mm tall."""
    made = next(one for one in OWN if one.name == "akimbo").mesh()
    made.apply_scale(180 / made.extents[2])
    return made


def found_in(folder: Path, asked: PhotosAsked | None = None) -> Photographed:
    """What the photos of a folder show."""
    with read_photos(folder) as photos:
        return photograph(photos, asked or PhotosAsked())


def told_of(folder: Path, asked: PhotosAsked | None = None) -> set[str]:
    """The code of its refusal, or the warnings and the reasons of photos that are dropped."""
    try:
        found = found_in(folder, asked)
    except InputRefused as refused:
        return {refused.code}
    return {kind for kind, _ in found.warnings} | {one.reason for one in found.told if one.reason}


@pytest.fixture(scope="module")
def good(tmp_path_factory: pytest.TempPathFactory) -> Truth:
    return shoot(body(), SheetSize.A4, tmp_path_factory.mktemp("good"), HOW)


@pytest.fixture(scope="module")
def volume_ml(good: Truth) -> float:
    found = found_in(good.folder)
    assert all(one.used for one in found.told)
    return found.mesh.volume_ml


def test_a_blurred_a_cut_off_and_a_moved_photo_are_named(good: Truth, volume_ml: float, tmp_path: Path) -> None:
    spoiled = copied(good, tmp_path / "spoiled")
    names = {
        blurred(spoiled, 5): {R.SOFT},
        cut_off(spoiled, HOW, 17): {R.AT_THE_FRAME},
        moved(spoiled, HOW, 33): {R.CARVES_ALONE, R.DISAGREES},
    }
    _named(spoiled, names, volume_ml)


def test_a_photo_of_another_piece_is_named(good: Truth, volume_ml: float, tmp_path: Path) -> None:
    spoiled = copied(good, tmp_path / "spoiled")
    other = next(one for one in OWN if one.name == "seated").mesh()
    names = {
        blurred(spoiled, 40): {R.SOFT},
        cut_off(spoiled, HOW, 29): {R.AT_THE_FRAME},
        wrong_piece(spoiled, HOW, 11, other): {R.CARVES_ALONE, R.DISAGREES},
    }
    _named(spoiled, names, volume_ml)


def _named(spoiled: Truth, names: dict[str, set[PhotoReason]], volume_ml: float) -> None:
    """Just these photos are dropped, each for its reason, and the volume moves by less than 1 %."""
    found = found_in(spoiled.folder)
    dropped = {one.file: one.reason for one in found.told if not one.used}
    assert dropped.keys() == names.keys()
    assert all(dropped[file] in reasons for file, reasons in names.items())
    assert found.mesh.volume_ml == pytest.approx(volume_ml, rel=0.01)


@pytest.mark.parametrize(("missing", "code"), [(range(24), "low-ring-missing"), (range(24, 48), "high-ring-missing")])
def test_a_missing_ring_is_refused(good: Truth, tmp_path: Path, missing: range, code: str) -> None:
    spoiled = copied(good, tmp_path / "spoiled")
    without(spoiled, missing)
    assert told_of(spoiled.folder) == {code}


def test_fewer_than_24_are_refused(good: Truth, tmp_path: Path) -> None:
    spoiled = copied(good, tmp_path / "spoiled")
    without(spoiled, range(0, 48, 2))
    (spoiled.folder / spoiled.views[1].file).unlink()
    assert told_of(spoiled.folder) == {"too-few-photos"}


def test_a_bar_that_no_printer_makes_is_refused(good: Truth) -> None:
    assert told_of(good.folder, PhotosAsked(bar_mm=80.0)) == {"bar-out-of-range"}


# An edge that lifts by b puts markers of A4 off the plane that fits them best by up to b / 4: 3 mm and 1.5 mm here.
SETS: tuple[tuple[str, Callable[[], trimesh.Trimesh], SheetSize, Shoot, set[str]], ...] = (
    ("zoom", body, SheetSize.A4, replace(FEWER, zoom_midway=1.6), {"zoom-changed"}),
    ("bent", body, SheetSize.A4, replace(FEWER, bend_mm=12.0), {"sheet-bent"}),
    ("curled", body, SheetSize.A4, replace(FEWER, bend_mm=6.0), {PoseWarning.SHEET_CURLED}),
    ("white", body, SheetSize.A4, white_on_white(FEWER), {"piece-like-backdrop"}),
    ("two", lambda: two_pieces(body()), SheetSize.A3, FEWER, {"two-pieces-on-sheet"}),
)


@pytest.mark.parametrize(("name", "make", "size", "how", "codes"), SETS, ids=[one[0] for one in SETS])
def test_a_bad_set_is_told_by_its_own_reason(
    tmp_path: Path, name: str, make: Callable[[], trimesh.Trimesh], size: SheetSize, how: Shoot, codes: set[str]
) -> None:
    assert codes <= told_of(shoot(make(), size, tmp_path / name, how).folder)


def test_a_piece_of_the_sheets_own_green_is_refused(tmp_path: Path) -> None:
    told = told_of(shoot(body(), SheetSize.A4, tmp_path / "green", replace(FEWER, material=Material.GREENISH)).folder)
    assert len(told) == 1
    assert told <= {"piece-like-backdrop", "few-photos-left", "photos-disagree"}


def test_a_400_mm_piece_on_a_small_sheet_is_not_silent(tmp_path: Path) -> None:
    tall = next(one for one in OWN if one.name == "draped").mesh()
    told = told_of(shoot(tall, SheetSize.A4, tmp_path / "tall", FEWER).folder)
    refused = {"markers-too-small", "lens-doubtful", "piece-out-of-frame", "too-few-photos", "few-photos-left"}
    assert told & {*refused, HullWarning.TALL_FOR_SHEET}
