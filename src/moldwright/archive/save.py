"""An archive as a file: written beside its place while benches go on, read again from the disk, then moved there."""

from __future__ import annotations

import errno
import os
from collections import deque
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import datetime
from itertools import count
from pathlib import Path
from typing import BinaryIO

from moldwright.archive.read import ShopArchive, archive_in
from moldwright.archive.write import Archived, write_archive
from moldwright.disk.whole_file import new_file
from moldwright.errors import ComputationFailed, InputRefused
from moldwright.progress import Progress, silent
from moldwright.records.shop import Shop
from moldwright.ways import Deed


def export(shop: Shop, out: Path, progress: Progress = silent) -> Archived:
    """Write all of a store to a new file; it is there whole and checked, or not at all.

    Parameters
    ----------
    shop : the store.
    out : the file; one that is there is refused.
    progress : told how far it is; may raise to cancel.

    Raises InputRefused ("file-there", "archive-unwritable").
    """
    if out.exists():
        remedy = "Name another file: nothing is written over, least of all an earlier archive."
        raise InputRefused("file-there", str(out), "a new file", "", remedy)
    with _refusing(out), new_file(out) as file:
        told = write_archive(shop, file, progress)
        _read_again(file, told, progress)
    return told


def backup(shop: Shop, folder: Path, now: datetime, progress: Progress = silent) -> tuple[Path, Archived]:
    """Write all of a store to a new file of a folder, named by day and time.

    Parameters
    ----------
    shop : the store.
    folder : where; it must be there, so that a stick that is not put in is told.
    now : the time for the name.
    progress : told how far it is; may raise to cancel.

    Raises InputRefused ("folder-missing", "archive-unwritable").
    """
    if not folder.is_dir():
        remedy = "Is the stick or the disk put in? Name a folder that is there."
        raise InputRefused("folder-missing", str(folder), "a folder", "", remedy)
    name = f"shop-{now:%Y-%m-%d-%H%M%S}"
    names = (folder / (f"{name}.zip" if number == 1 else f"{name}-{number}.zip") for number in count(1))
    out = next(each for each in names if not each.exists())
    return out, export(shop, out, progress)


def check_all(archive: ShopArchive, progress: Progress = silent) -> Archived:
    """Read every part of an archive and tell how many of each there are.

    Parameters
    ----------
    archive : open.
    progress : told how far it is; may raise to cancel.

    Raises InputRefused ("archive-damaged") and others, as `opened_archive`.
    """
    events = sum(1 for _ in archive.events(progress))
    plans = sum(1 for _ in archive.plans())
    files = 0
    for _, blocks in archive.files():
        files += 1
        deque(blocks or (), 0)
    return Archived(events, plans, files, tuple(sorted(archive.missing)))


def _read_again(file: BinaryIO, told: Archived, progress: Progress) -> None:
    """From the disk itself, where the system lets go of what it remembers."""
    file.flush()
    os.fsync(file.fileno())
    if hasattr(os, "posix_fadvise"):
        os.posix_fadvise(file.fileno(), 0, 0, os.POSIX_FADV_DONTNEED)
    try:
        found = check_all(archive_in(file), progress)
    except InputRefused as refused:
        remedy = "Try another disk or stick; if it fails there too, look what is amiss"
        there = str(refused.actual)
        raise InputRefused("archive-not-readable", there, "what was written", "", remedy, Deed.CHECK_SHOP) from None
    counts = (found.events, found.plans, found.files)
    if counts != (told.events, told.plans, told.files):
        raise ComputationFailed("archive-differs", str(counts), str(told), remedy="Nothing was kept.")


@contextmanager
def _refusing(out: Path) -> Iterator[None]:
    try:
        yield
    except OSError as error:
        told = f"{out}: {error.strerror or 'it cannot be written'}"
        remedy = "Name a file in a folder that is there, with room, that you may write to. Nothing was written."
        if error.errno == errno.EFBIG:
            remedy = "This stick takes no file of that size: format it as exFAT, or name another. Nothing was written."
        raise InputRefused("archive-unwritable", told, None, "", remedy) from None
