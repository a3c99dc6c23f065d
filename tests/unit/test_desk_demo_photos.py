"""The demo's photographed original: small JPEGs that can be read, with nothing in them that is nobody's business."""

from __future__ import annotations

from pathlib import Path

import pytest
import trimesh
from PIL import Image

from moldwright.commission.reading import commission_from_toml
from moldwright.desk.command_demo import run_demo
from moldwright.making.demo.lattice import mesh_of_field
from moldwright.making.demo.original import write_photo_demo
from moldwright.making.demo.sculpture import load_sculpture
from moldwright.photos.reading.photo import Photos
from moldwright.photos.reading.read import read_photos
from moldwright.photos.sheet.layout import photo_sheet
from moldwright.photos.sheet.sizes import SheetSize
from moldwright.plan.original import Source
from moldwright.ranges import Range

ORIENTATION, CAMERA, FOCAL_35, PLACE = 0x0112, 0x8769, 0xA405, 0x8825
"""Tags of EXIF (JEITA CP-3451): orientation; where the camera's and the place's own tags are; focal length on film."""


@pytest.fixture(scope="module")
def commission(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return write_photo_demo(tmp_path_factory.mktemp("demo"))


def photos_of(commission: Path) -> Photos:
    order = commission_from_toml(commission.read_text(encoding="utf-8"))
    return read_photos(commission.parent / order.original.photos)


def test_the_commission_names_its_photos_and_no_scan(commission: Path) -> None:
    order = commission_from_toml(commission.read_text(encoding="utf-8"))
    assert (order.original.photos, order.original.bar_mm, order.original.file) == ("photos", 100.0, "")
    assert (commission.parent / order.original.photos).is_dir()


def test_there_are_two_rings_of_24_small_photos(commission: Path) -> None:
    with photos_of(commission) as photos:
        assert len(photos) == 48
        assert not photos.told
        assert {(one.width_px, one.height_px) for one in photos} == {(1024, 768)}
    sizes = [path.stat().st_size for path in (commission.parent / "photos").iterdir()]
    assert max(sizes) <= 36_000
    assert sum(sizes) <= 1_600_000  # what a package should weigh: our own


def test_exif_tells_the_focal_length_and_no_place(commission: Path) -> None:
    for path in (commission.parent / "photos").iterdir():
        with Image.open(path) as image:
            exif = image.getexif()
        assert set(exif) == {ORIENTATION, CAMERA}
        assert set(exif.get_ifd(CAMERA)) == {FOCAL_35}
        assert not exif.get_ifd(PLACE)


def test_they_show_the_a4_sheet(commission: Path) -> None:
    import cv2  # noqa: PLC0415

    words = cv2.aruco.getPredefinedDictionary(cv2.aruco.DICT_4X4_250)
    finder = cv2.aruco.ArucoDetector(words, cv2.aruco.DetectorParameters())
    with photos_of(commission) as photos:
        for photo in list(photos)[::8]:
            _, numbers, _ = finder.detectMarkers(photo.rgb())
            assert set(numbers.ravel().tolist()) <= set(photo_sheet(SheetSize.A4).numbers)
            assert len(numbers) >= 8


@pytest.mark.slow
def test_its_plan_holds_what_the_sculpture_is(tmp_path: Path) -> None:
    """Against the sculpture's own solid, which was rendered and which no photo's reading knows."""
    sculpture = load_sculpture("pup.toml")
    true = mesh_of_field(sculpture.distance_mm, sculpture.low_mm, sculpture.high_mm, 0.7)
    plan = run_demo(tmp_path / "pup", quiet=True, no_cache=True, photos=True)
    told = plan.original
    assert isinstance(told.volume_ml, Range)
    assert isinstance(told.area_cm2, Range)
    assert told.volume_ml.low <= true.volume_ml <= told.volume_ml.high
    assert told.volume_ml.likely == pytest.approx(true.volume_ml, rel=0.04)
    assert told.area_cm2.low <= true.area_mm2 / 100 <= told.area_cm2.high
    assert (told.source, len(told.photos)) == (Source.PHOTOS, 48)
    solid = trimesh.load_mesh(tmp_path / "pup" / "plan" / "mold" / "original.stl")
    assert solid.volume / 1000 == pytest.approx(told.volume_ml.likely, rel=1e-3)
    sheets = {path.name for path in (tmp_path / "pup" / "plan" / "sheets").iterdir()}
    assert {"bench-a4.pdf", "photos-a4.pdf", "photos-letter.pdf", "photos.png"} <= sheets
