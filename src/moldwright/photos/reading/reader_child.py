"""The process that reads untrusted photos: `python -m moldwright.photos.reading.reader_child FOLDER`.

The order in FOLDER is {"photos": [[number, name, mask's name or null], ...], "home": their folder, "limits": {...}}.
For each photo in turn `NUMBER.npy`, where it has a mask `NUMBER.mask.npy`, and last `NUMBER.json` go into FOLDER.
"""

from __future__ import annotations

import hashlib
import sys
from pathlib import Path

import numpy as np

from moldwright.child.bounds import bound_process, bound_turn
from moldwright.child.serve import Answer, leave, order_in, regular_bytes
from moldwright.photos.reading.decode import NotRead, decode, flat, mask_from
from moldwright.photos.reading.limits import PhotoLimits
from moldwright.photos.told import PhotoReason

START_S = 20


def main(arguments: list[str]) -> int:
    """Read, and leave an answer for each photo in the folder.

    Parameters
    ----------
    arguments : the folder with the order, for the answers.
    """
    folder = Path(arguments[0])
    order = order_in(folder)
    limits = PhotoLimits(**order["limits"])
    bound_process(limits.memory_bytes, START_S + limits.cpu_s * len(order["photos"]))
    for number, photo, mask in order["photos"]:
        bound_turn(limits.cpu_s)
        leave(_read(Path(order["home"]), photo, mask, folder / str(number), limits), folder / f"{number}.json")
    return 0


def _read(home: Path, photo: str, mask: str | None, stem: Path, limits: PhotoLimits) -> Answer:
    hashes: list[str] = []
    try:
        contents = [regular_bytes(home / name, limits.file_bytes) for name in (photo, mask) if name]
        hashes = [hashlib.sha256(data).hexdigest() if len(data) <= limits.file_bytes else "" for data in contents]
        told = _photo(contents[0], stem, limits)
        if mask:
            _mask(contents[1], stem, told, limits)
    except NotRead as error:
        told = {"dropped": error.reason, "figure": error.figure, "limit": error.limit}
    except Exception:
        told = {"dropped": PhotoReason.UNREADABLE}
    return {**told, "sha256": " ".join(hashes)}


def _photo(data: bytes, stem: Path, limits: PhotoLimits) -> Answer:
    if len(data) > limits.file_bytes:
        raise NotRead(PhotoReason.FILE_TOO_LARGE, len(data) / 1e6, limits.file_bytes / 1e6)
    decoded = decode(data, limits)
    pixels = flat(decoded.pixels)
    np.save(f"{stem}.npy", pixels, allow_pickle=False)
    height, width = pixels.shape[:2]
    return {"width": width, "height": height, "quarters": decoded.quarters, "focal": decoded.focal_35mm}


def _mask(data: bytes, stem: Path, photo: Answer, limits: PhotoLimits) -> None:
    try:
        mask = mask_from(decode(data, limits).pixels, photo["width"], photo["height"])
    except NotRead as error:
        raise NotRead(PhotoReason.MASK_UNREADABLE, error.figure, error.limit) from None
    except Exception as error:
        raise NotRead(PhotoReason.MASK_UNREADABLE) from error
    np.save(f"{stem}.mask.npy", mask, allow_pickle=False)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
