"""What is bundled, found by walking: one script and one style a page, and what all pages share."""

from __future__ import annotations

import hashlib
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from tools.bundling.places import LOCK, PAGES, PARTS, ROOT, WEB

BASE = "base"
FIRST_STYLES = ("tokens.css", "fonts.css", "base.css")
SHAPING = (".ts", ".css", ".json")


@dataclass(frozen=True, slots=True)
class Sources:
    """Scripts and styles by the page's name; `base` is what all pages share. The worker stands alone."""

    scripts: dict[str, Path]
    styles: dict[str, Path]
    shared_styles: tuple[Path, ...]
    worker: Path | None


def sources() -> Sources:
    """What stands there now."""
    base, worker = PARTS / "base.ts", PARTS / "worker.ts"
    return Sources(
        ({BASE: base} if base.exists() else {}) | by_page("element.ts"),
        by_page("style.css"),
        shared_styles(),
        worker if worker.exists() else None,
    )


def by_page(name: str) -> dict[str, Path]:
    """That file of each page which has it."""
    return {path.parent.name: path for path in sorted(PAGES.glob(f"*/{name}"))}


def shared_styles() -> tuple[Path, ...]:
    """Tokens, fonts and ground first, then the parts by name: the order in which they are laid over each other."""
    found = {path.name: path for path in sorted(PARTS.glob("*.css"))}
    first = [found.pop(name) for name in FIRST_STYLES if name in found]
    return (*first, *found.values())


def made_from() -> str:
    """A hash of all that shapes the bundles, this code too."""
    told = hashlib.sha256()
    for path in shaping():
        told.update(path.relative_to(ROOT).as_posix().encode() + b"\0" + path.read_bytes() + b"\0")
    return told.hexdigest()


def shaping() -> Iterator[Path]:
    """Every file that a bundle may hold or be changed by."""
    for folder in (PARTS, PAGES):
        yield from sorted(path for path in folder.rglob("*") if path.suffix in SHAPING)
    yield from sorted(WEB.glob("*.ts"))
    yield from (LOCK, ROOT / "tsconfig.json", *sorted(Path(__file__).parent.glob("*.py")))
