"""The small files that a commission names: read in bounds or refused, and never waited for."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from moldwright.errors import InputRefused
from moldwright.making.inputs import LONGEST_BYTES, MOST_SHEETS, is_file, read_sheets, read_text


def refused(path: Path) -> InputRefused:
    with pytest.raises(InputRefused) as caught:
        read_text(path, "commission")
    assert caught.value.remedy
    assert caught.value.limit
    return caught.value


def test_a_pipe_a_device_and_a_folder_are_no_file(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "pipe")
    for path in (tmp_path / "pipe", Path("/dev/zero"), Path("/dev/null"), tmp_path):
        assert refused(path).code == "not-a-file"
        assert not is_file(path)


def test_names_that_lead_nowhere(tmp_path: Path) -> None:
    (tmp_path / "loop").symlink_to(tmp_path / "loop")
    (tmp_path / "dangling").symlink_to(tmp_path / "nothing")
    for name in ("nothing", "dangling", "nothing/at/all"):
        assert refused(tmp_path / name).code == "file-missing"
    for name in ("loop", "n" * 300, "n\x00", "\ud800\x00"):
        assert refused(tmp_path / name).code == "file-unreadable"
        assert not is_file(tmp_path / name)


def test_what_is_no_text_or_too_long(tmp_path: Path) -> None:
    path = tmp_path / "commission.toml"
    for raw in (
        b"\xff",
        b"\xc0\x80",
        b"\xed\xa0\x80",
        b"\xf4\x90\x80\x80",
        "é".encode("latin-1"),
        "a".encode("utf-16"),
    ):
        path.write_bytes(raw)
        assert refused(path).code == "file-no-text"
    path.write_bytes(b"a" * (LONGEST_BYTES + 1))
    assert refused(path).code == "file-too-long"
    path.write_bytes(b"\xef\xbb\xbfa\r\n")
    assert read_text(path, "commission") == "a\r\n"


def test_a_folder_of_sheets_is_bounded(tmp_path: Path) -> None:
    with pytest.raises(InputRefused, match="none"):
        read_sheets(tmp_path)
    for n in range(MOST_SHEETS):
        (tmp_path / f"{n:03}.toml").write_text("# one")
    assert len(read_sheets(tmp_path)) == MOST_SHEETS
    (tmp_path / "more.toml").write_text("")
    with pytest.raises(InputRefused, match=f"more than {MOST_SHEETS}"):
        read_sheets(tmp_path)


def test_sheets_together_are_as_long_as_a_file_may_be(tmp_path: Path) -> None:
    for n in range(3):
        (tmp_path / f"{n}.toml").write_text(" " * (LONGEST_BYTES // 2))
    with pytest.raises(InputRefused, match="sheets-too-long"):
        read_sheets(tmp_path)


def test_a_sheets_name_is_printed_and_so_made_harmless(tmp_path: Path) -> None:
    (tmp_path / "\x1b[31m\u202e\udcff.toml").write_text("# one")
    assert list(read_sheets(tmp_path)) == ["\\x1b[31m\\u202e\\udcff.toml"]


def test_two_names_that_are_printed_alike_are_two_sheets(tmp_path: Path) -> None:
    (tmp_path / "a\x1b.toml").write_text("# one")
    (tmp_path / "a\\x1b.toml").write_text("# two")
    assert sorted(read_sheets(tmp_path).values()) == ["# one", "# two"]


def test_the_folders_place_is_no_folder(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("")
    for name in ("file", "nothing", "n" * 300, "n\x00"):
        with pytest.raises(InputRefused, match="sheets-missing"):
            read_sheets(tmp_path / name)
