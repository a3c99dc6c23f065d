"""The names of files that the maker asks for, checked before any work is done."""

from __future__ import annotations

from pathlib import Path

from moldwright.errors import InputRefused


def check_can_be(path: Path) -> None:
    """Refuse a file that cannot be: its folder is not there, a folder has its name, or the name is too long.

    Parameters
    ----------
    path : the file to write.
    """
    if not _may_be_written(path):
        remedy = "Name a file in a folder that is there, no longer than a name may be."
        raise InputRefused("file-unwritable", str(path), "a file", "", remedy)


def _may_be_written(path: Path) -> bool:
    """Whether it can be a file in a folder that is there; a name too long for the system cannot."""
    try:
        return path.parent.is_dir() and not path.is_dir()
    except (OSError, ValueError):
        return False
