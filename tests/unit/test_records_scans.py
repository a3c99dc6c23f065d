"""Scans kept as they come: told by their bytes, streamed, refused where they are not what they say."""

from __future__ import annotations

import hashlib
import io
import os
import struct
import tracemalloc
from collections.abc import Iterator
from pathlib import Path

import pytest
from original_files import box, box_3mf, every_format, glb, stl, threemf
from sqlalchemy import select

from moldwright.errors import InputRefused
from moldwright.log.event import About
from moldwright.log.ids import PieceId, SubjectId
from moldwright.log.piece_events import PieceFile, PieceTakenIn
from moldwright.records.clock import BenchClock
from moldwright.records.files.check import FileFault, FileFinding, file_findings
from moldwright.records.files.incoming import LEFT_S, put_blocks
from moldwright.records.files.kept import bytes_of, place_of
from moldwright.records.files.scans import keep_scan
from moldwright.records.shop import Shop
from moldwright.records.store.tables import FILE

PIECE = PieceId(SubjectId("017f22e2-79b0-7cc3-98c4-dc0c0c07398f"))
POINTS, FACES = box()
BINARY = stl(POINTS, FACES)
TYPES = {"stl": "model/stl", "ply": "model/x.ply", "obj": "model/obj", "off": "model/x.off",
         "glb": "model/gltf-binary", "3mf": "model/3mf"}  # fmt: skip
"""Media types as they are registered (STL, OBJ, glTF binary, 3MF: from memory); those of PLY and OFF are our own."""


class Stream(io.RawIOBase):
    """So many bytes that come from nowhere, never all at once: a binary STL of zeros with its count."""

    def __init__(self, size: int) -> None:
        self._left, self._head = size - 84, bytes(80) + struct.pack("<I", (size - 84) // 50)

    def readable(self) -> bool:
        return True

    def read(self, most: int = -1) -> bytes:
        head, self._head = self._head, b""
        count = min(max(0, most - len(head)), self._left)
        self._left -= count
        return head + bytes(count)


@pytest.mark.parametrize("name", every_format())
def test_every_format_is_kept_to_the_byte_by_its_hash(shop: Shop, tmp_path: Path, name: str) -> None:
    data = every_format()[name]
    (tmp_path / name).write_bytes(data)
    file = keep_scan(shop, tmp_path / name)
    assert file == hashlib.sha256(data).hexdigest()
    assert bytes_of(shop.files, file) == data
    assert keep_scan(shop, io.BytesIO(data), name) == file
    with shop.reading() as connection:
        row = connection.execute(select(FILE)).one()
    assert (row.type, row.size, row.name) == (TYPES[name.rpartition(".")[2]], len(data), name)
    assert [path.name for path in shop.files.rglob("*") if path.is_file()] == [file]


def test_a_few_bytes_after_the_last_triangle_are_as_good_as_for_the_reader(shop: Shop) -> None:
    assert bytes_of(shop.files, keep_scan(shop, io.BytesIO(BINARY + b"\r\n"), "a.stl")) == BINARY + b"\r\n"


REFUSED = {
    "empty": (b"", "a.stl", "file-empty"),
    "cut": (BINARY[:-60], "a.stl", "file-cut-off"),
    "more-behind": (BINARY + bytes(60), "a.stl", "file-cut-off"),
    "no-triangle": (bytes(84), "a.stl", "file-cut-off"),
    "cut-glb": (glb(POINTS, FACES)[:-8], "a.glb", "file-cut-off"),
    "cut-3mf": (box_3mf()[:-40], "a.3mf", "file-cut-off"),
    "another-zip": (b"PK\3\4" + bytes(100) + b"PK\5\6" + bytes(18), "a.3mf", "file-cut-off"),
    "two-letters-of-ply": (b"pl", "a.ply", "file-cut-off"),
    "comment-alone": (b"# nothing\n", "a.obj", "file-cut-off"),
    "photo": (b"\xff\xd8\xff\xe0" + bytes(100), "a.stl", "mislabelled"),
    "pdf": (b"%PDF-1.7\n", "a.obj", "mislabelled"),
    "web-page": (b"<html><script>alert(1)</script>", "a.obj", "mislabelled"),
    "other-format": (BINARY, "a.obj", "mislabelled"),
    "no-ending": (BINARY, "scan", "format-unknown"),
    "picture-ending": (BINARY, "a.jpg", "format-unknown"),
    "program-that-fits": (stl(POINTS, FACES, b"MZ"), "a.stl", "file-not-kept"),
    "script-that-fits": (stl(POINTS, FACES, b"#!/bin/sh\n"), "a.stl", "file-not-kept"),
    "page-in-its-head": (stl(POINTS, FACES, b"<html><script>"), "a.stl", "file-not-kept"),
    "page-in-a-comment": (b"v 0 0 0\n# <SCRIPT >alert(1)\nf 1 1 1\n", "a.obj", "file-not-kept"),
    "page-in-a-ply": (b"ply\ncomment <svg onload=x>\n", "a.ply", "file-not-kept"),
    "zeros-in-a-text": (b"v 0 0 0\nf 1 1 1\n" + b" " * 70_000 + b"\0", "a.obj", "file-cut-off"),
    "too-large": (b"ply\n" + bytes(100_000_000), "a.ply", "file-too-large"),
}  # fmt: skip


@pytest.mark.parametrize("which", REFUSED)
def test_what_is_no_scan_is_refused_by_what_it_is_and_leaves_nothing(shop: Shop, which: str) -> None:
    data, name, code = REFUSED[which]
    with pytest.raises(InputRefused, match=code) as caught:
        keep_scan(shop, io.BytesIO(data), name)
    assert caught.value.remedy
    assert not shop.files.exists()
    assert file_findings(shop) == ()


def test_tags_across_two_pieces_of_a_stream_are_seen(shop: Shop) -> None:
    """The stream is read by the million of bytes (2^20); the tag begins 3 bytes before that."""
    text = b"v 0 0 0\nf 1 1 1\n"
    data = text + b" " * ((1 << 20) - 3 - len(text)) + b"<script>\n"
    with pytest.raises(InputRefused, match="file-not-kept"):
        keep_scan(shop, io.BytesIO(data), "a.obj")


def test_the_limit_is_told_in_megabytes(shop: Shop) -> None:
    with pytest.raises(InputRefused, match="file-too-large") as caught:
        keep_scan(shop, Stream(100_000_034), "big.stl")
    assert (caught.value.limit, caught.value.unit) == (100, "MB")


def test_the_largest_scan_is_streamed_and_memory_stays_flat(shop: Shop) -> None:
    """99,999,984 = 84 + 50 x 1,999,998 bytes, by hand; of all of it at once never more than a tenth is held."""
    tracemalloc.start()
    try:
        file = keep_scan(shop, Stream(99_999_984), "large.stl")
        faults = file_findings(shop)
        _, most = tracemalloc.get_traced_memory()
    finally:
        tracemalloc.stop()
    assert place_of(shop.files, file).stat().st_size == 99_999_984
    assert faults == (FileFinding(FileFault.UNREFERRED, file, "large.stl"),)
    assert most < 10_000_000


def test_a_stream_that_ends_in_an_error_leaves_nothing(shop: Shop) -> None:
    class Torn(Stream):
        def read(self, most: int = -1) -> bytes:
            if self._left < 1_000_000:
                raise OSError(5, "Input/output error")
            return super().read(most)

    with pytest.raises(InputRefused, match="file-unreadable"):
        keep_scan(shop, Torn(3_000_034), "a.stl")
    assert not shop.files.exists()


def test_who_stops_in_the_middle_leaves_nothing(shop: Shop) -> None:
    def stopping() -> Iterator[bytes]:
        yield b"some"
        raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        put_blocks(shop.files, stopping())
    assert not shop.files.exists()


def test_what_a_killed_command_left_goes_after_a_day(shop: Shop) -> None:
    shop.files.mkdir(parents=True)
    old, new = shop.files / ".old.part", shop.files / ".new.part"
    for part in (old, new):
        part.write_bytes(b"half")
    before = old.stat().st_mtime - LEFT_S - 60
    os.utime(old, (before, before))
    keep_scan(shop, io.BytesIO(BINARY), "a.stl")
    assert (old.exists(), new.exists()) == (False, True)


def test_a_damaged_one_is_whole_again_when_it_comes_again(shop: Shop) -> None:
    file = keep_scan(shop, io.BytesIO(BINARY), "a.stl")
    place_of(shop.files, file).write_bytes(BINARY[:-1] + b"?")
    assert [each.fault for each in file_findings(shop)] == [FileFault.DAMAGED, FileFault.UNREFERRED]
    assert keep_scan(shop, io.BytesIO(BINARY), "a.stl") == file
    assert bytes_of(shop.files, file) == BINARY


def test_a_pipe_is_never_waited_for(shop: Shop, tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "a.stl")
    with pytest.raises(InputRefused, match="not-a-file"):
        keep_scan(shop, tmp_path / "a.stl")
    with pytest.raises(InputRefused, match="file-missing"):
        keep_scan(shop, tmp_path / "b.stl")


def test_a_piece_refers_to_its_files(shop: Shop) -> None:
    file = keep_scan(shop, io.BytesIO(threemf("<model/>")), "a.3mf")
    assert [each.fault for each in file_findings(shop)] == [FileFault.UNREFERRED]
    body = PieceTakenIn("otter", "", (PieceFile("a.3mf", file),))
    shop.append([BenchClock("one").event(About.PIECE, PIECE, body)])
    assert file_findings(shop) == ()
