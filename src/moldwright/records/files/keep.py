"""Taking a file in, and saying of a run, a lot, a mold, an edition or a recipe that it belongs to it."""

from __future__ import annotations

from pathlib import Path

from moldwright.child.serve import regular_bytes
from moldwright.errors import InputRefused
from moldwright.log.any_events import Attached
from moldwright.log.event import About, Event
from moldwright.log.ids import FileHash, SubjectId
from moldwright.plan.ids import NOWHERE, StepId
from moldwright.records.clock import BenchClock, now_ms
from moldwright.records.files.bare import BARE, bare_photo
from moldwright.records.files.kept import put
from moldwright.records.files.kinds import KEPT, LARGEST_OF_ALL, MB, type_of
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
    label = label_of(name or (source.name if isinstance(source, Path) else ""))
    data = _bytes(source, label)
    kind = type_of(data, label)
    kept = bare_photo(data, kind, label) if kind in BARE else data
    file, _ = put(shop.files, kept)
    row = {"hash": file, "size": len(kept), "type": kind.value, "name": label, "kept_ms": now_ms()}
    with shop.writing() as connection:
        connection.execute(inserting(connection, FILE).on_conflict_do_nothing(), row)
    return file


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
    try:
        data = regular_bytes(source, LARGEST_OF_ALL)
    except FileNotFoundError:
        raise InputRefused("file-missing", str(source), KEPT, "", "Check the file's name and folder.") from None
    except IsADirectoryError:
        raise InputRefused("not-a-file", label, KEPT, "", "Give the file itself, not its folder.") from None
    except (OSError, ValueError) as error:
        told = (error.strerror if isinstance(error, OSError) else None) or "no usable name"
        raise InputRefused("file-unreadable", f"{label}: {told}", KEPT, "", "May you read this file?") from None
    if len(data) > LARGEST_OF_ALL:
        remedy = "Make it smaller, or attach the pages or the part that matters."
        raise InputRefused("file-too-large", f"more than {LARGEST_OF_ALL // MB}", LARGEST_OF_ALL // MB, "MB", remedy)
    return data
