"""The process that reads one untrusted scan: `python -m moldwright.scan.reader_child ORDER FOLDER`.

ORDER is a JSON text: {"path": ..., "limits": {...}}. Into FOLDER go `answer.json` and, where the scan was read,
`vertices.npy` and `faces.npy`. The process bounds its own memory and time before it opens the scan, and ends when its
standard input does: with the process that started it.
"""

from __future__ import annotations

import hashlib
import json
import os
import sys
import threading
from dataclasses import asdict
from pathlib import Path
from stat import S_ISREG
from typing import Any

import numpy as np

from moldwright.errors import InputRefused
from moldwright.scan.bounds import bound_process
from moldwright.scan.limits import Limits
from moldwright.scan.parse import HEAD, format_of, parse
from moldwright.scan.refuse import file_too_large
from moldwright.scan.scan import Scan

LOST = "The file was there and could not be read to its end: check its disk, and that nothing moves it meanwhile."
WITHOUT_WAITING = getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_BINARY", 0)


def main(arguments: list[str]) -> int:
    """Read, and leave the answer in the folder.

    Parameters
    ----------
    arguments : the order as JSON text, and the folder for the answer.
    """
    order, folder = json.loads(arguments[0]), Path(arguments[1])
    limits = Limits(**order["limits"])
    threading.Thread(target=_end_with_parent, daemon=True).start()
    bound_process(limits)
    try:
        answer = _read(Path(order["path"]), folder, limits)
    except InputRefused as refused:
        answer = {"refused": refused.as_dict()}
    except OSError as error:
        lost = InputRefused("file-unreadable", error.strerror or "no answer", None, "", LOST)
        answer = {"refused": lost.as_dict()}
    except (MemoryError, RecursionError):
        answer = {"died": "memory"}
    except Exception as error:
        answer = {"died": f"{type(error).__name__}: {error}"[:300]}
    (folder / "answer.json").write_text(json.dumps(answer), encoding="utf-8")
    return 0


def _end_with_parent() -> None:
    while os.read(0, 1):
        pass
    os._exit(1)


def _read(path: Path, folder: Path, limits: Limits) -> dict[str, Any]:
    data = _content(path, limits)
    scan = parse(path.name, data, limits)
    sha256 = hashlib.sha256(data).hexdigest()
    del data
    np.save(folder / "vertices.npy", scan.mesh.vertices, allow_pickle=False)
    np.save(folder / "faces.npy", scan.mesh.faces, allow_pickle=False)
    return {"scan": _told(scan), "sha256": sha256}


def _content(path: Path, limits: Limits) -> bytes:
    """All bytes of the file, read once; a file that is none of ours is refused by its first bytes."""
    with os.fdopen(os.open(path, os.O_RDONLY | WITHOUT_WAITING), "rb") as file:
        status = os.fstat(file.fileno())
        if not S_ISREG(status.st_mode):
            raise InputRefused("not-a-file", path.name, "a file", "", "Give the scan itself, not its folder.")
        head = file.read(HEAD)
        format_of(path.name, head, status.st_size)
        data = head + file.read(limits.file_bytes)
    if len(data) > limits.file_bytes:
        raise file_too_large(len(data), limits)
    return data


def _told(scan: Scan) -> dict[str, Any]:
    return {
        "unit": scan.unit,
        "up": scan.up,
        "bodies": scan.bodies,
        "format": scan.format,
        "repairs": [asdict(repair) for repair in scan.repairs],
        "watertight": scan.watertight,
    }


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
