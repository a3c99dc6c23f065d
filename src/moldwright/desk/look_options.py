"""Which options of `moldwright look` belong to a scan, a folder of photos or a commission."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

from moldwright.errors import InputRefused
from moldwright.making.inputs import is_folder


def is_commission(path: Path) -> bool:
    """Whether a commission is looked at: a TOML file.

    Parameters
    ----------
    path : what is looked at.

    >>> is_commission(Path("order.toml")), is_commission(Path("stag.stl"))
    (True, False)
    """
    return path.suffix.lower() == ".toml" and not is_folder(path)


def check_options(path: Path, scan: Mapping[str, str], photos: Mapping[str, object]) -> None:
    """Refuse options that say nothing of what is looked at.

    Parameters
    ----------
    path : a scan, a folder or a commission.
    scan : options of a scan by name, "" where left out.
    photos : options of a folder by name, empty where left out.
    """
    if is_commission(path):
        given = next((name for name, value in (*scan.items(), *photos.items()) if value), None)
        remedy = "Leave it out: the commission tells it."
        meant = "a scan or a folder of photos"
    elif is_folder(path):
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
