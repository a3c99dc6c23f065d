"""Where things lie on this machine."""

from __future__ import annotations

import os
from pathlib import Path


def cache_folder() -> Path:
    """The cache's folder: `$XDG_CACHE_HOME/moldwright`, else `~/.cache/moldwright` (XDG base directories)."""
    told = os.environ.get("XDG_CACHE_HOME", "")
    base = Path(told) if told and Path(told).is_absolute() else Path.home() / ".cache"
    return base / "moldwright"
