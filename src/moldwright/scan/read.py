"""An untrusted scan, read by a child process with bounds on memory and time."""

from __future__ import annotations

import json
import subprocess
import tempfile
from dataclasses import asdict, dataclass
from pathlib import Path
from stat import S_ISREG
from typing import Any

import numpy as np

from moldwright.child.start import child_process, out_of_time
from moldwright.errors import InputRefused
from moldwright.geometry.mesh import Mesh
from moldwright.scan.limits import Limits
from moldwright.scan.refuse import REDUCE, file_too_large
from moldwright.scan.repairs import Repair, RepairCode
from moldwright.scan.scan import Scan


@dataclass(frozen=True, slots=True, eq=False)
class Reading:
    """A scan and the SHA-256 of the very bytes that it was read from, 64 hexadecimal digits."""

    scan: Scan
    sha256: str


def read_with_hash(path: str | Path, limits: Limits | None = None) -> Reading:
    """The scan in a file and the hash of the bytes that were read: both from one copy in the child's memory.

    The file is read by a child process only, which answers with plain arrays; if the child ends early, runs out
    of memory or of time, that is a refusal too. The child ends when this process does. Whatever happens to the file
    meanwhile, the hash is that of the scan, which is in the file's own units.

    Parameters
    ----------
    path : an STL, PLY, OBJ, OFF, GLB or 3MF file.
    limits : what reading may cost.
    """
    limits = limits or Limits()
    path = Path(path).absolute()
    _check_file(path, limits)
    with tempfile.TemporaryDirectory(prefix="moldwright-") as folder:
        code = _run(path, Path(folder), limits)
        return _answer(Path(folder), code, limits)


def _check_file(path: Path, limits: Limits) -> None:
    name = path.name
    try:
        status = path.stat()
        if not S_ISREG(status.st_mode):
            raise InputRefused("not-a-file", name, "a file", "", "Give the scan itself, not its folder.")
        with path.open("rb"):
            pass
    except (FileNotFoundError, NotADirectoryError):
        raise InputRefused("file-missing", name, None, "", f"There is no such file in {path.parent}.") from None
    except (OSError, ValueError):
        raise InputRefused("file-unreadable", name, None, "", "Check the file's permissions and its disk.") from None
    if status.st_size == 0:
        raise InputRefused("file-empty", 0, 1, "bytes", "Copy or export the file again.")
    if status.st_size > limits.file_bytes:
        raise file_too_large(status.st_size, limits)


def _run(path: Path, folder: Path, limits: Limits) -> int:
    """The child's exit code, negative for the signal that ended it."""
    order = {"path": str(path), "limits": asdict(limits)}
    with child_process("moldwright.scan.reader_child", order, folder) as child:
        try:
            return child.wait(limits.wall_s)
        except subprocess.TimeoutExpired:
            raise _too_long(limits) from None


def _too_long(limits: Limits) -> InputRefused:
    return InputRefused("reading-takes-too-long", f"over {limits.cpu_s}", limits.cpu_s, "s", REDUCE)


def _too_large(limits: Limits) -> InputRefused:
    limit = round(limits.memory_bytes / 2**30, 2)
    return InputRefused("reading-needs-too-much-memory", f"over {limit}", limit, "GiB", REDUCE)


def _answer(folder: Path, code: int, limits: Limits) -> Reading:
    file = folder / "answer.json"
    if out_of_time(code):
        raise _too_long(limits)
    if code != 0 or not file.exists():
        raise _too_large(limits)
    answer = json.loads(file.read_text(encoding="utf-8"))
    if "refused" in answer:
        told = answer["refused"]
        raise InputRefused(told["code"], told["actual"], told["limit"], told["unit"], told["remedy"])
    if "died" in answer:
        if answer["died"] == "memory":
            raise _too_large(limits)
        raise InputRefused("file-damaged", answer["died"], None, "", "Export the scan again.")
    return Reading(_scan(answer["scan"], folder), str(answer["sha256"]))


def _scan(told: dict[str, Any], folder: Path) -> Scan:
    vertices = np.load(folder / "vertices.npy", allow_pickle=False)
    faces = np.load(folder / "faces.npy", allow_pickle=False)
    if vertices.dtype != np.float64 or faces.dtype != np.int32 or not np.isfinite(vertices).all():
        raise InputRefused("file-damaged", "an answer that is no mesh", None, "", "Export the scan again.")
    return Scan(
        Mesh(vertices, faces),
        told["unit"],
        tuple(told["up"]) if told["up"] else None,
        told["bodies"],
        told["format"],
        tuple(Repair(**{**repair, "code": RepairCode(repair["code"])}) for repair in told["repairs"]),
        told["watertight"],
    )
