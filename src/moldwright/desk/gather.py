"""From a commission's path to plain values: the order, the library, the scan and the maker's own steps."""

from __future__ import annotations

import hashlib
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from moldwright.commission.reading import commission_from_toml
from moldwright.desk.inputs import read_sheets, read_text
from moldwright.materials import library
from moldwright.scan import read_scan
from moldwright.scan.limits import Limits
from moldwright.scan.scan import Scan
from moldwright.store.memory import Store, remembered

if TYPE_CHECKING:
    from moldwright.commission.orders import Commission
    from moldwright.materials import Library


@dataclass(frozen=True, slots=True, eq=False)
class Order:
    """A commission and the shop's own files that it names; `scan` is the scan's path, `inputs` all files read."""

    commission: Commission
    text: str
    library: Library
    scan: Path
    own_steps: str
    inputs: tuple[Path, ...]


def gather(path: Path) -> Order:
    """Everything small that a commission names.

    Parameters
    ----------
    path : the commission's file; the paths in it are relative to it.
    """
    text = read_text(path, "commission")
    commission = commission_from_toml(text)
    home, shop = path.parent, commission.shop
    scan = home / commission.original.file
    sheets = read_sheets(home / shop.sheets) if shop.sheets else {}
    steps = read_text(home / shop.steps, "list of steps") if shop.steps else ""
    own = [home / name for name in (shop.sheets, shop.steps) if name]
    return Order(commission, text, library(sheets), scan, steps, (path, scan, *own))


def scan_of(path: Path, store: Store) -> Scan:
    """The scan, read in a child process, or kept from the last time that the very same file was read.

    Parameters
    ----------
    path : the scan's file.
    store : where stages are kept.
    """
    limits = Limits()
    content = _content(path, limits.file_bytes)
    if not content:
        return read_scan(path, limits)
    return remembered(store, "scan", Scan, lambda: read_scan(path, limits), content, path.suffix.lower(), limits)


def _content(path: Path, most_bytes: int) -> str:
    """A hash of the file's bytes, "" where it cannot or should not be read whole: the reader says why."""
    try:
        if not path.is_file() or path.stat().st_size > most_bytes:
            return ""
        with path.open("rb") as file:
            return hashlib.file_digest(file, "sha256").hexdigest()
    except (OSError, ValueError):
        return ""
