"""Which options of `moldwright look` belong to a scan and which to a folder of photos."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

from moldwright.errors import InputRefused


def is_folder(path: Path) -> bool:
    """Whether photos are looked at; a name that no system takes is no folder.

    Parameters
    ----------
    path : what is looked at.
    """
    try:
        return path.is_dir()
    except (OSError, ValueError):
        return False


def check_options(path: Path, scan: Mapping[str, str], photos: Mapping[str, object]) -> None:
    """Refuse options that say nothing of what is looked at.

    Parameters
    ----------
    path : a scan or a folder.
    scan : options of a scan by name, "" where left out.
    photos : options of a folder by name, empty where left out.
    """
    if is_folder(path):
        given = next((name for name, value in scan.items() if value), None)
        remedy = (
            "Leave it out: the photos' sheet tells size and board, its front is given by how the piece stands on it."
        )
        meant = "a scan"
    else:
        given = next((name for name, value in photos.items() if value), None)
        remedy = "Leave it out, or give the folder with the photos."
        meant = "a folder of photos"
    if given is not None:
        raise InputRefused("option-unfit", f"--{given} with {path.name or path}", f"--{given} with {meant}", "", remedy)
