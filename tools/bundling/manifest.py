"""Which file belongs to which page: `built/manifest.json`, by which the server writes its pages."""

from __future__ import annotations

import json
from collections.abc import Iterable
from pathlib import Path

from tools.bundling.esbuild import WORKER, Bundles, Output
from tools.bundling.sources import Sources

NAME = "manifest.json"


def manifest(found: Sources, bundles: Bundles, made_from: str) -> dict:
    """`scripts` and `styles` by page, `at_once` what a script loads before it runs, fonts, the worker, and what it was
    made from."""
    scripts = by_entry(found.scripts, bundles.scripts)
    return {
        "scripts": scripts,
        "at_once": {page: sorted(loads(file, bundles.scripts)) for page, file in scripts.items()},
        "styles": by_entry(found.scripts | found.styles, bundles.styles),
        "fonts": sorted(one.file for one in bundles.styles if one.file.endswith(".woff2")),
        "worker": WORKER if bundles.worker else None,
        "made_from": made_from,
    }


def by_entry(pages: Iterable[str], outputs: tuple[Output, ...]) -> dict[str, str]:
    """The file of each page, by its name and the hash behind it."""
    begun = [one.file for one in outputs if one.entry is not None]
    return {page: file for page in sorted(pages) for file in begun if file.rsplit("-", 1)[0] == page}


def loads(file: str, outputs: tuple[Output, ...]) -> set[str]:
    """What a script imports by statements, and they in turn: all of it is loaded before anything is shown."""
    known = {one.file: one for one in outputs}
    seen: set[str] = set()
    waiting = list(known[file].at_once)
    while waiting:
        if (name := waiting.pop()) in known and name not in seen:
            seen.add(name)
            waiting += known[name].at_once
    return seen


def write(told: dict, into: Path) -> None:
    """The manifest in the folder."""
    (into / NAME).write_text(json.dumps(told, indent=1, sort_keys=True) + "\n", encoding="utf-8")


def read(folder: Path) -> dict:
    """The manifest of a folder, empty where there is none."""
    path = folder / NAME
    return json.loads(path.read_text(encoding="utf-8")) if path.exists() else {}


def named(told: dict) -> set[str]:
    """Every file that the manifest names."""
    loaded = {name for names in told.get("at_once", {}).values() for name in names}
    worker = {told["worker"]} if told.get("worker") else set()
    entries = {*told.get("scripts", {}).values(), *told.get("styles", {}).values()}
    return entries | {*told.get("fonts", ())} | loaded | worker


def missing(told: dict, folder: Path) -> list[str]:
    """Those of them that the folder lacks."""
    return sorted(name for name in named(told) if not (folder / name).is_file())
