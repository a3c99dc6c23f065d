"""The shop's records, open: events added and read, plans kept, numbers claimed."""

from __future__ import annotations

import zlib
from collections.abc import Iterable, Iterator, Sequence
from contextlib import contextmanager
from hashlib import sha256
from pathlib import Path

from sqlalchemy import Connection, Engine, func, select

from moldwright.errors import InputRefused, RecordConflict
from moldwright.log.event import About, Event
from moldwright.log.ids import PlanId, SubjectId
from moldwright.log.uuid7 import time_ms
from moldwright.plan.json_text import plan_from_json
from moldwright.plan.plan import Plan
from moldwright.records.clock import now_ms
from moldwright.records.doubts import Doubt
from moldwright.records.store.append import DOUBTS, Appended, append_within, inserting
from moldwright.records.store.engine import engine_for, reading_options, write_ahead
from moldwright.records.store.faults import faults_told, in_the_way
from moldwright.records.store.rows import event_of
from moldwright.records.store.schema import brought_up
from moldwright.records.store.tables import EVENT, PLAN, SHOP
from moldwright.ways import Deed

__all__ = ["Appended", "Shop", "append_within", "inserting", "open_shop"]
TRIES = 3
"""How often events are sent where two transactions stood in each other's way."""


class Shop:
    """An open store.

    Parameters
    ----------
    engine : its database.
    files : the folder of its photos and files, which need not be there yet; None: nobody told it.

    `doubts` gathers what was odd about the times of what was kept.
    """

    def __init__(self, engine: Engine, files: Path | None = None) -> None:
        self.engine, self._files = engine, files
        self.doubts: list[Doubt] = []

    @property
    def files(self) -> Path:
        """The folder of its photos and files."""
        if self._files is None:
            remedy = "Tell the folder that all benches of this shop share: MOLDWRIGHT_FILES."
            raise InputRefused("files-folder-untold", "a store on a server", "a folder for its files", "", remedy)
        return self._files

    @contextmanager
    def reading(self) -> Iterator[Connection]:
        """One state of the store, read; nobody who writes waits for it.

        What a driver raises becomes InputRefused here and in `writing` (`store/faults.py`).
        """
        with faults_told(self.engine), self.engine.execution_options(**reading_options(self.engine)).connect() as found:
            yield found

    @contextmanager
    def writing(self) -> Iterator[Connection]:
        """A transaction that is kept whole or not at all."""
        with faults_told(self.engine), self.engine.begin() as connection:
            told = connection.info[DOUBTS] = []
            yield connection
        self.doubts += told

    def append(self, events: Iterable[Event]) -> Appended:
        """Keep events; returns when they are on the disk. One that is there already counts once.

        Parameters
        ----------
        events : any, in any order.

        Raises RecordConflict ("event-differs") where another event has that id.
        """
        sent = tuple(events)
        for turn in range(1, TRIES + 1):
            try:
                with self.writing() as connection:
                    return append_within(connection, sent)
            except InputRefused as refused:
                if turn == TRIES or not in_the_way(refused):
                    raise
        raise AssertionError

    def events_of(self, subject: SubjectId) -> tuple[Event, ...]:
        """All events of one subject, in the order in which they happened.

        Parameters
        ----------
        subject : a run, a lot, a mold, an edition, a recipe or a piece.
        """
        order = select(EVENT).where(EVENT.c.subject == subject).order_by(EVENT.c.at_ms, EVENT.c.id)
        with self.reading() as connection:
            return tuple(event_of(row) for row in connection.execute(order))

    def events_about(self, about: About, kinds: Sequence[str] = ()) -> tuple[Event, ...]:
        """All events about one sort of thing, in the order in which they happened.

        Parameters
        ----------
        about : which sort.
        kinds : names of kinds; none: all.
        """
        order = select(EVENT).where(EVENT.c.about == about.value).order_by(EVENT.c.at_ms, EVENT.c.id)
        order = order.where(EVENT.c.kind.in_(kinds)) if kinds else order
        with self.reading() as connection:
            return tuple(event_of(row) for row in connection.execute(order))

    def last_ms(self, bench: str) -> int:
        """When the newest event of a bench was written, by its id; 0 for none.

        Parameters
        ----------
        bench : the device's name.
        """
        with self.reading() as connection:
            newest = connection.execute(select(func.max(EVENT.c.id)).where(EVENT.c.bench == bench)).scalar()
        return time_ms(newest) if newest else 0

    def keep_plan(self, text: str) -> PlanId:
        """Keep a plan.json; the same bytes are kept once.

        Parameters
        ----------
        text : of the file.
        """
        plan = plan_from_json(text)
        id_ = PlanId(sha256(text.encode()).hexdigest())
        row = {
            "id": id_,
            "name": plan.name.replace("\0", " "),
            "kept_ms": now_ms(),
            "packed": zlib.compress(text.encode(), 9),
        }
        with self.writing() as connection:
            connection.execute(inserting(connection, PLAN).on_conflict_do_nothing(), row)
        return id_

    def plan_text(self, id_: PlanId) -> str:
        """The text of a kept plan.json.

        Parameters
        ----------
        id_ : its id.
        """
        with self.reading() as connection:
            packed = connection.execute(select(PLAN.c.packed).where(PLAN.c.id == id_)).scalar_one_or_none()
        if packed is None:
            remedy = "Give the plan to the shop once more"
            raise RecordConflict("plan-not-kept", id_[:12], "a plan of this store", "", remedy, Deed.BEGIN_RUN)
        return zlib.decompress(packed).decode()

    def holds_plan(self, id_: PlanId) -> bool:
        """Whether a plan is kept.

        Parameters
        ----------
        id_ : its id.
        """
        with self.reading() as connection:
            return connection.execute(select(PLAN.c.id).where(PLAN.c.id == id_)).first() is not None

    def plan(self, id_: PlanId) -> Plan:
        """A kept plan.

        Parameters
        ----------
        id_ : its id.
        """
        return plan_from_json(self.plan_text(id_))

    def id(self) -> str:
        """By which a store is told from any other, since it was made."""
        with self.reading() as connection:
            found: str = connection.execute(select(SHOP.c.id)).scalar_one()
        return found

    def close(self) -> None:
        """Let go of the database."""
        self.engine.dispose()


def open_shop(place: str, files: Path | None = None) -> Shop:
    """Open a store, made where there is none.

    Parameters
    ----------
    place : a file's path, or PostgreSQL's URL.
    files : the folder of its photos and files; None: beside the file, `shop.files` of `shop.db`. A URL has no such
        place: for one it must be told, and all benches that share the store share the folder.
    """
    engine = engine_for(place)
    try:
        with faults_told(engine):
            brought_up(engine, place)
            write_ahead(engine)
    except BaseException:
        engine.dispose()
        raise
    return Shop(engine, files or files_beside(place))


def files_beside(place: str) -> Path | None:
    """The folder of a store's files where none is told: `shop.files` beside `shop.db`; None for a URL.

    Parameters
    ----------
    place : as `open_shop` takes it.
    """
    return None if "://" in place else Path(place.removesuffix(".db") + ".files")
