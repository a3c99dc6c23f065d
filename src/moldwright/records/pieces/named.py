"""Which files a commission names, and that all of them are a piece's own."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass
from enum import Enum
from pathlib import PurePosixPath

from moldwright.commission.orders import Commission
from moldwright.commission.reading import commission_from_toml
from moldwright.errors import InputRefused
from moldwright.records.files.kinds import PHOTOS, FileType
from moldwright.records.files.scans import SCANS
from moldwright.text.shown import short

MISSING = "Give the file with the commission, or take its name out of the commission."


class NamedAs(Enum):
    """What a commission names a file or a folder for: by which table and key, whether it is a folder, what is in it."""

    SCAN = ("original", "file", False, frozenset(SCANS.values()), "a scan")
    PHOTOS = ("original", "photos", True, frozenset(PHOTOS.values()), "photos")
    SHEETS = ("shop", "sheets", True, frozenset({FileType.TEXT}), "sheets, which are texts")
    STEPS = ("shop", "steps", False, frozenset({FileType.TEXT}), "a list of steps, which is a text")

    def __init__(self, table: str, key: str, folder: bool, kinds: frozenset[FileType], words: str) -> None:
        self.table, self.key, self.folder, self.kinds, self.words = table, key, folder, kinds, words


@dataclass(frozen=True, slots=True)
class NamedPath:
    """A file or folder as a commission names it."""

    as_: NamedAs
    path: str


def paths_in(commission: Commission) -> tuple[NamedPath, ...]:
    """All that a commission names.

    Parameters
    ----------
    commission : as it was read.
    """
    orders = {"original": commission.original, "shop": commission.shop}
    named = (NamedPath(as_, getattr(orders[as_.table], as_.key)) for as_ in NamedAs)
    return tuple(each for each in named if each.path)


def check_commission(text: str, files: Mapping[str, FileType]) -> Commission:
    """Read a piece's commission; refused where it names what is none of its files, or one of another kind.

    Parameters
    ----------
    text : as TOML.
    files : the kind of each of the piece's files, by its name.

    Raises InputRefused ("piece-file-missing", "piece-file-other" and those of a commission).
    """
    commission = commission_from_toml(text)
    for named in paths_in(commission):
        found = [name for name in files if _of(named, name)]
        if not found:
            told = f"{named.as_.table}.{named.as_.key}: {short(named.path)}"
            raise InputRefused("piece-file-missing", told, "a file of the piece", "", MISSING)
        for name in found:
            if not _fits(named.as_, name, files[name]):
                told = f"{short(name)} is {files[name].value}"
                remedy = "Give the right file by that name, with the ending of what it is."
                raise InputRefused("piece-file-other", told, named.as_.words, "", remedy)
    return commission


def stays_inside(text: str, names: Collection[str]) -> bool:
    """Whether all that a commission names is among some files; one that cannot be read names nothing.

    Parameters
    ----------
    text : as TOML.
    names : of the files.
    """
    try:
        named = paths_in(commission_from_toml(text))
    except InputRefused:
        return True
    return all(any(_of(each, name) for name in names) for each in named)


def photo_names(commission: Commission, names: Collection[str]) -> Iterator[str]:
    """The piece's photos among its files, masks not among them.

    Parameters
    ----------
    commission : as it was read.
    names : of the files.
    """
    named = (each for each in paths_in(commission) if each.as_ is NamedAs.PHOTOS)
    return (name for each in named for name in sorted(names) if _of(each, name) and not name.endswith(".mask.png"))


def _of(named: NamedPath, name: str) -> bool:
    return str(PurePosixPath(name).parent) == named.path if named.as_.folder else name == named.path


def _fits(as_: NamedAs, name: str, kind: FileType) -> bool:
    """A scan's name ends as its format asks for, by which it is read."""
    ending = PurePosixPath(name).suffix.lower().removeprefix(".")
    return kind in as_.kinds and (as_ is not NamedAs.SCAN or SCANS.get(ending) is kind)
