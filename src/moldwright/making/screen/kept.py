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

FOLDER = "screen"
_ONE_AT_A_TIME = Lock()


@dataclass(frozen=True, slots=True)
class ScreenFile:
    """A file of solids, packed by gzip. `tag`: of the plan and of the code that made it."""

    path: Path
    tag: str


def screen_file(folder: Path) -> ScreenFile | None:
    """The file of a plan's folder, None where it is not made yet.

    Parameters
    ----------
    folder : the plan's.
    """
    file = _file(folder)
    return file if file.path.is_file() else None


def made_screen_file(folder: Path) -> ScreenFile:
    """The file of a plan's folder, made where it is not there yet.

    Parameters
    ----------
    folder : the plan's.

    Raises InputRefused as `solids_of` does.
    """
    file = _file(folder)
    with _ONE_AT_A_TIME:
        if not file.path.is_file():
            (plan,) = plans_in([folder])
            raw = packed_mold(screen_mold(solids_of(folder, plan)))
            file.path.parent.mkdir(exist_ok=True)
            for older in file.path.parent.glob("*.mws.gz"):
                older.unlink(missing_ok=True)
            write_file(file.path, gzip.compress(raw, 6, mtime=0))
    return file


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
