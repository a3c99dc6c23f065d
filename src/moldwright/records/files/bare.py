"""What is kept of a photo: the picture, which way is up, and the zoom. Place, time, names and serial numbers are not.

The picture's own bytes are not changed, so nothing is lost of it; the decoder then reads what will be kept, in a
process of its own with bounds, so that what is kept can be looked at.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from pathlib import Path
from tempfile import TemporaryDirectory
from types import MappingProxyType

from moldwright.errors import InputRefused
from moldwright.photos.reading.limits import PhotoLimits
from moldwright.photos.reading.read import SAVE_AGAIN, read_photos
from moldwright.records.files.bare_heic import bare_heic
from moldwright.records.files.bare_jpeg import bare_jpeg
from moldwright.records.files.bare_png import bare_png
from moldwright.records.files.camera import TornPhoto
from moldwright.records.files.kinds import LARGEST_OF_ALL, FileType

BARE: Mapping[FileType, Callable[[bytes], bytes]] = MappingProxyType(
    {FileType.JPEG: bare_jpeg, FileType.PNG: bare_png, FileType.HEIC: bare_heic}
)
LIMITS = PhotoLimits(photos=1, file_bytes=LARGEST_OF_ALL, side_px=256)


def bare_photo(data: bytes, kind: FileType, name: str) -> bytes:
    """A photo as it is kept.

    Parameters
    ----------
    data : the file as it came.
    kind : what it is.
    name : for the refusal.

    Raises InputRefused ("photo-unreadable").
    """
    try:
        bare = BARE[kind](data)
    except (TornPhoto, IndexError) as error:
        raise InputRefused("photo-unreadable", f"{name}: {error}", "a whole photo", "", SAVE_AGAIN) from None
    _looked_at(bare, name)
    return bare


def _looked_at(data: bytes, name: str) -> None:
    with TemporaryDirectory(prefix="moldwright-") as folder:
        (Path(folder) / "photo.jpg").write_bytes(data)
        try:
            read_photos(folder, limits=LIMITS).close()
        except InputRefused as refused:
            told = f"{name}: {refused.actual}"
            raise InputRefused("photo-unreadable", told, "a photo that opens", "", refused.remedy) from None
