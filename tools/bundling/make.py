"""The pages made: bundled into a folder beside, looked at, and only then put where the server reads them."""

from __future__ import annotations

import shutil
import tempfile
from pathlib import Path

from tools.bundling import esbuild, manifest, node, notices, weight
from tools.bundling.places import BUILT, WEB
from tools.bundling.sources import made_from, sources


def pages() -> None:
    """`built/` as the sources ask for it; nothing is done where it is that already."""
    wanted = made_from()
    if up_to_date(wanted):
        return
    node.lay_packages()
    work = Path(tempfile.mkdtemp(prefix=".built-", dir=WEB))
    try:
        bundle(work, wanted)
        swap(work)
    finally:
        shutil.rmtree(work, ignore_errors=True)
    for line in weight.tell(manifest.read(BUILT), BUILT):
        print(line)


def up_to_date(wanted: str) -> bool:
    """Whether the folder was made from these very sources and is whole."""
    told = manifest.read(BUILT)
    return told.get("made_from") == wanted and not manifest.missing(told, BUILT)


def bundle(work: Path, wanted: str) -> None:
    """Everything in the folder, refused where a page is too heavy."""
    found = sources()
    made = esbuild.bundle(found, work)
    told = manifest.manifest(found, made, wanted)
    (work / notices.NAME).write_text(notices.notices(made.inputs), encoding="utf-8")
    manifest.write(told, work)
    weight.refuse_heavy(told, work)


def swap(work: Path) -> None:
    """The new folder in the place of the old one; a server sees the one or the other."""
    old = work.with_name(f"{work.name}-old")
    if BUILT.exists():
        BUILT.rename(old)
    work.rename(BUILT)
    BUILT.chmod(0o755)
    shutil.rmtree(old, ignore_errors=True)
