"""The bytes that are hashed are the bytes that are read; and the reading child ends with whoever started it."""

from __future__ import annotations

import hashlib
import os
import signal
import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path

import numpy as np
import pytest
from original_files import box, stl
from strangers import hollow_polygons

from moldwright.errors import InputRefused
from moldwright.making import order
from moldwright.making.store import DiskStore
from moldwright.scan import Limits
from moldwright.scan.read import Reading, read_with_hash

OLD, NEW = stl(*box(20, 30, 40)), stl(*box(25, 35, 45))
Change = Callable[[Path], None]


def replaced_by_another_file(path: Path) -> None:
    other = path.with_name("other")
    other.write_bytes(NEW)
    os.replace(other, path)


def written_over_in_place(path: Path) -> None:
    with path.open("r+b") as file:
        file.write(NEW)


def size_of(scan: object) -> list[float]:
    return np.ptp(scan.mesh.vertices, axis=0).tolist()  # type: ignore[attr-defined, no-any-return]


def test_the_hash_is_that_of_the_bytes_read(tmp_path: Path) -> None:
    """SHA-256 as the standard library computes it over the file."""
    (tmp_path / "a.stl").write_bytes(OLD)
    assert read_with_hash(tmp_path / "a.stl").sha256 == hashlib.sha256(OLD).hexdigest()


@pytest.mark.parametrize("change", [replaced_by_another_file, written_over_in_place])
def test_a_scan_replaced_between_hash_and_reading_leaves_no_wrong_scan(
    change: Change, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The file really changes after its hash was taken and before the child opens it."""
    path, store = tmp_path / "a.stl", DiskStore(tmp_path / "store")
    path.write_bytes(OLD)

    def late(path: Path, limits: Limits) -> Reading:
        change(path)
        return read_with_hash(path, limits)

    with monkeypatch.context() as patch:
        patch.setattr(order, "read_with_hash", late)
        assert size_of(order.scan_of(path, store).value) == [25, 35, 45]
    path.write_bytes(OLD)
    assert size_of(order.scan_of(path, store).value) == [20, 30, 40]
    path.write_bytes(NEW)
    with monkeypatch.context() as patch:
        patch.setattr(order, "read_with_hash", None)
        assert size_of(order.scan_of(path, store).value) == [25, 35, 45], "kept under its own hash"


def test_a_scan_that_is_gone_when_the_child_comes_is_refused(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = tmp_path / "a.stl"
    path.write_bytes(OLD)
    monkeypatch.setattr("moldwright.scan.read._check_file", lambda path, limits: path.unlink())
    with pytest.raises(InputRefused) as caught:
        read_with_hash(path)
    assert caught.value.code == "file-unreadable"


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="no named pipes here")
def test_a_scan_that_became_a_pipe_does_not_hang(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = tmp_path / "a.stl"
    os.mkfifo(path)
    monkeypatch.setattr("moldwright.scan.read._check_file", lambda path, limits: None)
    with pytest.raises(InputRefused) as caught:
        read_with_hash(path)
    assert caught.value.code == "not-a-file"


SLOW = """
import signal, sys
signal.signal(signal.SIGINT, signal.default_int_handler)  # a shell lets what runs behind it ignore Ctrl-C
from moldwright.scan import read_with_hash
print("begin", flush=True)
try:
    read_with_hash(sys.argv[1])
except KeyboardInterrupt:
    sys.exit(130)
"""


def children(of: int) -> list[int]:
    """Processes whose parent is `of`."""
    found = []
    for entry in Path("/proc").iterdir():
        try:
            fields = (entry / "stat").read_text().rsplit(")", 1)[1].split()
        except (OSError, IndexError):
            continue
        if fields[1] == str(of) and fields[0] != "Z":
            found.append(int(entry.name))
    return found


def until(true: Callable[[], object], seconds: float = 60.0) -> bool:
    """Whether it becomes true; generous, so that a busy machine changes nothing."""
    end = time.monotonic() + seconds
    while not true():
        if time.monotonic() > end:
            return False
        time.sleep(0.05)
    return True


@pytest.mark.skipif(not Path("/proc/self/stat").exists(), reason="processes are found by /proc")
@pytest.mark.parametrize("number", [signal.SIGINT, signal.SIGKILL])
def test_the_child_ends_with_its_parent(number: signal.Signals, tmp_path: Path) -> None:
    (tmp_path / "slow.off").write_bytes(hollow_polygons())
    with subprocess.Popen([sys.executable, "-c", SLOW, str(tmp_path / "slow.off")], stdout=subprocess.PIPE) as parent:
        assert parent.stdout is not None
        assert parent.stdout.readline() == b"begin\n"
        assert until(lambda: children(parent.pid))
        child = children(parent.pid)[0]
        os.kill(parent.pid, number)
        assert parent.wait(60) == (130 if number is signal.SIGINT else -signal.SIGKILL)
    assert until(lambda: not Path(f"/proc/{child}").exists() or "\nState:\tZ" in _status(child), 20)


def _status(pid: int) -> str:
    try:
        return Path(f"/proc/{pid}/status").read_text()
    except OSError:
        return "\nState:\tZ"
