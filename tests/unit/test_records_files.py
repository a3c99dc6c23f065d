"""Files of the shop: kept by hash, told by what they are, and never in the way of the rest."""

from __future__ import annotations

import hashlib
import io
import random
import struct
import time
from concurrent.futures import ThreadPoolExecutor
from contextlib import suppress
from pathlib import Path

import numpy as np
import pi_heif
import pytest
from photo_files import HEIC, encoded, exif, jpeg_of_size, picture, png_bomb
from PIL import Image
from PIL.PngImagePlugin import PngInfo
from PIL.TiffImagePlugin import IFDRational

from moldwright.errors import InputRefused, RecordConflict
from moldwright.log.any_events import Attached, Unread
from moldwright.log.event import About
from moldwright.log.ids import FileHash, LotId, RunId, SubjectId
from moldwright.log.lot_events import LotReceived, Stuff
from moldwright.photos.reading import read
from moldwright.photos.reading.decode import decode
from moldwright.photos.reading.limits import PhotoLimits
from moldwright.plan.needs import NeedUnit
from moldwright.records.clock import BenchClock
from moldwright.records.files.bare import BARE
from moldwright.records.files.camera import TornPhoto
from moldwright.records.files.check import FileFault, FileFinding, file_findings
from moldwright.records.files.keep import attach, keep_file, keep_files
from moldwright.records.files.kept import bytes_of, place_of, put
from moldwright.records.files.kinds import FileType
from moldwright.records.shop import Shop

RUN = RunId(SubjectId("017f22e2-79b0-7cc3-98c4-dc0c0c07398f"))
LOT = LotId(SubjectId("017f22e2-79b0-7cc3-98c4-dc0c0c073990"))
PDF = b"%PDF-1.7\n1 0 obj\nendobj\ntrailer\n%%EOF\n"
PLACE = b"52 deg 31 min N"


def located(orientation: int = 1) -> Image.Exif:
    """EXIF with a place, a serial number and a maker, as a camera writes them (JEITA CP-3451, 4.6.5 and 4.6.6)."""
    tags = exif(orientation)
    tags[0x010F] = "SomeMaker"
    tags.get_ifd(0x8769)[0xA431] = "SERIAL-0815"
    tags.get_ifd(0x8825)[0x0002] = (52.0, 31.0, 12.0)
    tags.get_ifd(0x8825)[0x001D] = "2026:11:27"
    return tags


def pixels(data: bytes) -> np.ndarray:
    return np.asarray(Image.open(io.BytesIO(data)).convert("RGB"))


def test_a_file_is_kept_once_by_its_hash_and_comes_back(shop: Shop, tmp_path: Path) -> None:
    """The hash is checked against hashlib's, the place is as documented."""
    (tmp_path / "Certificate 7.pdf").write_bytes(PDF)
    first = keep_file(shop, tmp_path / "Certificate 7.pdf")
    assert first == hashlib.sha256(PDF).hexdigest()
    assert keep_file(shop, PDF, "the same") == first
    assert (shop.files / first[:2] / first).read_bytes() == PDF == bytes_of(shop.files, first)
    assert [path.name for path in shop.files.rglob("*") if path.is_file()] == [first]
    attach(shop, BenchClock("one"), About.LOT, LOT, first, "as it came")
    assert [event.body for event in shop.events_of(LOT)] == [Attached(first, "as it came")]
    assert file_findings(shop) == ()


@pytest.mark.parametrize("orientation", [1, 6])
@pytest.mark.parametrize("progressive", [False, True])
def test_a_jpeg_loses_place_and_serial_and_no_pixel(orientation: int, progressive: bool) -> None:
    data = encoded(picture(), exif=located(orientation), comment=PLACE, progressive=progressive)
    data = data.replace(b"\xff\xdb", b"\xff\xed" + struct.pack(">H", 2 + len(PLACE)) + PLACE + b"\xff\xdb", 1)
    bare = BARE[FileType.JPEG](data + b"\xff\xd8\xff\xe1 a second picture, with its own place " + PLACE)
    assert (pixels(bare) == pixels(data)).all()
    assert dict(Image.open(io.BytesIO(bare)).getexif()) == ({0x0112: 6} if orientation == 6 else {})
    for told in (PLACE, b"SERIAL", b"SomeMaker", b"2026"):
        assert told in data
        assert told not in bare
    assert BARE[FileType.JPEG](bare) == bare


@pytest.mark.parametrize("orientation", [1, 6])
def test_a_png_loses_place_and_serial_and_no_pixel(orientation: int) -> None:
    told = PngInfo()
    told.add_text("Comment", PLACE.decode())
    data = encoded(picture(), "PNG", pnginfo=told, exif=located(orientation))
    bare = BARE[FileType.PNG](data + PLACE)
    assert (pixels(bare) == pixels(data)).all()
    assert dict(Image.open(io.BytesIO(bare)).getexif()) == ({0x0112: 6} if orientation == 6 else {})
    for word in (PLACE, b"SERIAL", b"SomeMaker"):
        assert word in data
        assert word not in bare
    assert BARE[FileType.PNG](bare) == bare


def test_a_heic_loses_what_it_tells_and_no_pixel() -> None:
    """Its decoder stands it upright by the picture's own turn; of the EXIF beside it two figures are left."""
    hidden = struct.pack(">I4s", 8 + len(PLACE), b"uuid") + PLACE
    data = HEIC + hidden
    bare = BARE[FileType.HEIC](data)
    before, after = pi_heif.open_heif(data), pi_heif.open_heif(bare)
    assert bytes(before.data) == bytes(after.data)
    assert before.size == after.size
    assert b"Exif\0\0MM" in data
    assert b"Exif\0\0MM" not in bare
    assert PLACE not in bare
    assert len(bare) == len(data)
    assert BARE[FileType.HEIC](bare) == bare


def zoomed(focal: object, kind: str, orientation: int = 1) -> bytes:
    tags = located(orientation)
    tags.get_ifd(0x8769)[0xA405] = focal
    return encoded(picture(), kind, exif=tags)


def in_two_segments(data: bytes) -> bytes:
    """The EXIF cut in two, as a large one is: each segment says "Exif" before its part, and the decoder joins them."""
    at = data.index(b"\xff\xe1")
    end = at + 2 + int.from_bytes(data[at + 2 : at + 4], "big")
    body = data[at + 10 : end]
    parts = [b"Exif\0\0" + part for part in (body[:40], body[40:])]
    segments = b"".join(b"\xff\xe1" + struct.pack(">H", len(part) + 2) + part for part in parts)
    return data[:at] + segments + data[end:]


PHOTOS = {
    "jpeg": (FileType.JPEG, zoomed(26, "JPEG"), 26.0),
    "jpeg-turned": (FileType.JPEG, zoomed(1200, "JPEG", 7), 1200.0),
    "jpeg-in-two": (FileType.JPEG, in_two_segments(zoomed(26, "JPEG", 6)), 26.0),
    "jpeg-fraction": (FileType.JPEG, zoomed(IFDRational(53, 2), "JPEG", 3), 26.5),
    "jpeg-senseless": (FileType.JPEG, zoomed(3, "JPEG", 3), None),
    "png": (FileType.PNG, zoomed(26, "PNG", 8), 26.0),
    "png-fraction": (FileType.PNG, zoomed(IFDRational(80, 3), "PNG"), 80 / 3),
    "heic": (FileType.HEIC, HEIC, 26.0),
}


@pytest.mark.parametrize("which", PHOTOS)
def test_what_is_kept_of_a_photo_is_all_that_the_photo_way_takes_of_it(which: str) -> None:
    """Pixels, which way the sensor lay, and the zoom: what `decode` gives is all that a plan is made of."""
    kind, data, focal = PHOTOS[which]
    bare = BARE[kind](data)
    before, after = decode(data, PhotoLimits()), decode(bare, PhotoLimits())
    assert (after.pixels == before.pixels).all()
    assert (after.quarters, after.focal_35mm) == (before.quarters, before.focal_35mm)
    assert after.focal_35mm == focal
    assert b"SERIAL" not in bare
    assert BARE[kind](bare) == bare


@pytest.mark.parametrize(
    ("name", "data"),
    [("a.jpg", encoded(picture(), exif=located(6))), ("b.txt", encoded(picture(), "PNG")), ("c", HEIC)],
    ids=["jpeg", "png", "heic"],
)
def test_a_photo_is_kept_whatever_its_name(shop: Shop, tmp_path: Path, name: str, data: bytes) -> None:
    (tmp_path / name).write_bytes(data)
    file = keep_file(shop, tmp_path / name)
    kept = bytes_of(shop.files, file)
    assert hashlib.sha256(kept).hexdigest() == file
    assert b"SERIAL" not in kept
    assert keep_file(shop, data, "again") == file


WEB = "a web page, or a drawing that can hold code"
REFUSED = {
    "empty": (b"", "file-empty", ""),
    "svg": (b'<svg xmlns="http://www.w3.org/2000/svg"/>', "file-not-kept", WEB),
    "svg-later": (b"a note\n<?xml version='1.0'?><svg/>", "file-not-kept", WEB),
    "html": (b"<!DOCTYPE html><p>", "file-not-kept", WEB),
    "code-in-text": (b"hello <SCRIPT >alert(1)", "file-not-kept", WEB),
    "script": (b"#!/bin/sh\nrm -rf /\n", "file-not-kept", "a script"),
    "program": (b"\x7fELF\2\1\1" + bytes(100), "file-not-kept", "a program"),
    "windows": (b"MZ\x90\0" + bytes(100), "file-not-kept", "a program"),
    "zip": (b"PK\3\4" + bytes(100), "file-not-kept", "an archive"),
    "gzip": (b"\x1f\x8b\x08" + bytes(100), "file-not-kept", "an archive"),
    "tar": (bytes(257) + b"ustar" + bytes(300), "file-not-kept", "an archive"),
    "office": (b"\xd0\xcf\x11\xe0" + bytes(100), "file-not-kept", "an office document"),
    "gif": (b"GIF89a" + bytes(100), "file-not-kept", "a picture of another kind"),
    "movie": (b"\0\0\0\x18ftypisom" + bytes(100), "file-not-kept", "a movie"),
    "binary": (bytes(range(256)), "file-not-kept", "of no kind"),
    "latin": ("Größe".encode("latin-1"), "file-not-kept", "of no kind"),
    "steering": (b"red \x1b[31m", "file-not-kept", "U+001B"),
    "turned-round": ("a \u202e b".encode(), "file-not-kept", "U+202E"),
    "cut-pdf": (PDF[:-8], "file-cut-off", ""),
    "pdf-and-more": (PDF + b"PK\3\4 and more", "file-cut-off", ""),
    "long-text": (b"a" * 1_000_001, "file-too-large", ""),
    "long-pdf": (b"%PDF-1.7" + bytes(20_000_000) + b"%%EOF", "file-too-large", ""),
    "cut-jpeg": (encoded(picture())[:-40], "photo-unreadable", ""),
    "cut-png": (encoded(picture(), "PNG")[:-40], "photo-unreadable", ""),
    "cut-heic": (HEIC[:-100], "photo-unreadable", ""),
    "torn-heic": (b"\0\0\0\x1cftypheic" + bytes(200), "photo-unreadable", ""),
    "head-alone": (b"\xff\xd8\xff\xe0", "photo-unreadable", ""),
}


@pytest.mark.parametrize("which", REFUSED)
def test_what_is_not_kept_is_refused_by_what_it_is_and_leaves_nothing(shop: Shop, which: str) -> None:
    data, code, told = REFUSED[which]
    with pytest.raises(InputRefused, match=code) as caught:
        keep_file(shop, data, "photo.jpg")
    assert told in str(caught.value.actual)
    assert caught.value.remedy
    assert not shop.files.exists()


@pytest.mark.parametrize("data", [png_bomb(30_000, 30_000), jpeg_of_size(60_000, 60_000)], ids=["png", "jpeg"])
def test_a_picture_that_announces_more_than_memory_holds_is_refused(shop: Shop, data: bytes) -> None:
    with pytest.raises(InputRefused, match="photo-unreadable"):
        keep_file(shop, data, "bomb.jpg")


def test_many_files_are_kept_as_one_by_one_would_and_one_process_looks_at_all_photos(
    shop: Shop, monkeypatch: pytest.MonkeyPatch
) -> None:
    """As many hashes as files, each that which the file alone has."""
    asked, real = list[str](), read.child_process
    monkeypatch.setattr(read, "child_process", lambda module, *more: (asked.append(module), real(module, *more))[1])
    files = [encoded(picture(), "PNG"), b"a note", encoded(picture(120, 160), exif=located()), HEIC, PDF]
    kept = keep_files(shop, [(data, f"file-{number}") for number, data in enumerate(files)])
    assert len(asked) == 1
    assert kept == [keep_file(shop, data, "again") for data in files]


def test_of_many_photos_the_one_that_does_not_open_is_named_and_none_is_listed(shop: Shop) -> None:
    files = [(encoded(picture()), "good.png"), (png_bomb(30_000, 30_000), "bomb.png"), (HEIC, "good.heic")]
    with pytest.raises(InputRefused, match="photo-unreadable") as caught:
        keep_files(shop, files)
    assert str(caught.value.actual) == "bomb.png: too-many-pixels"
    assert not shop.files.exists()


def test_what_has_no_bytes_is_told(shop: Shop, tmp_path: Path) -> None:
    with pytest.raises(InputRefused, match="file-missing"):
        keep_file(shop, tmp_path / "nowhere.pdf")
    with pytest.raises(InputRefused, match="not-a-file"):
        keep_file(shop, tmp_path)


def test_missing_and_damaged_files_are_told_and_all_else_goes_on(shop: Shop) -> None:
    gone, hurt, loose = (keep_file(shop, f"text {n}".encode(), f"{n}.txt") for n in range(3))
    clock = BenchClock("one")
    for file in (gone, hurt):
        attach(shop, clock, About.RUN, RUN, file)
    strange = FileHash("ab" * 32)
    received = LotReceived(Stuff("rubber", "a"), 900.0, NeedUnit.GRAM, "2026-11-01", certificate=strange)
    shop.append([clock.event(About.LOT, LOT, received)])
    place_of(shop.files, gone).unlink()
    place_of(shop.files, hurt).write_bytes(b"text 7")
    (shop.files / "left.txt").write_text("left")
    assert file_findings(shop) == (
        FileFinding(FileFault.DAMAGED, hurt, "1.txt"),
        FileFinding(FileFault.MISSING, gone, "0.txt"),
        FileFinding(FileFault.NEVER_KEPT, strange),
        FileFinding(FileFault.UNLISTED, "left.txt"),
        FileFinding(FileFault.UNREFERRED, loose, "2.txt"),
    )
    for file, code in ((gone, "file-missing"), (hurt, "file-damaged"), ("../../etc/passwd", "file-missing")):
        with pytest.raises(RecordConflict, match=code):
            bytes_of(shop.files, FileHash(file))
    assert keep_file(shop, b"text 1") == hurt
    assert bytes_of(shop.files, hurt) == b"text 1"
    assert len(shop.events_of(RUN)) == 2


def test_a_kind_that_is_not_known_refers_to_the_files_it_writes(shop: Shop) -> None:
    file = keep_file(shop, b"a swatch", "a.txt")
    shop.append([BenchClock("newer").event(About.RUN, RUN, Unread("swatched", f'{{"seen": ["{file}"]}}'))])
    assert file_findings(shop) == ()


def test_a_full_disk_keeps_nothing(shop: Shop, monkeypatch: pytest.MonkeyPatch) -> None:
    def full(*_: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("moldwright.disk.whole_file.os.fsync", full)
    with pytest.raises(InputRefused, match="files-unwritable"):
        put(shop.files, b"text")
    assert [path for path in shop.files.rglob("*") if path.is_file()] == []
    monkeypatch.undo()
    assert file_findings(shop) == ()


@pytest.mark.parametrize("kind", [FileType.JPEG, FileType.PNG, FileType.HEIC])
def test_a_torn_photo_is_taken_apart_or_told_and_nothing_else_happens(kind: FileType) -> None:
    """Bytes altered, cut out and put in at random: a picture comes out, or it is told that none does."""
    sound = {
        FileType.JPEG: encoded(picture(), exif=located(6)),
        FileType.PNG: encoded(picture(), "PNG", exif=located(6)),
        FileType.HEIC: HEIC,
    }[kind]
    chance, torn = random.Random(9), 0
    for _ in range(1500):
        data = bytearray(sound)
        for _ in range(chance.randrange(1, 6)):
            at = chance.randrange(len(data))
            data[at : at + chance.randrange(4)] = chance.randbytes(chance.randrange(4))
        try:
            assert len(BARE[kind](bytes(data))) <= len(data) + 64
        except (TornPhoto, IndexError):
            torn += 1
    assert torn > 10


def test_a_table_that_promises_more_than_there_is_ends_soon() -> None:
    """Items without size, 65,535 times 65,535 of them, as 8 bytes of a HEIC can say."""
    at = HEIC.index(b"iloc") + 8
    data = HEIC[:at] + struct.pack(">HHHHHH", 0, 65535, 1, 0, 65535, 1) + HEIC[at + 12 :]
    before = time.monotonic()
    with suppress(TornPhoto, IndexError):
        BARE[FileType.HEIC](data)
    assert time.monotonic() - before < 10


def test_many_benches_keep_the_same_file_at_once(shop: Shop) -> None:
    with ThreadPoolExecutor(8) as benches:
        found = set(benches.map(lambda _: keep_file(shop, b"the same text", "a.txt"), range(24)))
    (file,) = found
    assert bytes_of(shop.files, file) == b"the same text"
    assert [path.name for path in shop.files.rglob("*") if path.is_file()] == [file]
