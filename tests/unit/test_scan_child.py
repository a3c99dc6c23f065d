"""Refusals through the reading child: what it refuses comes back whole, and its own bounds are refusals too."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from original_files import QUADS, box, box_3mf, every_format, off, stl
from strangers import hollow_polygons
from test_scan_refusals import REFUSED

from moldwright.errors import InputRefused
from moldwright.scan import Limits, read_with_hash
from moldwright.scan.parse import parse
from moldwright.scan.repairs import RepairCode

POINTS, FACES = box()
FILES = every_format()


@pytest.mark.parametrize("case", ["stl cut", "component bomb", "picture", "entity from a file"])
def test_refusals_come_back_from_the_child_whole(case: str, tmp_path: Path) -> None:
    name, data, code = REFUSED[case]
    (tmp_path / name).write_bytes(data)
    with pytest.raises(InputRefused) as inside:
        parse(name, data, Limits())
    with pytest.raises(InputRefused) as caught:
        read_with_hash(tmp_path / name)
    assert caught.value.as_dict() == inside.value.as_dict()
    assert caught.value.code == code


def test_missing_folder_and_empty(tmp_path: Path) -> None:
    (tmp_path / "empty.stl").write_bytes(b"")
    (tmp_path / "folder.stl").mkdir()
    codes = {
        "none.stl": "file-missing",
        "empty.stl": "file-empty",
        "folder.stl": "not-a-file",
        "a\0": "file-unreadable",
    }
    for name, code in codes.items():
        with pytest.raises(InputRefused) as caught:
            read_with_hash(tmp_path / name)
        assert caught.value.code == code


def test_a_file_larger_than_allowed(tmp_path: Path) -> None:
    (tmp_path / "a.stl").write_bytes(FILES["box.stl"])
    with pytest.raises(InputRefused) as caught:
        read_with_hash(tmp_path / "a.stl", replace(Limits(), file_bytes=100))
    assert caught.value.code == "file-too-large"


def test_a_child_without_memory_is_a_refusal(tmp_path: Path) -> None:
    points = np.random.default_rng(0).normal(size=(900_000, 3))
    (tmp_path / "a.stl").write_bytes(stl(points, np.arange(900_000).reshape(-1, 3)))
    with pytest.raises(InputRefused) as caught:
        read_with_hash(tmp_path / "a.stl", replace(Limits(), memory_bytes=100 << 20))
    assert caught.value.code == "reading-needs-too-much-memory"


def test_a_child_without_time_is_a_refusal(tmp_path: Path) -> None:
    (tmp_path / "a.stl").write_bytes(FILES["box.stl"])
    with pytest.raises(InputRefused) as caught:
        read_with_hash(tmp_path / "a.stl", replace(Limits(), wall_s=0.01))
    assert caught.value.code == "reading-takes-too-long"


def test_a_child_without_processor_time_is_a_refusal(tmp_path: Path) -> None:
    """The child may use no whole second."""
    (tmp_path / "a.off").write_bytes(hollow_polygons())
    with pytest.raises(InputRefused) as caught:
        read_with_hash(tmp_path / "a.off", replace(Limits(), cpu_s=1))
    assert caught.value.code == "reading-takes-too-long"


def test_an_obj_never_opens_its_library(tmp_path: Path) -> None:
    (tmp_path / "a.obj").write_bytes(b"mtllib /etc/hostname\n" + FILES["box.obj"])
    scan = read_with_hash(tmp_path / "a.obj").scan
    assert [repair.code for repair in scan.repairs] == [RepairCode.MATERIALS_IGNORED]


def test_3mf_quads_file_with_metadata_reads() -> None:
    assert parse("a.3mf", box_3mf(), Limits()).bodies == 1
    assert parse("a.off", off(POINTS, QUADS), Limits()).bodies == 1
