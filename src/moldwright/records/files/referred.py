"""Which files the events refer to, struck out or not: what a line goes through stays readable with its photo."""

from __future__ import annotations

import re
from collections.abc import Iterator
from types import MappingProxyType
from typing import Any, get_args

from sqlalchemy import Connection, select

from moldwright.errors import InputRefused
from moldwright.log.ids import FileHash
from moldwright.log.json_text import body_of
from moldwright.log.kinds import KINDS
from moldwright.records.store.tables import EVENT
from moldwright.store.walk import hints


def _fields(kind: type) -> tuple[str, ...]:
    return tuple(name for name, told in hints(kind).items() if FileHash in (told, *get_args(told)))


FILES_OF = MappingProxyType({name: fields for name, kind in KINDS.items() if (fields := _fields(kind))})
"""The fields that hold a file's hash, by the kinds of event that have such."""
WRITTEN_HASH = re.compile('"([0-9a-f]{64})"')
AT_ONCE = 1000


def files_referred_to(connection: Connection, kept: set[FileHash]) -> set[FileHash]:
    """The hashes of all files that any event names.

    Parameters
    ----------
    connection : of a store.
    kept : hashes of the files that are kept; a kind of event that is not known refers to one that it writes.
    """
    known = tuple(FILES_OF)
    wanted = EVENT.c.kind.in_(known) | EVENT.c.kind.not_in(tuple(KINDS))
    order = select(EVENT.c.kind, EVENT.c.body).where(wanted).execution_options(yield_per=AT_ONCE)
    found: set[FileHash] = set()
    for kind, text in connection.execute(order):
        found.update(_in(kind, text, kept))
    return found


def _in(kind: str, text: str, kept: set[FileHash]) -> Iterator[FileHash]:
    fields = FILES_OF.get(kind)
    try:
        body: Any = body_of(kind, text) if fields else None
    except InputRefused:
        body = None
    if body is not None:
        yield from (FileHash(told) for field in fields or () if (told := getattr(body, field)))
    else:
        yield from (FileHash(told) for told in WRITTEN_HASH.findall(text) if told in kept)
