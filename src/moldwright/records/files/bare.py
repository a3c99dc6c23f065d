"""What is kept of a photo: the picture, which way is up, and the zoom. Place, time, names and serial numbers are not.

The picture's own bytes are not changed, so nothing is lost of it; the decoder then reads what will be kept, in a
process of its own with bounds, so that what is kept can be looked at.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from tempfile import TemporaryDirectory
from types import MappingProxyType

from moldwright.errors import InputRefused
from moldwright.photos.reading.limits import PhotoLimits
from moldwright.photos.reading.read import SAVE_AGAIN, read_photos, remedy_of
from moldwright.photos.told import PhotoReason
from moldwright.records.files.bare_heic import bare_heic
from moldwright.records.files.bare_jpeg import bare_jpeg
from moldwright.records.files.bare_png import bare_png
from moldwright.records.files.camera import TornPhoto
from moldwright.records.files.kinds import LARGEST_OF_ALL, FileType

BARE: Mapping[FileType, Callable[[bytes], bytes]] = MappingProxyType(
    {FileType.JPEG: bare_jpeg, FileType.PNG: bare_png, FileType.HEIC: bare_heic}
)
LIMITS = PhotoLimits(photos=1000, file_bytes=LARGEST_OF_ALL, side_px=256)
"""So many photos at once: twice what a piece has files."""


@dataclass(frozen=True, slots=True)
class CameFile:
    """A file as it came: its bytes, what it is, and its name for a refusal."""

    data: bytes
    kind: FileType
    name: str


@contextmanager
def bare_photos(photos: Iterable[CameFile]) -> Iterator[tuple[Path, ...]]:
    """Photos as they are kept, each in a file that is gone afterwards; one process looks at all of them.

    Parameters
    ----------
    photos : as they came; each is let go before the next is taken.

    Raises InputRefused ("photo-unreadable").
    """
    with TemporaryDirectory(prefix="moldwright-") as folder:
        bare = {Path(folder) / f"{number:04}.jpg": photo.name for number, photo in _laid(photos, Path(folder))}
        if bare:
            _look_at(Path(folder), {path.name: name for path, name in bare.items()})
        yield tuple(bare)


def _laid(photos: Iterable[CameFile], folder: Path) -> Iterator[tuple[int, CameFile]]:
    for number, photo in enumerate(photos):
        try:
            (folder / f"{number:04}.jpg").write_bytes(BARE[photo.kind](photo.data))
        except (TornPhoto, IndexError) as error:
            raise InputRefused("photo-unreadable", f"{photo.name}: {error}", "a whole photo", "", SAVE_AGAIN) from None
        yield number, photo


def _look_at(folder: Path, names: Mapping[str, str]) -> None:
    """Refuses the first that does not open; `names`: what each is called, by its file in the folder."""
    try:
        with read_photos(folder, limits=LIMITS) as read:
            opened, told = {photo.file for photo in read}, {each.file: each.reason for each in read.told}
    except InputRefused as refused:
        raise _unreadable(next(iter(names.values())), refused.actual, refused.remedy) from None
    for file, name in names.items():
        if file not in opened:
            reason = told.get(file) or PhotoReason.UNREADABLE
            raise _unreadable(name, reason, remedy_of(reason))


def _unreadable(name: str, told: object, remedy: str) -> InputRefused:
    return InputRefused("photo-unreadable", f"{name}: {told}", "a photo that opens", "", remedy)
