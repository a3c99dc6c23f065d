"""What is amiss with the kept files: told, never mended by itself and never fatal."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum
from pathlib import Path

from sqlalchemy import select

from moldwright.disk.whole_file import PART
from moldwright.errors import RecordConflict
from moldwright.log.ids import FileHash
from moldwright.records.files.kept import is_hash, place_of, size_of
from moldwright.records.files.referred import files_referred_to
from moldwright.records.shop import Shop
from moldwright.records.store.tables import FILE


class FileFault(StrEnum):
    """What can be amiss with a file."""

    MISSING = "missing"
    DAMAGED = "damaged"
    NEVER_KEPT = "told of, but never kept here"
    UNREFERRED = "nothing refers to it"
    UNLISTED = "in the folder, but not in the records"


@dataclass(frozen=True, slots=True)
class FileFinding:
    """One file with which something is amiss; `file`: its hash, or where it lies in the folder if it has none.

    `name`: what people call it, "" where nobody said.
    """

    fault: FileFault
    file: str
    name: str = ""


def file_findings(shop: Shop) -> tuple[FileFinding, ...]:
    """Everything that is amiss with the store's files, every one of which is read.

    Parameters
    ----------
    shop : the store.
    """
    with shop.reading() as connection:
        listed = {FileHash(row.hash): row.name for row in connection.execute(select(FILE.c.hash, FILE.c.name))}
        told = files_referred_to(connection, set(listed))
    found = [FileFinding(fault, file, name) for file, name in listed.items() if (fault := _fault_of(shop, file))]
    found += [FileFinding(FileFault.NEVER_KEPT, file) for file in told - set(listed)]
    found += [FileFinding(FileFault.UNREFERRED, file, listed[file]) for file in set(listed) - told]
    found += [FileFinding(FileFault.UNLISTED, each) for each in _others(shop.files, listed)]
    return tuple(sorted(found, key=lambda each: (each.fault.name, each.file)))


def _fault_of(shop: Shop, file: FileHash) -> FileFault | None:
    try:
        if not place_of(shop.files, file).is_file():
            return FileFault.MISSING
        size_of(shop.files, file)
    except RecordConflict:
        return FileFault.DAMAGED
    return None


def _others(files: Path, listed: dict[FileHash, str]) -> Iterator[str]:
    """What lies in the folder and is none of the store's; what is just being written is left alone."""
    for path in sorted(files.rglob("*")):
        own = is_hash(path.name) and path.name in listed and path == place_of(files, FileHash(path.name))
        if path.is_file() and not own and not path.name.endswith(PART):
            yield str(path.relative_to(files))
