"""Writing an archive: one state of the store, as it was when this began, while benches go on writing."""

from __future__ import annotations

import json
import zlib
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from hashlib import sha256
from typing import Any, BinaryIO

from sqlalchemy import Connection, Select, Table, collate, func, select

from moldwright.archive import layout
from moldwright.archive.container import Parts
from moldwright.archive.lines import EventLine, FileLine, PlanLine, event_text, row_text
from moldwright.errors import RecordConflict
from moldwright.log.ids import FileHash, PlanId
from moldwright.progress import Progress, silent
from moldwright.records.files.kept import blocks_of, size_of
from moldwright.records.shop import Shop
from moldwright.records.store.engine import SQLITE
from moldwright.records.store.tables import EVENT, FILE, PLAN, SHOP

AT_ONCE = 1000
WRITING, COPYING = "writing what happened", "copying plans and files"


@dataclass(frozen=True, slots=True)
class Archived:
    """What an archive holds: how many of each.

    `files_missing`, `plans_missing`: those that are lost or damaged, and are not in it.
    """

    events: int
    plans: int
    files: int
    files_missing: tuple[FileHash, ...] = ()
    plans_missing: tuple[PlanId, ...] = ()


def write_archive(shop: Shop, out: BinaryIO, progress: Progress = silent) -> Archived:
    """Write all of a store into an empty file; the same records always give the same bytes.

    Parameters
    ----------
    shop : the store.
    out : the file, open for writing and reading.
    progress : told how far it is; may raise to cancel.
    """
    parts = Parts(out)
    with shop.reading() as connection:
        events = _events(connection, parts, progress)
        files, files_missing = _files(connection, parts, shop, progress)
        plans, plans_missing = _plans(connection, parts, progress)
        told = Archived(events, plans, files, files_missing, plans_missing)
        _about(connection, parts, told)
    parts.finish()
    return told


def _rows(connection: Connection, table: Table, names: Sequence[str]) -> Iterator[tuple[Any, ...]]:
    """The rows by the bytes of their first column, few in memory at once."""
    first = table.c[names[0]]
    by = first if connection.dialect.name == SQLITE else collate(first, "C")
    order: Select[Any] = select(*(table.c[name] for name in names)).order_by(by)
    for row in connection.execute(order.execution_options(yield_per=AT_ONCE)):
        yield tuple(row)


def _count(connection: Connection, table: Table) -> int:
    return connection.execute(select(func.count()).select_from(table)).scalar_one()


def _events(connection: Connection, parts: Parts, progress: Progress) -> int:
    every = _count(connection, EVENT)
    names = ("id", "about", "subject", "kind", "at_ms", "bench", "by", "body")
    with parts.part(layout.EVENTS) as out:
        for row in _rows(connection, EVENT, names):
            out.line(event_text(EventLine(*row)))
            if out.lines % AT_ONCE == 0:
                progress(WRITING, out.lines / every)
        return out.lines


def _files(connection: Connection, parts: Parts, shop: Shop, progress: Progress) -> tuple[int, tuple[FileHash, ...]]:
    rows = _rows(connection, FILE, ("hash", "size", "type", "name", "kept_ms"))
    lines = [FileLine(*row) for row in rows]
    missing = []
    for number, line in enumerate(lines):
        progress(COPYING, number / len(lines))
        file = FileHash(line.sha256)
        if not _whole(shop, line):
            missing.append(file)
            continue
        with parts.part(layout.FILE.format(file), packed=False) as out:
            for block in blocks_of(shop.files, file):
                out.write(block)
    _listed(parts, layout.FILES, lines)
    return len(lines), tuple(missing)


def _whole(shop: Shop, line: FileLine) -> bool:
    try:
        return size_of(shop.files, FileHash(line.sha256)) == line.bytes
    except RecordConflict:
        return False


def _plans(connection: Connection, parts: Parts, progress: Progress) -> tuple[int, tuple[PlanId, ...]]:
    lines, missing = [], []
    every = _count(connection, PLAN)
    for number, (id_, packed, name, kept_ms) in enumerate(_rows(connection, PLAN, ("id", "packed", "name", "kept_ms"))):
        progress(COPYING, number / every)
        text = _unpacked(packed)
        if sha256(text).hexdigest() != id_:
            missing.append(PlanId(id_))
            continue
        lines.append(PlanLine(id_, len(text), name, kept_ms))
        with parts.part(layout.PLAN.format(id_)) as out:
            out.write(text)
    _listed(parts, layout.PLANS, lines)
    return len(lines), tuple(missing)


def _unpacked(packed: bytes) -> bytes:
    try:
        return zlib.decompress(packed)
    except zlib.error:
        return b""


def _listed(parts: Parts, name: str, lines: Sequence[FileLine | PlanLine]) -> None:
    with parts.part(name) as out:
        for line in lines:
            out.line(row_text(line))


def _about(connection: Connection, parts: Parts, told: Archived) -> None:
    row = connection.execute(select(SHOP.c.id, SHOP.c.made_ms)).one_or_none()
    tree = {
        "format": layout.FORMAT,
        "version": layout.VERSION,
        "read_me": layout.README,
        "shop": None if row is None else {"id": row.id, "made_ms": row.made_ms},
        "events": told.events,
        "plans": told.plans,
        "files": told.files,
        "files_missing": told.files_missing,
        "plans_missing": told.plans_missing,
        "fields": layout.FIELDS,
    }
    with parts.part(layout.ABOUT) as out:
        out.write(json.dumps(tree, ensure_ascii=False, indent=1).encode() + b"\n")
