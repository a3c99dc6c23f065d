"""Taking a file in, and saying of a run, a lot, a mold, an edition, a recipe or a piece that it belongs to it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import replace
from pathlib import Path
from typing import BinaryIO

from moldwright.child.serve import regular_bytes, regular_file
from moldwright.errors import InputRefused
from moldwright.log.any_events import Attached
from moldwright.log.event import About, Event
from moldwright.log.ids import FileHash, SubjectId
from moldwright.plan.ids import NOWHERE, StepId
from moldwright.records.clock import BenchClock, now_ms
from moldwright.records.files.bare import BARE, CameFile, bare_photos
from moldwright.records.files.kept import put
from moldwright.records.files.kinds import KEPT, LARGEST_OF_ALL, MB, FileType, type_of
from moldwright.records.shop import Shop, inserting
from moldwright.records.store.tables import FILE
from moldwright.text.harmless import harmless
from moldwright.text.shown import short

LONGEST_LABEL = 120


def keep_file(shop: Shop, source: Path | bytes, name: str = "") -> FileHash:
    """Keep a file beside the store; the same bytes are kept once. It is on the disk when this returns.

    A photo is kept without what a camera writes beside the picture (place, time, names, serial numbers), with its
    picture's bytes unchanged; its hash is that of what is kept. PDFs and texts are kept byte for byte.

    Parameters
    ----------
    shop : the store.
    source : the file, or its bytes.
    name : what people call it; it decides nothing. Left out, the file's own.

    Raises InputRefused ("file-missing", "file-unreadable", "file-empty", "file-not-kept", "file-too-large",
    "file-cut-off", "photo-unreadable", "files-unwritable").
    """
    return keep_files(shop, [(source, name)])[0]


def keep_files(shop: Shop, sources: Sequence[tuple[Path | bytes, str]]) -> list[FileHash]:
    """Keep many files, each as `keep_file` does: one process looks at all photos among them. Of one that is refused,
    and of the photos beside it, nothing is listed.

    Parameters
    ----------
    shop : the store.
    sources : each file and what people call it.

    Raises as `keep_file`.
    """
    kept, photos = dict[int, FileHash](), list[tuple[int, CameFile]]()

    def came() -> Iterator[CameFile]:
        for number, (source, name) in enumerate(sources):
            label = label_of(name or (source.name if isinstance(source, Path) else ""))
            data = _bytes(source, label)
            file = CameFile(data, type_of(data, label), label)
            if file.kind in BARE:
                photos.append((number, replace(file, data=b"")))
                yield file
            else:
                kept[number] = _put(shop, file)

    with bare_photos(came()) as bare:
        for (number, photo), path in zip(photos, bare, strict=True):
            kept[number] = _put(shop, replace(photo, data=path.read_bytes()))
    return [kept[number] for number in range(len(sources))]


def _put(shop: Shop, file: CameFile) -> FileHash:
    hash_, _ = put(shop.files, file.data)
    listed(shop, hash_, len(file.data), file.kind, file.name, now_ms())
    return hash_


def listed(shop: Shop, file: FileHash, size: int, kind: FileType, label: str, kept_ms: int) -> None:
    """Write into the list of kept files that one lies in its place; one that is listed stays as it is.

    Parameters
    ----------
    shop : the store.
    file, size, kind, label : what it is.
    kept_ms : since when it is kept.
    """
    row = {"hash": file, "size": size, "type": kind.value, "name": label, "kept_ms": kept_ms}
    with shop.writing() as connection:
        connection.execute(inserting(connection, FILE).on_conflict_do_nothing(), row)


def attach(
    shop: Shop,
    clock: BenchClock,
    about: About,
    subject: SubjectId,
    file: FileHash,
    text: str = "",
    step: StepId = NOWHERE,
    turn: int = 0,
) -> Event:
    """Write down that a kept file belongs to something.

    Parameters
    ----------
    shop : the store.
    clock : of the bench.
    about, subject : what it belongs to.
    file : its hash.
    text : what it shows.
    step, turn : where in a run.
    """
    event = clock.event(about, subject, Attached(file, text, step, turn))
    shop.append([event])
    return event


def label_of(name: str) -> str:
    """A file's name as people read it: no folders, nothing that steers a terminal, never endless.

    Parameters
    ----------
    name : anything.

    >>> label_of("../../etc/Bronze\\x1b[2J.jpg"), label_of("C:\\\\photos\\\\a.png"), label_of("/")
    ('Bronze\\\\x1b[2J.jpg', 'a.png', 'file')
    """
    last = name.replace("\\", "/").rstrip("/").rpartition("/")[2]
    return short(harmless(last).strip(), LONGEST_LABEL) or "file"


def _bytes(source: Path | bytes, label: str) -> bytes:
    if isinstance(source, bytes):
        return source
    with _telling(source, label, KEPT):
        data = regular_bytes(source, LARGEST_OF_ALL)
    if len(data) > LARGEST_OF_ALL:
        remedy = "Make it smaller, or attach the pages or the part that matters."
        raise InputRefused("file-too-large", f"more than {LARGEST_OF_ALL // MB}", LARGEST_OF_ALL // MB, "MB", remedy)
    return data


@contextmanager
def opened_file(source: Path | BinaryIO, label: str, wanted: str) -> Iterator[BinaryIO]:
    """A file open for reading from its beginning; what is open already stays so.

    Parameters
    ----------
    source : the file.
    label : what it is called.
    wanted : what it should be, in words.

    Raises InputRefused ("file-missing", "not-a-file", "file-unreadable").
    """
    if not isinstance(source, Path):
        yield source
        return
    with _telling(source, label, wanted):
        file = regular_file(source)
    with file:
        yield file


@contextmanager
def _telling(source: Path, label: str, wanted: str) -> Iterator[None]:
    try:
        yield
    except FileNotFoundError:
        raise InputRefused("file-missing", str(source), wanted, "", "Check the file's name and folder.") from None
    except IsADirectoryError:
        raise InputRefused("not-a-file", label, wanted, "", "Give the file itself, not its folder.") from None
    except (OSError, ValueError) as error:
        told = (error.strerror if isinstance(error, OSError) else None) or "no usable name"
        raise InputRefused("file-unreadable", f"{label}: {told}", wanted, "", "May you read this file?") from None
