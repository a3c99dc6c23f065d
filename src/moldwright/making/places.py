"""Where things lie on this machine."""

from __future__ import annotations

import os
from pathlib import Path


def real_path(path: Path) -> Path:
    """Where a path leads, links followed; a link that leads to itself, or a home that nobody has, stays as it is.

    Parameters
    ----------
    path : any path, ~ included.
    """
    return Path(os.path.realpath(os.path.expanduser(path)))


def cache_folder() -> Path:
    """The cache's folder: `$XDG_CACHE_HOME/moldwright`, else `~/.cache/moldwright` (XDG base directories)."""
    told = os.environ.get("XDG_CACHE_HOME", "")
    base = Path(told) if told and Path(told).is_absolute() else Path.home() / ".cache"
    return base / "moldwright"


def data_folder() -> Path:
    """The user's folder for records, made where it is missing (XDG base directories)."""
    base = Path(os.environ.get("XDG_DATA_HOME", ""))
    folder = (base if base.is_absolute() else Path.home() / ".local" / "share") / "moldwright"
    folder.mkdir(parents=True, exist_ok=True)
    return folder
