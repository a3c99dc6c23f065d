"""esbuild, called three times: scripts with what they share parted off, styles with fonts, and the worker alone."""

from __future__ import annotations

import json
from dataclasses import dataclass
from pathlib import Path

from tools.bundling import node
from tools.bundling.places import MODULES, ROOT, BundlingFailed
from tools.bundling.sources import BASE, Sources

SCRIPT = MODULES / "esbuild" / "bin" / "esbuild"
ALWAYS = ("--bundle", "--minify", "--charset=utf8", "--log-level=warning", "--legal-comments=none", "--target=es2022")
NAMES = ("--entry-names=[name]-[hash]", "--chunk-names=shared-[hash]", "--asset-names=[name]-[hash]")
FONT = "--loader:.woff2=file"
WORKER = "worker.js"


@dataclass(frozen=True, slots=True)
class Output:
    """One file that esbuild wrote: the source it begins with, what it loads at once, and all that is in it."""

    file: str
    entry: str | None
    at_once: tuple[str, ...]
    inputs: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Bundles:
    """All that esbuild wrote into the folder."""

    scripts: tuple[Output, ...]
    styles: tuple[Output, ...]
    worker: tuple[Output, ...]

    @property
    def inputs(self) -> tuple[str, ...]:
        """Every source file in any of them."""
        return tuple(sorted({name for one in (*self.scripts, *self.styles, *self.worker) for name in one.inputs}))


def bundle(found: Sources, into: Path) -> Bundles:
    """Everything written into the folder."""
    return Bundles(scripts(found, into), styles(found, into), worker(found, into))


def scripts(found: Sources, into: Path) -> tuple[Output, ...]:
    """A module for each page, and what several need in files of its own."""
    entries = [f"{name}={path}" for name, path in found.scripts.items()]
    return call(entries, into, "--splitting", "--format=esm", *NAMES)


def styles(found: Sources, into: Path) -> tuple[Output, ...]:
    """One style that all pages share, and one for each page that has its own; fonts beside them."""
    entries = [f"{name}={path}" for name, path in found.styles.items()]
    if not found.shared_styles:
        return call(entries, into, FONT, *NAMES)
    gathered = into / "gathered.css"
    gathered.write_text("".join(f"@import {json.dumps(path.as_posix())};\n" for path in found.shared_styles))
    try:
        return call([f"{BASE}={gathered}", *entries], into, FONT, *NAMES)
    finally:
        gathered.unlink()


def worker(found: Sources, into: Path) -> tuple[Output, ...]:
    """The service worker under a fixed name: a browser asks for it again by that."""
    if found.worker is None:
        return ()
    return call([f"worker={found.worker}"], into, "--format=iife", "--entry-names=[name]")


def call(entries: list[str], into: Path, *options: str) -> tuple[Output, ...]:
    """esbuild's outputs of these entries."""
    if not entries:
        return ()
    told = into / "told.json"
    done = node.run(SCRIPT, *entries, f"--outdir={into}", f"--metafile={told}", *ALWAYS, *options)
    if done.returncode != 0:
        said = (done.stdout + done.stderr).partition("node:child_process")[0].strip()
        raise BundlingFailed(f"esbuild could not bundle the pages:\n{said}")
    try:
        return tuple(output(name, one) for name, one in json.loads(told.read_text())["outputs"].items())
    finally:
        told.unlink()


def output(name: str, told: dict) -> Output:
    """One output as esbuild tells it, its names relative to the folder and to the checkout."""
    at_once = tuple(Path(one["path"]).name for one in told["imports"] if one["kind"] == "import-statement")
    inputs = tuple((ROOT / path).resolve().as_posix() for path in told["inputs"])
    return Output(Path(name).name, told.get("entryPoint"), at_once, inputs)
