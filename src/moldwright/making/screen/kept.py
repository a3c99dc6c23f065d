"""The file for the screen, made once and kept in the plan's folder: whoever asks twice gets the same bytes."""

from __future__ import annotations

import gzip
from dataclasses import dataclass
from functools import lru_cache
from hashlib import sha256
from pathlib import Path
from threading import Lock

from moldwright.disk.whole_file import write_file
from moldwright.making.marks import CodeMarks
from moldwright.making.plans import plans_in
from moldwright.making.screen.made import screen_mold
from moldwright.making.screen.packed_parts import ScreenMold, mold_of_bytes, packed_mold
from moldwright.making.screen.solids import solids_of
from moldwright.plan.plan import Plan
from moldwright.progress import Progress, silent
from moldwright.store.hashing import hash_of
from moldwright.store.memory import NoStore, Store

FOLDER = "screen"
SHAPING = (".stl", ".csv")
"""Endings of the files that are read: solids, and how far the sheet of rubber is strained."""
TOLD = "make the solids ready for the screen"
_ONE_AT_A_TIME = Lock()


@dataclass(frozen=True, slots=True)
class ScreenFile:
    """A file of solids, packed by gzip. `tag`: of the plan and of the code that made it."""

    path: Path
    tag: str


@dataclass(frozen=True, slots=True)
class ScreenBytes:
    """The file's bytes, as a store keeps them."""

    packed: bytes


def screen_file(folder: Path) -> ScreenFile | None:
    """The file of a plan's folder, None where it is not made yet.

    Parameters
    ----------
    folder : the plan's.
    """
    file = _file(folder)
    return file if file.path.is_file() else None


def made_screen_file(folder: Path, store: Store | None = None, progress: Progress = silent) -> ScreenFile:
    """The file of a plan's folder, made where it is not there yet.

    Parameters
    ----------
    folder : the plan's.
    store : where it is kept under a key of all that shapes it, so that a plan of the same solids has it at once.
    progress : told the stage.

    Raises InputRefused as `solids_of` does.
    """
    file = _file(folder)
    with _ONE_AT_A_TIME:
        if not file.path.is_file():
            packed = _packed(folder, store or NoStore(), progress)
            file.path.parent.mkdir(exist_ok=True)
            for older in file.path.parent.glob("*.mws.gz"):
                older.unlink(missing_ok=True)
            write_file(file.path, packed)
    return file


def _packed(folder: Path, store: Store, progress: Progress) -> bytes:
    (plan,) = plans_in([folder])
    key = f"screen-{_of_solids(folder, plan)}"
    kept = store.get(key, ScreenBytes)
    if kept is None:
        progress(TOLD, 0.0)
        kept = ScreenBytes(gzip.compress(packed_mold(screen_mold(solids_of(folder, plan))), 6, mtime=0))
        store.put(key, kept)
        progress(TOLD, 1.0)
    return kept.packed


def _of_solids(folder: Path, plan: Plan) -> str:
    """A hash of all that shapes the file: the solids, what the plan tells of coats, hold, flange and seam, the code."""
    told = sha256(_mark().encode())
    files = (file for file in (folder / "mold").iterdir() if file.suffix in SHAPING)
    for file in sorted(files):
        told.update(file.name.encode() + sha256(file.read_bytes()).digest())
    coats = tuple(coat.thickness_mm for coat in plan.glove.coats)
    told.update(hash_of((coats, plan.glove.holds, plan.flange, plan.shell.seam_line, plan.shell.pieces)).encode())
    return told.hexdigest()[:32]


def screen_of(file: ScreenFile) -> ScreenMold:
    """What the file holds; the last few are remembered.

    Parameters
    ----------
    file : made.
    """
    return _unpacked(file.path, file.tag)


@lru_cache(maxsize=2)
def _unpacked(path: Path, tag: str) -> ScreenMold:
    return mold_of_bytes(gzip.decompress(path.read_bytes()))


@lru_cache(maxsize=1)
def _mark() -> str:
    return CodeMarks()(screen_mold.__module__)


def _file(folder: Path) -> ScreenFile:
    (plan,) = plans_in([folder])
    tag = sha256(f"{plan.plan_hash} {_mark()}".encode()).hexdigest()[:16]
    return ScreenFile(folder / FOLDER / f"{tag}.mws.gz", tag)
