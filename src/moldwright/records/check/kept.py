"""What stands beside the events: plans, numbers, files."""

from __future__ import annotations

import json
import zlib
from collections.abc import Iterator
from hashlib import sha256

from sqlalchemy import Connection, select

from moldwright.errors import InputRefused
from moldwright.log.edition_events import NumberGiven
from moldwright.log.event import About
from moldwright.log.piece_events import PiecePlanned
from moldwright.log.run_events import Replanned, Started
from moldwright.plan.plan import SCHEMA_VERSION
from moldwright.records.check.finding import Amiss, Found
from moldwright.records.files.check import FileFault, file_findings
from moldwright.records.shop import Shop
from moldwright.records.store.rows import event_of
from moldwright.records.store.tables import EVENT, NUMBER, PLAN

OF_FILES = {
    FileFault.MISSING: Amiss.FILE_MISSING,
    FileFault.DAMAGED: Amiss.FILE_DAMAGED,
    FileFault.NEVER_KEPT: Amiss.FILE_NEVER,
    FileFault.UNREFERRED: Amiss.FILE_LOOSE,
    FileFault.UNLISTED: Amiss.FILE_STRANGE,
}
OF_PLANS = (About.RUN.value, About.PIECE.value)
PLANNED, GIVEN = ("started", "replanned", "piece-planned"), "number-given"


def plan_cases(shop: Shop) -> Iterator[Found]:
    """Plans that are not what they were, and runs and pieces whose plan is not here.

    Parameters
    ----------
    shop : the store.
    """
    with shop.reading() as connection:
        ids = set()
        for id_, packed in connection.execute(select(PLAN.c.id, PLAN.c.packed)):
            ids.add(id_)
            yield from _of_plan(id_, packed)
        order = select(EVENT).where(EVENT.c.about.in_(OF_PLANS), EVENT.c.kind.in_(PLANNED))
        for row in connection.execute(order).all():
            try:
                body = event_of(row).body
            except InputRefused:
                continue  # told by `event_cases`
            if isinstance(body, Started | Replanned | PiecePlanned) and body.plan not in ids:
                yield Amiss.PLAN_MISSING, f"plan {body.plan[:12]} of {row.about} {row.subject}"


def _of_plan(id_: str, packed: bytes) -> Iterator[Found]:
    try:
        text = zlib.decompress(packed)
    except zlib.error:
        text = b""
    if sha256(text).hexdigest() != id_:
        yield Amiss.PLAN_DAMAGED, id_[:12]
        return
    version = json.loads(text).get("schema_version")
    if version != SCHEMA_VERSION:
        yield Amiss.PLAN_OTHER, f"{id_[:12]}: schema {version}"


def number_cases(shop: Shop) -> Iterator[Found]:
    """Numbers that no event gave, and events whose number is not held by that piece. One number is held once: the
    table allows no more.

    Parameters
    ----------
    shop : the store.
    """
    with shop.reading() as connection:
        rows = connection.execute(select(NUMBER)).all()
        held = {row.event: (row.edition, row.series, row.number, row.piece) for row in rows}
        given = dict(_given(connection))
    for event in sorted(held.keys() | given.keys()):
        if held.get(event) != given.get(event):
            edition, series, number, _ = held.get(event) or given[event]
            yield Amiss.NUMBER, f"{series} {number} of edition {edition}, event {event}"


def _given(connection: Connection) -> Iterator[tuple[str, tuple[str, str, int, str]]]:
    order = select(EVENT).where(EVENT.c.about == About.EDITION.value, EVENT.c.kind == GIVEN)
    for row in connection.execute(order).all():
        try:
            body = event_of(row).body
        except InputRefused:
            continue  # told by `event_cases`
        if isinstance(body, NumberGiven):
            yield row.id, (row.subject, body.series.value, body.number, body.piece)


def file_cases(shop: Shop) -> Iterator[Found]:
    """What is amiss with photos and files.

    Parameters
    ----------
    shop : the store.
    """
    for found in file_findings(shop):
        yield OF_FILES[found.fault], f"{found.name} ({found.file[:12]})" if found.name else found.file
