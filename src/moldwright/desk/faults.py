"""What reproduces a fault, kept in a file: version, command, commission and the trace."""

from __future__ import annotations

import hashlib
import platform
import sys
import tempfile
import traceback
from collections.abc import Callable
from pathlib import Path

from moldwright import __version__
from moldwright.making.places import cache_folder


def saver(commission_text: str = "") -> Callable[[BaseException], str]:
    """A function that writes the fault and returns its path.

    Parameters
    ----------
    commission_text : the commission that was being planned.
    """

    def save(error: BaseException) -> str:
        trace = "".join(traceback.format_exception(error))
        text = "\n\n".join((
            f"moldwright {__version__}, Python {platform.python_version()}, {platform.system()} {platform.machine()}",
            f"command: {sys.argv[1:]}", f"commission:\n{commission_text}", trace,
        ))  # fmt: skip
        return str(_written(text))

    return save


def _kept() -> Path:
    return cache_folder() / "faults"


def _written(text: str) -> Path:
    name = f"fault-{hashlib.sha256(text.encode('utf-8', 'replace')).hexdigest()[:12]}.txt"
    places: tuple[Callable[[], Path], ...] = (_kept, lambda: Path(tempfile.gettempdir()))
    for place in places:
        try:
            folder = place()
            folder.mkdir(parents=True, exist_ok=True)
            (folder / name).write_text(text, encoding="utf-8", errors="replace")
        except (OSError, RuntimeError):
            continue
        return folder / name
    return Path("nowhere: no folder could be written")
