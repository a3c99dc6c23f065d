"""Which files the events refer to, struck out or not: what a line goes through stays readable with its photo."""

from __future__ import annotations

import re
from collections.abc import Hashable, Iterator
from dataclasses import is_dataclass
from types import MappingProxyType
from typing import Any, cast, get_args

from sqlalchemy import Connection, select

from moldwright.errors import InputRefused
from moldwright.log.ids import FileHash
from moldwright.log.json_text import body_of
from moldwright.log.kinds import KINDS
from moldwright.records.store.tables import EVENT
from moldwright.store.walk import hints


def _fields(kind: type) -> tuple[str, ...]:
    return tuple(name for name, told in hints(kind).items() if _holds(told))


def _holds(told: Any) -> bool:
    """Whether a field of that type holds a file's hash, itself or in what it is made of."""
    if told is FileHash or any(map(_holds, get_args(told))):
        return True
    return is_dataclass(told) and any(map(_holds, hints(cast(Hashable, told)).values()))


FILES_OF = MappingProxyType({name: found for name, kind in KINDS.items() if (found := _fields(kind))})
"""The fields that hold files' hashes, by the kinds of event that have such."""
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
    within = FILES_OF.get(kind)
    try:
        body: Any = body_of(kind, text) if within else None
    except InputRefused:
        body = None
    if body is not None:
        yield from _told(body, type(body))
    else:
        yield from (FileHash(told) for told in WRITTEN_HASH.findall(text) if told in kept)


def _told(value: Any, hint: Any) -> Iterator[FileHash]:
    """The hashes in a value, whose type tells where they are."""
    if isinstance(value, tuple):
        for each in value:
            yield from _told(each, get_args(hint)[0])
    elif is_dataclass(value):
        for name, inner in hints(cast(Hashable, type(value))).items():
            yield from _told(getattr(value, name), inner)
    elif value and FileHash in (hint, *get_args(hint)):
        yield FileHash(value)
