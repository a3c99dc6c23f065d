"""A folder of photos, read by bounded child processes."""

from __future__ import annotations

from pathlib import Path

from moldwright.photos.reading.limits import PhotoLimits
from moldwright.photos.reading.photo import Photos
from moldwright.progress import Progress, silent


def read_photos(
    folder: str | Path, leave_out: tuple[str, ...] = (), limits: PhotoLimits | None = None, progress: Progress = silent
) -> Photos:
    """Every photo of a folder, upright at its working size; one that cannot be read is told and left out.

    Raises `InputRefused` where there is no such folder, no photo in it, none that can be read, or too many.

    Parameters
    ----------
    folder : JPEG, PNG or HEIC photos; `NAME.mask.png` beside `NAME.jpg` is its mask: white where the piece is.
    leave_out : names of photos that the maker leaves out.
    limits : what reading may cost.
    progress : told how far it is; may raise to cancel.
    """
    raise NotImplementedError
