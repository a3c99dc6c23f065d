"""Photos through the reading child: what is read comes back upright and at its working size, the rest is told."""

from __future__ import annotations

import io
import os
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from photo_files import HEIC, encoded, exif, jpeg_of_size, picture, png_bomb
from PIL import Image

from moldwright.errors import InputRefused
from moldwright.photos.reading.limits import PhotoLimits
from moldwright.photos.reading.names import content_of
from moldwright.photos.reading.photo import Photo
from moldwright.photos.reading.read import read_photos
from moldwright.photos.told import PhotoReason

GOOD = encoded(picture())
LIMITS = PhotoLimits(side_px=100)
SAW = picture()
USUAL = PhotoLimits()


def read(folder: Path, files: dict[str, bytes], limits: PhotoLimits = LIMITS) -> dict[str, Photo | PhotoReason]:
    """Everything told of each file, pixels taken out before the reading is closed."""
    for name, data in files.items():
        (folder / name).write_bytes(data)
    with read_photos(folder, limits=limits) as photos:
        told: dict[str, Photo | PhotoReason] = {each.file: each.reason for each in photos.told if each.reason}
        for photo in photos:
            told[photo.file] = photo
        return told


def pixels_of(folder: Path, data: bytes, limits: PhotoLimits = USUAL) -> np.ndarray:
    (folder / "a.jpg").write_bytes(data)
    with read_photos(folder, limits=limits) as photos:
        return np.array(photos.photos[0].rgb())


def deep(mode: str) -> bytes:
    gray = (np.asarray(Image.fromarray(SAW).convert("L")).astype(np.uint16) << 8) | 7
    return encoded(Image.fromarray(gray) if mode == "I;16" else Image.fromarray(gray.astype(np.int32)), "PNG")


GRAY = np.repeat(np.asarray(Image.fromarray(SAW).convert("L"))[..., None], 3, axis=2)
CLEAR = np.dstack([SAW, np.where(np.arange(160)[None] < 80, 255, 0).astype(np.uint8).repeat(120, 0)])
VARIANTS: dict[str, tuple[Callable[[], bytes], np.ndarray]] = {
    "jpeg": (lambda: GOOD, SAW),
    "progressive": (lambda: encoded(SAW, progressive=True), SAW),
    "gray jpeg": (lambda: encoded(Image.fromarray(SAW).convert("L")), GRAY),
    "cmyk": (lambda: encoded(Image.fromarray(SAW).convert("CMYK")), SAW),
    "png": (lambda: encoded(SAW, "PNG"), SAW),
    "palette": (lambda: encoded(Image.fromarray(SAW).quantize(8), "PNG"), SAW),
    "gray png": (lambda: encoded(Image.fromarray(SAW).convert("L"), "PNG"), GRAY),
    "16 bit": (lambda: deep("I;16"), GRAY),
    "see-through": (lambda: encoded(CLEAR, "PNG"), np.where(CLEAR[..., 3:] > 0, SAW, 255)),
}


@pytest.mark.parametrize("name", VARIANTS)
def test_every_kind_of_pixel_becomes_the_same_colors(name: str, tmp_path: Path) -> None:
    make, wanted = VARIANTS[name]
    got = pixels_of(tmp_path, make())
    assert got.shape == (120, 160, 3)
    inner = np.abs(got.astype(int) - wanted)[:, (np.arange(160) < 70) | (np.arange(160) > 90)]
    assert np.median(inner) <= 4
    assert np.percentile(inner, 90) <= 12, "JPEG's own error and a palette's at the edges"


@pytest.mark.parametrize("orientation", range(1, 9))
def test_every_orientation_stands_upright(orientation: int, tmp_path: Path) -> None:
    """Pillow's own transposition is the reference."""
    data = encoded(SAW, exif=exif(orientation))
    upright = io.BytesIO(data)
    with Image.open(upright) as image:
        image.load()
        by = {2: 0, 3: 3, 4: 1, 5: 5, 6: 4, 7: 6, 8: 2}.get(orientation)
        wanted = np.asarray(image if by is None else image.transpose(Image.Transpose(by)))
    assert np.array_equal(pixels_of(tmp_path, data), wanted)


def test_heic_is_read_upright_with_its_focal_length(tmp_path: Path) -> None:
    (tmp_path / "a.heic").write_bytes(HEIC)
    with read_photos(tmp_path) as photos:
        photo = photos.photos[0]
        assert (photo.width_px, photo.height_px, photo.quarters, photo.focal_35mm) == (48, 64, 1, 26.0)
        rgb = photo.rgb()
        assert rgb[5, 5].argmax() == 0
        assert rgb[60, 5].argmax() == 2
        assert rgb[30, 45].argmax() == 1


@pytest.mark.parametrize(
    ("long", "wanted"), [(800, 200), (1648, 206), (1660, 200), (1000, 200), (640, 160), (140, 140)]
)
def test_the_working_size(long: int, wanted: int, tmp_path: Path) -> None:
    """For 200 px: 800 / 4; 1648 / 8 = 206 is near enough, 1660 / 8 is not; 1000 / 4 = 250 is too long."""
    got = pixels_of(tmp_path, encoded(picture(long, long * 3 // 4)), PhotoLimits(side_px=200))
    assert got.shape[1] == wanted
    assert abs(got.shape[0] - wanted * 3 / 4) <= 1
    assert got[-3, 3].argmax() == 0
    assert got[-3, -3].argmax() == 2


HOSTILE: dict[str, tuple[bytes, PhotoReason]] = {
    "cut.jpg": (GOOD[: len(GOOD) // 2], PhotoReason.UNREADABLE),
    "cut.png": (encoded(SAW, "PNG")[:-60], PhotoReason.UNREADABLE),
    "cut.heic": (HEIC[:-200], PhotoReason.HEIC_UNREADABLE),
    "head.heic": (b"\0\0\0\x1cftypheic" + bytes(200), PhotoReason.HEIC_UNREADABLE),
    "empty.jpg": (b"", PhotoReason.WRONG_TYPE),
    "paper.jpg": (b"%PDF-1.7\n" + bytes(500), PhotoReason.WRONG_TYPE),
    "page.png": (b"<!doctype html><html></html>", PhotoReason.WRONG_TYPE),
    "moving.jpg": (encoded(SAW, "GIF"), PhotoReason.WRONG_TYPE),
    "other.webp": (encoded(SAW, "WEBP"), PhotoReason.WRONG_TYPE),
    "bomb.png": (png_bomb(60_000, 60_000), PhotoReason.TOO_MANY_PIXELS),
    "bomb.jpg": (jpeg_of_size(65_000, 65_000), PhotoReason.TOO_MANY_PIXELS),
    "thin.png": (png_bomb(2_000_000_000, 1), PhotoReason.TOO_MANY_PIXELS),
    "short.png": (png_bomb(9_000, 9_000), PhotoReason.UNREADABLE),
    "noise.jpg": (b"\xff\xd8\xff" + np.random.default_rng(0).bytes(4_000), PhotoReason.UNREADABLE),
}


def test_hostile_photos_are_told_and_the_good_one_is_read(tmp_path: Path) -> None:
    told = read(tmp_path, {"good.jpg": GOOD, **{name: data for name, (data, _) in HOSTILE.items()}})
    assert isinstance(told.pop("good.jpg"), Photo)
    assert told == {name: reason for name, (_, reason) in HOSTILE.items()}


@pytest.mark.parametrize(
    "nonsense",
    [
        b"Exif\0\0" + bytes(range(256)),
        b"Exif\0\0MM\0*\xff\xff\xff\xff",
        b"Exif\0\0II*\0\x08\0\0\0\x01\0\x12\x01\x02\0\xff\xff\xff\x7f\x08\0\0\0",
        exif(99, 60_000).tobytes(),
    ],
)
def test_exif_nonsense_is_no_matter(nonsense: bytes, tmp_path: Path) -> None:
    (tmp_path / "a.jpg").write_bytes(encoded(SAW, exif=nonsense))
    with read_photos(tmp_path) as photos:
        photo = photos.photos[0]
        assert (photo.quarters, photo.focal_35mm, photo.width_px) == (0, None, 160)


def test_only_focal_length_and_orientation_are_kept(tmp_path: Path) -> None:
    tags = exif(3, 27)
    tags[0x010F], tags[0xA431] = "SECRETMAKER", "SECRETSERIAL"
    tags.get_ifd(0x8825)[1] = "N"
    tags.get_ifd(0x8769)[0xA431] = "SECRETSERIAL"
    (tmp_path / "a.jpg").write_bytes(encoded(SAW, exif=tags))
    assert b"SECRET" in (tmp_path / "a.jpg").read_bytes()
    with read_photos(tmp_path) as photos:
        kept = b"".join(path.read_bytes() for path in Path(photos.folder.name).iterdir())
        assert photos.photos[0].focal_35mm == 27
    assert b"SECRET" not in kept


def test_a_mask_is_read_beside_its_photo(tmp_path: Path) -> None:
    white = np.zeros((240, 320), np.uint8)
    white[60:180, 100:200] = 255
    cut = np.dstack([picture(320, 240), white])
    files = {
        **dict.fromkeys(("a.jpg", "b.jpg", "c.jpg", "d.jpg"), GOOD),
        "a.mask.png": encoded(white, "PNG"),
        "b.mask.png": encoded(cut, "PNG"),
        "c.mask.png": encoded(white[:100], "PNG"),
    }
    for name, data in files.items():
        (tmp_path / name).write_bytes(data)
    wanted = white[1::2, 1::2] > 0
    with read_photos(tmp_path) as photos:
        masks = {photo.file: photo.mask() for photo in photos}
        assert {name: mask is not None for name, mask in masks.items()} == {
            "a.jpg": True,
            "b.jpg": True,
            "d.jpg": False,
        }
        assert np.array_equal(masks["a.jpg"], wanted)
        assert np.array_equal(masks["b.jpg"], wanted)
        assert [(each.file, each.reason) for each in photos.told] == [("c.jpg", PhotoReason.MASK_UNREADABLE)]


def refused(folder: Path, **how: object) -> str:
    with pytest.raises(InputRefused) as caught, read_photos(folder, **how):
        pass
    assert caught.value.remedy
    return caught.value.code


def test_folders_that_are_refused(tmp_path: Path) -> None:
    assert refused(tmp_path / "none") == "photos-missing"
    assert refused(tmp_path) == "no-photos"
    (tmp_path / "note.txt").write_text("dear reader")
    (tmp_path / ".a.jpg").write_bytes(GOOD)
    assert refused(tmp_path) == "no-photos"
    (tmp_path / "a.heic").write_bytes(HEIC[:-200])
    assert refused(tmp_path) == "no-photo-readable"
    assert refused(tmp_path, leave_out=("b.jpg",)) == "left-out-photo-missing"
    (tmp_path / "b.jpg").write_bytes(GOOD)
    assert refused(tmp_path, limits=PhotoLimits(photos=1)) == "too-many-photos"
    assert refused(tmp_path / "b.jpg") == "photos-missing"
    with pytest.raises(InputRefused, match="is a file"):
        read_photos(tmp_path / "b.jpg")


def test_heic_that_cannot_be_read_tells_of_jpeg(tmp_path: Path) -> None:
    (tmp_path / "a.heic").write_bytes(HEIC[:-200])
    with pytest.raises(InputRefused, match="share the photos as JPEG"):
        read_photos(tmp_path)


def test_a_photo_that_breaks_the_child_does_not_stop_the_rest(tmp_path: Path) -> None:
    """A 96 megapixel PNG takes more than its processor time; another child reads what is after it."""
    slow = np.random.default_rng(0).integers(0, 255, (300, 400, 3), dtype=np.uint8)
    big = Image.fromarray(slow).resize((12_000, 8_000))
    told = read(
        tmp_path,
        {"a.jpg": GOOD, "b.png": encoded(big, "PNG", compress_level=1), "c.jpg": GOOD},
        replace(LIMITS, memory_bytes=700 << 20, cpu_s=5),
    )
    assert told["b.png"] is PhotoReason.UNREADABLE
    assert isinstance(told["a.jpg"], Photo)
    assert isinstance(told["c.jpg"], Photo)


def test_a_photo_that_takes_too_long_is_dropped(tmp_path: Path) -> None:
    with pytest.raises(InputRefused) as caught:
        read(tmp_path, {"a.jpg": GOOD, "b.jpg": GOOD}, replace(LIMITS, wall_s=0.001))
    assert caught.value.code == "no-photo-readable"


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="needs named pipes")
def test_a_pipe_is_no_photo(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "a.jpg")
    assert refused(tmp_path) == "no-photos"


def test_a_file_larger_than_allowed(tmp_path: Path) -> None:
    told = read(tmp_path, {"a.jpg": GOOD, "b.jpg": GOOD + bytes(9_000)}, replace(LIMITS, file_bytes=len(GOOD)))
    assert told["b.jpg"] is PhotoReason.FILE_TOO_LARGE


def test_the_hash_is_known_before_and_follows_the_bytes(tmp_path: Path) -> None:
    files = {"a.jpg": GOOD, "b.jpg": GOOD[:300], "c.jpg": b"%PDF", "a.mask.png": encoded(SAW[:, :, 0], "PNG")}
    for name, data in files.items():
        (tmp_path / name).write_bytes(data)
    before = content_of(tmp_path)
    with read_photos(tmp_path) as photos:
        assert photos.sha256 == before
    (tmp_path / "a.mask.png").write_bytes(encoded(SAW[:, :, 1], "PNG"))
    assert content_of(tmp_path) not in ("", before)
    assert content_of(tmp_path, ("a.jpg",)) not in ("", before, content_of(tmp_path))
    assert content_of(tmp_path / "none") == ""


def test_cancelling_leaves_nothing(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    for name in "abc":
        (tmp_path / f"{name}.jpg").write_bytes(GOOD)
    temporary = tmp_path / "temporary"
    temporary.mkdir()
    monkeypatch.setattr("tempfile.tempdir", str(temporary))

    def cancel(stage: str, fraction: float) -> None:
        assert any(temporary.iterdir())
        raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        read_photos(tmp_path, progress=cancel)
    assert not any(temporary.iterdir())


def test_progress_runs_to_one(tmp_path: Path) -> None:
    seen: list[float] = []
    for name in "abc":
        (tmp_path / f"{name}.jpg").write_bytes(GOOD)
    with read_photos(tmp_path, progress=lambda stage, fraction: seen.append(fraction)):
        pass
    assert seen == [1 / 3, 2 / 3, 1.0]
