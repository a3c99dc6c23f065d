"""The process that reads one untrusted scan: `python -m moldwright.scan.reader_child ORDER FOLDER`.

ORDER is a JSON text: {"path": ..., "limits": {...}}. Into FOLDER go `answer.json` and, where the scan was read,
`vertices.npy` and `faces.npy`. The process bounds its own memory and time before it opens the scan.
"""

from __future__ import annotations

import json
import sys
from dataclasses import asdict
from pathlib import Path
from typing import Any

import numpy as np

from moldwright.errors import InputRefused
from moldwright.scan.bounds import bound_process
from moldwright.scan.limits import Limits
from moldwright.scan.parse import HEAD, format_of, parse
from moldwright.scan.scan import Scan


def main(arguments: list[str]) -> int:
    """Read, and leave the answer in the folder."""
    order, folder = json.loads(arguments[0]), Path(arguments[1])
    limits = Limits(**order["limits"])
    bound_process(limits)
    try:
        answer = _read(Path(order["path"]), folder, limits)
    except InputRefused as refused:
        answer = {"refused": refused.as_dict()}
    except (MemoryError, RecursionError):
        answer = {"died": "memory"}
    except Exception as error:
        answer = {"died": f"{type(error).__name__}: {error}"[:300]}
    (folder / "answer.json").write_text(json.dumps(answer), encoding="utf-8")
    return 0


def _read(path: Path, folder: Path, limits: Limits) -> dict[str, Any]:
    with path.open("rb") as file:
        head = file.read(HEAD)
        format_of(path.name, head, path.stat().st_size)
        data = head + file.read()
    scan = parse(path.name, data, limits)
    del data
    np.save(folder / "vertices.npy", scan.mesh.vertices, allow_pickle=False)
    np.save(folder / "faces.npy", scan.mesh.faces, allow_pickle=False)
    return {"scan": _told(scan)}


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
