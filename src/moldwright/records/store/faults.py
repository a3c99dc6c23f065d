"""What goes wrong with a database, as our own refusals: the one place that knows the errors of its drivers."""

from __future__ import annotations

import os
import sqlite3
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

import psycopg
from sqlalchemy import Engine
from sqlalchemy.exc import DBAPIError, IntegrityError
from sqlalchemy.exc import TimeoutError as NoConnectionFree

from moldwright.errors import ComputationFailed, InputRefused, MoldwrightError, RecordConflict
from moldwright.records.store.engine import SQLITE, WAIT_S
from moldwright.text.shown import short
from moldwright.ways import Deed

NOTHING = "Nothing of it was kept."


@dataclass(frozen=True, slots=True)
class StoreFault:
    """One way in which a store can fail. `actual`, after the store's name: what was found."""

    code: str
    actual: str
    limit: str
    remedy: str
    way: Deed | None = None

    def refusal(self, name: str, more: str = "") -> InputRefused:
        """It, of one store.

        Parameters
        ----------
        name : the store's.
        more : what the database said, where that helps.
        """
        return InputRefused(self.code, f"{name}: {self.actual}{more}", self.limit, "", self.remedy, self.way)


FULL = StoreFault("shop-full", "no room on the disk", "room", f"Make room on the disk and do it once more. {NOTHING}")
FAILING = StoreFault(
    "shop-disk-fails",
    "the disk did not take or give what was asked",
    "a sound disk with room",
    f"{NOTHING} Look at its room, its cable and the account's limits, then what is amiss",
    Deed.CHECK_SHOP,
)
READ_ONLY = StoreFault(
    "shop-read-only",
    "it may be read but not written to",
    "the right to write",
    f"Give yourself the right to write to it and, of a file, to its folder. {NOTHING}",
)
BUSY = StoreFault(
    "shop-busy",
    "another program has held it",
    f"{WAIT_S:g} s",
    f"Do it once more; if it stays so, close the other program. {NOTHING}",
)
DAMAGED = StoreFault(
    "shop-damaged",
    "what is in it does not hang together",
    "a sound store",
    "Work no further in it and copy it away as it is; the last backup may be put back. Look what is amiss",
    Deed.CHECK_SHOP,
)
NO_STORE = StoreFault(
    "shop-foreign", "this is no store", "a shop's records", "Name another file: this one is left as it is."
)
UNOPENABLE = StoreFault(
    "shop-unopenable",
    "it cannot be opened",
    "a file that you may read and write, in a folder that you may write to",
    "Look at who owns the file and its folder, or name another file.",
)
UNREACHABLE = StoreFault(
    "shop-unreachable",
    "it does not answer",
    "a database that answers",
    f"Look at the network, at the computer that holds the records and at the URL's host and name. {NOTHING}",
)
LOGIN = StoreFault(
    "shop-login",
    "it does not take this name and password",
    "those that it knows",
    f"Look at the name and the password in the URL. {NOTHING}",
)
NO_RIGHT = StoreFault(
    "shop-no-right",
    "this name may not do that there",
    "the right to read and write",
    f"Whoever looks after the database can give it the right. {NOTHING}",
)
LOST = StoreFault(
    "shop-lost",
    "the connection broke before the answer came",
    "an answer",
    "Do it once more: if it was kept all the same, it counts once.",
)
OF_SQLITE: Mapping[int, StoreFault] = {
    sqlite3.SQLITE_FULL: FULL,
    sqlite3.SQLITE_IOERR: FAILING,
    sqlite3.SQLITE_READONLY: READ_ONLY,
    sqlite3.SQLITE_BUSY: BUSY,
    sqlite3.SQLITE_LOCKED: BUSY,
    sqlite3.SQLITE_PROTOCOL: BUSY,
    sqlite3.SQLITE_CORRUPT: DAMAGED,
    sqlite3.SQLITE_NOTADB: NO_STORE,
    sqlite3.SQLITE_CANTOPEN: UNOPENABLE,
    sqlite3.SQLITE_PERM: UNOPENABLE,
}
"""By the database's own codes, the low eight bits of what it tells."""
OF_POSTGRES: Mapping[str, StoreFault] = {
    "53100": FULL,
    "58030": FAILING,
    "25006": READ_ONLY,
    "53300": BUSY,
    "55P03": BUSY,
    "57014": BUSY,
    "40001": BUSY,
    "40P01": BUSY,
    "XX001": DAMAGED,
    "XX002": DAMAGED,
    "28000": LOGIN,
    "28P01": LOGIN,
    "42501": NO_RIGHT,
    "57P01": LOST,
    "57P02": LOST,
    "57P03": UNREACHABLE,
}
"""By SQLSTATE: PostgreSQL's documentation, appendix A."""
STORE_CODES = frozenset(
    each.code for each in (*OF_SQLITE.values(), *OF_POSTGRES.values(), READ_ONLY, LOGIN, LOST, UNREACHABLE)
)
"""By these a refusal is known in which nothing that was asked is at fault."""


@contextmanager
def faults_told(engine: Engine) -> Iterator[None]:
    """Run something on a database; what its driver raises becomes a refusal of ours.

    Parameters
    ----------
    engine : the database.
    """
    try:
        yield
    except (DBAPIError, NoConnectionFree, sqlite3.Error, psycopg.Error) as error:
        raise fault_of(error, engine) from error


def in_the_way(refused: InputRefused) -> bool:
    """Whether nothing but another transaction, ended by now, kept this one from being written.

    Parameters
    ----------
    refused : from `faults_told`.
    """
    cause = refused.__cause__.orig if isinstance(refused.__cause__, DBAPIError) else None
    return isinstance(cause, psycopg.errors.DeadlockDetected | psycopg.errors.SerializationFailure)


def fault_of(error: Exception, engine: Engine) -> MoldwrightError:
    """What an error of a database is to us.

    Parameters
    ----------
    error : SQLAlchemy's, or a driver's.
    engine : the database.
    """
    name, cause = name_of(engine), error.orig if isinstance(error, DBAPIError) else error
    if isinstance(error, IntegrityError):
        remedy = f"Somebody wrote it a moment before: look again. {NOTHING}"
        return RecordConflict("record-taken", f"{name}: what may stand once stands there already", None, "", remedy)
    if isinstance(error, NoConnectionFree):
        return BUSY.refusal(name)
    if isinstance(cause, sqlite3.Error):
        return _of_sqlite(cause, name, engine)
    if isinstance(cause, psycopg.Error):
        broken = isinstance(error, DBAPIError) and error.connection_invalidated
        return _of_postgres(cause, name, broken)
    return _unknown(name, cause)


def name_of(engine: Engine) -> str:
    """What a store is called where it is told of: its file, or host and database, never a password.

    Parameters
    ----------
    engine : its database.
    """
    url = engine.url
    if engine.dialect.name == SQLITE:
        return str(url.database)
    host = url.host or url.query.get("host") or "this computer"
    return f"{url.database} on {host}"


def _of_sqlite(cause: sqlite3.Error, name: str, engine: Engine) -> MoldwrightError:
    code = getattr(cause, "sqlite_errorcode", None)
    if code is None:  # text that is no UTF-8: the driver itself tells it, without a code
        return DAMAGED.refusal(name) if isinstance(cause, sqlite3.OperationalError) else _unknown(name, cause)
    found = OF_SQLITE.get(code & 0xFF)
    if found is UNOPENABLE and not _writable(Path(str(engine.url.database)).parent):
        found = READ_ONLY
    return found.refusal(name) if found else _unknown(name, cause)


def _writable(folder: Path) -> bool:
    return os.access(folder, os.W_OK, effective_ids=os.access in os.supports_effective_ids)


def _of_postgres(cause: psycopg.Error, name: str, broken: bool) -> MoldwrightError:
    """A connection that was never had has no SQLSTATE, but tells whether a password was asked for."""
    found = OF_POSTGRES.get(cause.sqlstate or "")
    if found is None and cause.pgconn is not None and (cause.pgconn.used_password or cause.pgconn.needs_password):
        found = LOGIN
    if found is None and isinstance(cause, psycopg.OperationalError):
        found = LOST if broken else UNREACHABLE
    if found is None:
        return _unknown(name, cause)
    said = str(cause).strip().splitlines()[:1]
    return found.refusal(name, f" ({short(said[0].rsplit(': ', 1)[-1])})" if said and found is UNREACHABLE else "")


def _unknown(name: str, cause: BaseException | None) -> ComputationFailed:
    kind = type(cause).__name__
    code = getattr(cause, "sqlite_errorname", None) or getattr(cause, "sqlstate", None) or ""
    return ComputationFailed("shop-fault", f"{name}: {kind} {code}".strip(), None, "", f"Please report it. {NOTHING}")
