"""Kept stages on the disk: other code, other processes, torn files and full disks never change what is computed."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

from moldwright.commission.orders import EditionOrder
from moldwright.making.store import DiskStore

PACKAGE = {
    "pack/__init__.py": "",
    "pack/used.py": "FACTOR = 2.0\n",
    "pack/unused.py": "FACTOR = 5.0\n",
    "pack/stages.py": (
        "from pathlib import Path\nfrom pack.used import FACTOR\n\n"
        "def scaled(value: float) -> float:\n"
        "    print('computed')\n"
        "    return FACTOR * value\n"
    ),
}
SCRIPT = """
import pathlib, sys
from moldwright.making.marks import CodeMarks
from moldwright.making.store import DiskStore
from moldwright.store.stage import Stage
marks = CodeMarks(pathlib.Path("pack").absolute(), pathlib.Path("code.json"))
store = DiskStore(pathlib.Path("store"), marks=lambda name: marks(name) if name.startswith("pack.") else "form")
print(Stage("pack.stages:scaled").kept(store, lambda *_: None, 3.0).value)
"""


@pytest.fixture
def place(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder with a small package whose one stage depends on a constant of another module."""
    for name, text in PACKAGE.items():
        (tmp_path / name).parent.mkdir(exist_ok=True)
        (tmp_path / name).write_text(text)
    monkeypatch.setenv("PYTHONPATH", os.pathsep.join([str(tmp_path), *sys.path]))
    monkeypatch.setenv("PYTHONDONTWRITEBYTECODE", "1")
    monkeypatch.chdir(tmp_path)
    return tmp_path


def said() -> list[str]:
    """What a process prints that asks for the stage."""
    done = subprocess.run([sys.executable, "-c", SCRIPT], capture_output=True, text=True, check=True)
    return done.stdout.split()


def test_a_changed_constant_of_a_used_module_voids_and_another_module_does_not(place: Path) -> None:
    assert said() == ["computed", "6.0"]
    assert said() == ["6.0"]
    (place / "pack/unused.py").write_text("FACTOR = 7.0\n")
    assert said() == ["6.0"]
    (place / "pack/used.py").write_text("FACTOR = 3.0\n")
    assert said() == ["computed", "9.0"]
    (place / "pack/used.py").write_text("FACTOR = 2.0\n")
    assert said() == ["6.0"], "what the earlier code made is its own again"


@pytest.mark.parametrize("spoiled", [b"", b"torn", None])
def test_a_damaged_entry_is_made_again(place: Path, spoiled: bytes | None) -> None:
    assert said() == ["computed", "6.0"]
    kept = next((place / "store").glob("scaled-*.npz"))
    kept.write_bytes(kept.read_bytes()[:-30] if spoiled is None else spoiled)
    assert said() == ["computed", "6.0"]
    assert said() == ["6.0"]


def test_every_flipped_byte_of_an_entry_is_noticed_or_harmless(tmp_path: Path) -> None:
    store = DiskStore(tmp_path, marks=str)
    store.put("key", EditionOrder(70))
    kept = next(tmp_path.glob("key-*.npz"))
    whole = kept.read_bytes()
    for at in range(len(whole)):
        kept.write_bytes(whole[:at] + bytes([whole[at] ^ 0x55]) + whole[at + 1 :])
        assert DiskStore(tmp_path, marks=str).get("key", EditionOrder) in (None, EditionOrder(70)), at


def test_a_store_that_cannot_be_written_still_gives_and_remembers(place: Path) -> None:
    (place / "store").write_text("no folder")
    assert said() == ["computed", "6.0"]
    store = DiskStore(place / "store", marks=str)
    store.put("key", EditionOrder(7))
    assert store.get("key", EditionOrder) == EditionOrder(7)


FULL = """
import resource
resource.setrlimit(resource.RLIMIT_FSIZE, (200, 200))
"""


def test_a_full_disk_only_keeps_nothing(place: Path) -> None:
    """The system's limit on a file's size stands for a disk that runs full in the middle of writing."""
    pytest.importorskip("resource")
    done = subprocess.run([sys.executable, "-c", FULL + SCRIPT], capture_output=True, text=True, check=True)
    assert done.stdout.split() == ["computed", "6.0"]
    assert list((place / "store").iterdir()) == []
    assert said() == ["computed", "6.0"]


BUSY = """
import pathlib
from moldwright.commission.orders import EditionOrder
from moldwright.making.store import DiskStore
for turn in range(30):
    store = DiskStore(pathlib.Path("store"), most_bytes=4000, marks=str)
    for number in range(10):
        found = store.get(f"k{number}", EditionOrder)
        assert found in (None, EditionOrder(number)), (number, found)
        store.put(f"k{number}", EditionOrder(number))
"""


def test_several_processes_share_a_store_that_overflows(place: Path) -> None:
    busy = [subprocess.Popen([sys.executable, "-c", BUSY]) for _ in range(3)]
    assert [process.wait(timeout=120) for process in busy] == [0, 0, 0]
    assert not list((place / "store").glob("*.part"))


def test_the_store_drops_the_oldest(tmp_path: Path) -> None:
    store = DiskStore(tmp_path, most_bytes=1500, marks=str)
    for number in range(8):
        store.put(f"k{number}", EditionOrder(number))
    kept = list(tmp_path.glob("*.npz"))
    assert 1 <= len(kept) < 8
    assert sum(path.stat().st_size for path in kept) <= 1500


def test_entries_in_another_form_count_as_absent(tmp_path: Path) -> None:
    DiskStore(tmp_path, marks=lambda module: "before").put("key", EditionOrder(7))
    assert DiskStore(tmp_path, marks=lambda module: "after").get("key", EditionOrder) is None
    assert DiskStore(tmp_path, marks=lambda module: "before").get("key", EditionOrder) == EditionOrder(7)
