"""Putting an archive back: into an empty store of either engine, in one transaction, all or nothing."""

from __future__ import annotations

import zlib
from collections.abc import Iterator, Sequence
from contextlib import contextmanager, suppress
from dataclasses import asdict, dataclass
from pathlib import Path
from typing import Any, cast

from sqlalchemy import Connection, String, delete, insert, select, text

from moldwright.archive.lines import EventLine
from moldwright.archive.read import ShopArchive
from moldwright.errors import InputRefused, MoldwrightError
from moldwright.log.any_events import Unread
from moldwright.log.event import About, Body
from moldwright.log.ids import FileHash
from moldwright.log.json_text import body_of
from moldwright.log.uuid7 import is_uuid7
from moldwright.progress import Progress, silent
from moldwright.records.files.incoming import put_blocks
from moldwright.records.files.kept import place_of
from moldwright.records.shop import Shop, inserting
from moldwright.records.store.engine import SQLITE
from moldwright.records.store.rows import claim_of, found_by, unfit
from moldwright.records.store.tables import EVENT, FILE, NUMBER, PLAN, SHOP
from moldwright.text.shown import shown

AT_ONCE = 500
HELD = (EVENT, PLAN, FILE, NUMBER)
ABOUTS = {each.value for each in About}
LONGEST_TYPE = cast(String, FILE.c.type.type).length
COPYING = "copying plans and files"


@dataclass(frozen=True, slots=True)
class Restored:
    """What was put back: how many of each.

    `missing`: files that were lost or damaged when the archive was written; `unreadable`: events that this version
    cannot read, kept as they came.
    """

    events: int
    plans: int
    files: int
    missing: tuple[FileHash, ...]
    unreadable: int


def restore(shop: Shop, archive: ShopArchive, unreadable: bool = False, progress: Progress = silent) -> Restored:
    """Put an archive into an empty store. Whatever ends it early, the store is as empty as before.

    Parameters
    ----------
    shop : the store.
    archive : open.
    unreadable : keep events that this version cannot read, as they are, instead of refusing the archive.
    progress : told how far it is; may raise to cancel.

    Raises InputRefused ("shop-not-empty", "archive-damaged", "archive-event-unreadable", "archive-unfit").
    """
    with _taken_back(shop) as laid, shop.writing() as connection:
        _hold(connection)
        _named(connection, archive)
        events, odd = _events(connection, archive, unreadable, progress)
        progress(COPYING, 0.0)
        plans = _plans(connection, archive)
        files = _files(connection, archive, shop.files, laid)
        return Restored(events, plans, files, tuple(sorted(archive.missing)), odd)


def _hold(connection: Connection) -> None:
    """Nobody else writes meanwhile, and nobody has written."""
    if connection.dialect.name != SQLITE:
        names = ", ".join(f'"{table.name}"' for table in (*HELD, SHOP))
        connection.execute(text(f"LOCK TABLE {names} IN SHARE ROW EXCLUSIVE MODE"))
    if any(connection.execute(select(table).limit(1)).first() is not None for table in HELD):
        remedy = "Name a new file, or an empty database: --shop NEW. Nothing was written."
        raise InputRefused("shop-not-empty", "a store that holds records", "an empty store", "", remedy)


def _named(connection: Connection, archive: ShopArchive) -> None:
    """It is the same shop as before."""
    if archive.shop is not None:
        connection.execute(delete(SHOP))
        connection.execute(insert(SHOP), asdict(archive.shop))


def _events(connection: Connection, archive: ShopArchive, unreadable: bool, progress: Progress) -> tuple[int, int]:
    count = odd = 0
    for lines in _batches(archive.events(progress)):
        bodies = [_body(line, unreadable) for line in lines]
        rows = [_row(line, body) for line, body in zip(lines, bodies, strict=True)]
        connection.execute(insert(EVENT), rows)
        claims = [claim for pair in zip(lines, bodies, strict=True) if (claim := _claim(*pair))]
        if claims:
            connection.execute(inserting(connection, NUMBER).on_conflict_do_nothing(), claims)
        count += len(lines)
        odd += sum(body is None for body in bodies)
    return count, odd


def _batches(lines: Iterator[EventLine]) -> Iterator[Sequence[EventLine]]:
    batch: list[EventLine] = []
    for line in lines:
        batch.append(line)
        if len(batch) == AT_ONCE:
            yield batch
            batch = []
    if batch:
        yield batch


def _body(line: EventLine, unreadable: bool) -> Body | None:
    """What happened; None where this version cannot read it."""
    try:
        if not is_uuid7(line.id) or line.about not in ABOUTS:
            raise InputRefused("archive-event-unreadable", f"{line.id}, about: {line.about}")
        return body_of(line.kind, line.body)
    except InputRefused as refused:
        if unreadable:
            return None
        remedy = (
            "Use a version of Moldwright that is at least as new as the one that wrote it; or keep such events as they "
            "are, for `moldwright shop check` to tell: --unreadable. Nothing was written."
        )
        told = f"event {line.id[:36]}: {refused.actual}"
        raise InputRefused("archive-event-unreadable", told, "events of this version", "", remedy) from None


def _row(line: EventLine, body: Body | None) -> dict[str, Any]:
    """The row with the very text that the archive has."""
    row = {**asdict(line), **found_by(body if body is not None else Unread(line.kind, line.body))}
    wrong = unfit(row)
    if wrong:
        raise _unfit(f"event {line.id[:36]}, {wrong}: {shown(row[wrong])}")
    return row


def _claim(line: EventLine, body: Body | None) -> dict[str, Any] | None:
    """A number that was given stays given."""
    return None if body is None else claim_of(line.subject, line.id, body)


def _plans(connection: Connection, archive: ShopArchive) -> int:
    count = 0
    for line, data in archive.plans():
        row = {"id": line.sha256, "name": _plain(line.name), "kept_ms": line.kept_ms, "packed": zlib.compress(data, 9)}
        connection.execute(insert(PLAN), row)
        count += 1
    return count


def _files(connection: Connection, archive: ShopArchive, folder: Path, laid: list[FileHash]) -> int:
    count = 0
    for line, blocks in archive.files():
        kind, name = _plain(line.type, LONGEST_TYPE), _plain(line.name)
        row = {"hash": line.sha256, "size": line.bytes, "type": kind, "name": name, "kept_ms": line.kept_ms}
        connection.execute(insert(FILE), row)
        if blocks is not None:
            file, new = put_blocks(folder, blocks)
            laid += [file] if new else []
        count += 1
    return count


@contextmanager
def _taken_back(shop: Shop) -> Iterator[list[FileHash]]:
    """Files that were laid are gone again where the rest did not come to be, and only there."""
    laid: list[FileHash] = []
    there = shop.files.exists()
    try:
        yield laid
    except BaseException:
        if _still_empty(shop):
            _take(shop.files, laid, with_folder=not there)
        raise


def _still_empty(shop: Shop) -> bool:
    """A stop may come when all is kept already; who cannot ask leaves the files, which hurt nobody."""
    try:
        with shop.reading() as connection:
            return connection.execute(select(FILE.c.hash).limit(1)).first() is None
    except MoldwrightError:
        return False


def _take(folder: Path, laid: Sequence[FileHash], with_folder: bool) -> None:
    places = [place_of(folder, file) for file in laid]
    for place in places:
        place.unlink(missing_ok=True)
    for path in [*{place.parent for place in places}, *([folder] if with_folder else [])]:
        with suppress(OSError):
            path.rmdir()


def _plain(text: str, longest: int | None = None) -> str:
    """A name or a type that both engines take."""
    if "\0" in text or len(text) > (longest or len(text)):
        raise _unfit(shown(text))
    return text


def _unfit(told: str) -> InputRefused:
    return InputRefused(
        "archive-unfit", told, "what a store holds", "", "No store of ours writes this. Nothing was written."
    )
