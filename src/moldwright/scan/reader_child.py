"""The process that reads one untrusted scan: `python -m moldwright.scan.reader_child FOLDER`.

The order in FOLDER is {"path": ..., "limits": {...}}. Into FOLDER go `answer.json` and, where the scan was read,
`vertices.npy` and `faces.npy`. The process bounds its own memory and time before it opens the scan.
"""

from __future__ import annotations

import hashlib
import sys
from dataclasses import asdict
from pathlib import Path
from typing import Any

import numpy as np

from moldwright.child.bounds import bound_process
from moldwright.child.serve import answered, leave, order_in, regular_bytes
from moldwright.scan.limits import Limits
from moldwright.scan.parse import HEAD, format_of, parse
from moldwright.scan.refuse import file_too_large
from moldwright.scan.scan import Scan


def main(arguments: list[str]) -> int:
    """Read, and leave the answer in the folder.

    Parameters
    ----------
    arguments : the folder with the order, for the answer.
    """
    folder = Path(arguments[0])
    order = order_in(folder)
    limits = Limits(**order["limits"])
    bound_process(limits.memory_bytes, limits.cpu_s)
    leave(answered(lambda: _read(Path(order["path"]), folder, limits)), folder / "answer.json")
    return 0


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
    data = regular_bytes(path, limits.file_bytes, lambda head, size: format_of(path.name, head, size), HEAD)
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
