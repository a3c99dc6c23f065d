"""Where things lie on this machine."""

from __future__ import annotations

import hashlib
import os
from functools import lru_cache
from pathlib import Path


def cache_folder() -> Path:
    """The cache's folder: `$XDG_CACHE_HOME/moldwright`, else `~/.cache/moldwright` (XDG base directories)."""
    told = os.environ.get("XDG_CACHE_HOME", "")
    base = Path(told) if told and Path(told).is_absolute() else Path.home() / ".cache"
    return base / "moldwright"


@lru_cache(maxsize=1)
def source_mark() -> str:
    """A short hash of the package's own code and data: results kept by other code are not taken for its own."""
    home = Path(__file__).parents[1]
    digest = hashlib.sha256()
    for path in sorted(path for path in home.rglob("*") if path.suffix in (".py", ".toml")):
        digest.update(f"{path.relative_to(home).as_posix()}\n".encode())
        digest.update(path.read_bytes())
    return digest.hexdigest()[:12]
