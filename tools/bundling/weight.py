"""What a page weighs as it goes over the wire, and the most it may."""

from __future__ import annotations

import gzip
from collections.abc import Iterator
from pathlib import Path

from tools.bundling.places import BundlingFailed

MOST_FIRST_KB = 250.0
KB = 1000.0


def gzip_kb(path: Path) -> float:
    """A file's weight packed by gzip [kB, 1000 bytes]."""
    return len(gzip.compress(path.read_bytes(), 9, mtime=0)) / KB


def first_kb(page: str, told: dict, folder: Path) -> float:
    """All script that is loaded before a page is alive: the shared one's, its own, and what both import [kB gzip]."""
    names = {told["scripts"][one] for one in ("base", page) if one in told["scripts"]}
    names |= {name for one in ("base", page) for name in told["at_once"].get(one, ())}
    return sum(gzip_kb(folder / name) for name in sorted(names))


def tell(told: dict, folder: Path) -> Iterator[str]:
    """A line for each page and each file [kB gzip]."""
    for page in told["scripts"]:
        yield f"{first_kb(page, told, folder):8.1f} kB  first script of {page}, of {MOST_FIRST_KB:g} at most"
    for path in sorted(folder.iterdir()):
        yield f"{gzip_kb(path):8.1f} kB  {path.name}"


def refuse_heavy(told: dict, folder: Path) -> None:
    """No page whose first script is over the most."""
    for page in told["scripts"]:
        if (weighs := first_kb(page, told, folder)) > MOST_FIRST_KB:
            raise BundlingFailed(
                f"the first script of page {page} weighs {weighs:.1f} kB gzip, over {MOST_FIRST_KB:g} kB: "
                "import what is needed later with import(...)"
            )
