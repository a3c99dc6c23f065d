"""Which files of a folder are photos, which are masks, and a hash of them all."""

from __future__ import annotations

import hashlib
from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path

from moldwright.errors import InputRefused
from moldwright.photos.reading.limits import PhotoLimits
from moldwright.photos.reading.sniff import HEAD_BYTES, meant_as_photo

MASK_END = ".mask.png"


@dataclass(frozen=True, slots=True)
class Named:
    """A photo's file name and that of its mask, None where it has none."""

    photo: str
    mask: str | None


def named_in(folder: Path, leave_out: tuple[str, ...], limits: PhotoLimits) -> tuple[Named, ...]:
    """The photos of a folder by name, those left out not among them.

    Parameters
    ----------
    folder : looked at without the folders in it.
    leave_out : names of photos that are left out; each must be there.
    limits : how many there may be.
    """
    files = _files(folder)
    photos = [name for name in files if _is_photo(folder, name)]
    lost = sorted(set(leave_out) - set(photos))
    if lost:
        remedy = "Write the photo's file name in leave_out just as it is in the folder."
        raise InputRefused("left-out-photo-missing", lost[0], folder.name, "", remedy)
    if len(photos) > limits.photos:
        remedy = "Keep the 48 to 100 best photos in the folder: two rings and one from above."
        raise InputRefused("too-many-photos", len(photos), limits.photos, "photos", remedy)
    masks = {name for name in files if name.endswith(MASK_END)}
    return tuple(Named(name, _mask_of(name, masks)) for name in photos if name not in leave_out)


def content_of(folder: str | Path, leave_out: tuple[str, ...] = (), limits: PhotoLimits | None = None) -> str:
    """A hash of all photos and masks as they are now, before any is decoded; "" where they cannot be read.

    Parameters
    ----------
    folder, leave_out, limits : as `read_photos` takes them.
    """
    limits, folder = limits or PhotoLimits(), Path(folder)
    try:
        names = named_in(folder, leave_out, limits)
        return joined((each.photo, file_hashes(folder, each, limits)) for each in names)
    except (InputRefused, OSError, ValueError):
        return ""


def joined(hashes: Iterable[tuple[str, str]]) -> str:
    """One hash of the hashes of many files and their names.

    Parameters
    ----------
    hashes : name and hash of each, in order of the names.
    """
    whole = hashlib.sha256()
    for name, told in hashes:
        whole.update(f"{name}\0{told}\0".encode(errors="surrogateescape"))
    return whole.hexdigest()


def file_hashes(folder: Path, named: Named, limits: PhotoLimits) -> str:
    """The hashes of a photo and of its mask as they are on the disk now, the mask's after a blank; "" if too large.

    Parameters
    ----------
    folder : they are in.
    named : their names.
    limits : the largest file.
    """
    return " ".join(_hash(folder / name, limits.file_bytes) for name in (named.photo, named.mask) if name)


def _hash(path: Path, most_bytes: int) -> str:
    if not path.is_file() or path.stat().st_size > most_bytes:
        return ""
    with path.open("rb") as file:
        return hashlib.file_digest(file, "sha256").hexdigest()


def _files(folder: Path) -> list[str]:
    try:
        return sorted(path.name for path in folder.iterdir() if path.is_file() and not path.name.startswith("."))
    except NotADirectoryError:
        remedy = f"{folder.name} is a file: put the photos into a folder of their own and name that."
        raise InputRefused("photos-missing", folder.name, "a folder", "", remedy) from None
    except FileNotFoundError:
        remedy = f"There is no such folder in {folder.parent}."
        raise InputRefused("photos-missing", folder.name, "a folder", "", remedy) from None
    except (OSError, ValueError):
        remedy = "Check the folder's permissions and its disk."
        raise InputRefused("photos-unreadable", folder.name, "a folder", "", remedy) from None


def _is_photo(folder: Path, name: str) -> bool:
    if name.endswith(MASK_END):
        return False
    try:
        with (folder / name).open("rb") as file:
            return meant_as_photo(name, file.read(HEAD_BYTES))
    except OSError:
        return meant_as_photo(name, b"")


def _mask_of(name: str, masks: set[str]) -> str | None:
    wanted = f"{Path(name).stem}{MASK_END}"
    return wanted if wanted in masks else None
