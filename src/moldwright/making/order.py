"""From a commission's path to plain values: the order, the library, the scan and the maker's own steps."""

from __future__ import annotations

import hashlib
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from moldwright.commission.reading import commission_from_toml
from moldwright.making.inputs import read_sheets, read_text
from moldwright.materials import library
from moldwright.scan.limits import Limits
from moldwright.scan.read import read_with_hash
from moldwright.scan.scan import Scan
from moldwright.store.memory import Store
from moldwright.store.stage import Kept, Stage

if TYPE_CHECKING:
    from moldwright.commission.orders import Commission
    from moldwright.materials import Library

READ = Stage("moldwright.scan.read:read_with_hash", kind=Scan)
"""Names the reading in its key; the scan's path, which it is called with, is no part of that."""


@dataclass(frozen=True, slots=True, eq=False)
class Order:
    """A commission and the shop's own files that it names; `scan` and `photos` are paths, None where it gives none,
    `inputs` all that is read."""

    commission: Commission
    library: Library
    scan: Path | None
    photos: Path | None
    own_steps: str
    inputs: tuple[Path, ...]


def gather(path: Path) -> Order:
    """Everything small that a commission names.

    Parameters
    ----------
    path : the commission's file; the paths in it are relative to it.
    """
    commission = commission_from_toml(read_text(path, "commission"))
    home, shop = path.parent, commission.shop
    original = commission.original
    scan, photos = (home / name if name else None for name in (original.file, original.photos))
    sheets = read_sheets(home / shop.sheets) if shop.sheets else {}
    steps = read_text(home / shop.steps, "list of steps") if shop.steps else ""
    own = [home / name for name in (shop.sheets, shop.steps) if name]
    named = [each for each in (scan, photos) if each is not None]
    return Order(commission, library(sheets), scan, photos, steps, (path, *named, *own))


def scan_of(path: Path, store: Store) -> Kept[Scan]:
    """The scan, read in a child process, or kept from the last time that the very same bytes were read.

    What is read is kept under the hash of the bytes that the child read, never of those that lay there before: a file
    that is replaced meanwhile cannot leave a wrong scan in the store.

    Parameters
    ----------
    path : the scan's file.
    store : where stages are kept.
    """
    limits = Limits()
    shape = path.suffix.lower(), limits
    key = READ.key(store, _content(path, limits.file_bytes), *shape)
    scan = store.get(key, Scan)
    if scan is None:
        reading = read_with_hash(path, limits)
        key, scan = READ.key(store, reading.sha256, *shape), reading.scan
        store.put(key, scan)
    return Kept(key, lambda: scan)


def _content(path: Path, most_bytes: int) -> str:
    """A hash of the file's bytes as they are now, "" where it cannot be read whole: the reader says why."""
    try:
        if not path.is_file() or path.stat().st_size > most_bytes:
            return ""
        with path.open("rb") as file:
            return hashlib.file_digest(file, "sha256").hexdigest()
    except (OSError, ValueError):
        return ""
