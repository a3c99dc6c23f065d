"""A PostgreSQL server of our own for tests: Debian's programs, a folder in /tmp, a socket in it, gone with the process.

It listens on no network. A server that is started by root runs as another user, as PostgreSQL demands. Each test gets a
database of its own, copied from one that holds an empty store.
"""

from __future__ import annotations

import os
import pwd
import shutil
import signal
import subprocess
import sys
import tempfile
import time
from functools import cache
from itertools import count
from pathlib import Path

import psycopg

NEEDED = "MOLDWRIGHT_NEED_POSTGRES"
"""Set to 1 where a missing PostgreSQL is a failure, as in the continuous run."""
PLACES = "/usr/lib/postgresql"
USERS = ("postgres", "nobody")
START_S = 60.0
DATABASES = count(1)
AS_ANOTHER = """
import ctypes, os, signal, sys
user, group, *command = sys.argv[1:]
if os.getuid() == 0:
    os.setgroups([])
    os.setgid(int(group))
    os.setuid(int(user))
ctypes.CDLL(None).prctl(1, signal.SIGQUIT)
os.execv(command[0], command)
"""
"""Runs a command as a user; it ends when we do, however we end (prctl's PR_SET_PDEATHSIG)."""
SETTINGS = """
listen_addresses = ''
unix_socket_permissions = 0777
shared_buffers = 16MB
max_connections = 100
autovacuum = off
max_parallel_workers = 0
log_min_messages = fatal
"""
WHO_MAY = "local all guarded scram-sha-256\nlocal all all trust\n"
"""Anybody through the socket; `guarded` by a password."""


class MissingError(Exception):
    """There is no PostgreSQL on this machine."""


@cache
def programs() -> Path:
    """The folder of initdb and postgres: Debian's newest, or what PATH names."""
    found = [path for path in Path(PLACES).glob("*/bin") if (path / "initdb").exists()]
    if found:
        return max(found, key=lambda path: float(path.parent.name))
    named = shutil.which("initdb")
    if named is None:
        raise MissingError("no PostgreSQL here: Debian's package `postgresql` brings it")
    return Path(named).resolve().parent


class Server:
    """A running server.

    Parameters
    ----------
    durable : whether it waits for the disk; only a test that kills it needs that.
    """

    def __init__(self, durable: bool = False) -> None:
        self.folder = Path(tempfile.mkdtemp(prefix="mw-pg-", dir="/tmp"))
        self._who = _who()
        try:
            os.chown(self.folder, *self._who)
            self._make(durable)
            self.start()
        except BaseException:
            self.close()
            raise

    def _make(self, durable: bool) -> None:
        """The folder's password file is there before the server reads it."""
        self._run("initdb", "--no-sync", "--auth=trust", "--encoding=UTF8", "--no-locale", "--username=shop")
        sync = "" if durable else "fsync = off\nsynchronous_commit = off\nfull_page_writes = off\n"
        (self.folder / "data" / "postgresql.conf").write_text(
            f"{SETTINGS}{sync}unix_socket_directories = '{self.folder}'\n"
        )
        (self.folder / "data" / "pg_hba.conf").write_text(WHO_MAY)

    def _command(self, program: str, *options: str) -> list[str]:
        command = [str(programs() / program), "-D", str(self.folder / "data"), *options]
        return [sys.executable, "-I", "-c", AS_ANOTHER, *map(str, self._who), *command]

    def _run(self, program: str, *options: str) -> None:
        done = subprocess.run(
            self._command(program, *options), cwd=self.folder, capture_output=True, text=True, check=False
        )
        if done.returncode:
            raise RuntimeError(f"{program}: {done.stderr[-1000:]}")

    def start(self) -> None:
        """Start it, or start it again after it was killed; returns when it answers."""
        with (self.folder / "log").open("ab") as log:
            self._process = subprocess.Popen(self._command("postgres"), cwd=self.folder, stdout=log, stderr=log)
        end = time.monotonic() + START_S
        while True:
            try:
                psycopg.connect(self.url("postgres")).close()
                return
            except psycopg.OperationalError as error:
                if time.monotonic() > end or self._process.poll() is not None:
                    raise RuntimeError((self.folder / "log").read_text()[-2000:]) from error
                time.sleep(0.02)

    def url(self, database: str, user: str = "shop") -> str:
        """The URL of a database, as a shop writes it."""
        return f"postgresql://{user}@/{database}?host={self.folder}"

    def say(self, *orders: str) -> None:
        """Say orders to the server, as its master."""
        with psycopg.connect(self.url("postgres"), autocommit=True) as connection:
            for order in orders:
                connection.execute(order)  # type: ignore[arg-type]

    def database(self, template: str = "template1") -> str:
        """The name of a new database, copied from a template."""
        name = f"shop_{next(DATABASES)}"
        self.say(f"CREATE DATABASE {name} TEMPLATE {template}")
        return name

    def drop(self, name: str) -> None:
        """Drop a database, whoever is in it."""
        self.say(f"DROP DATABASE IF EXISTS {name} WITH (FORCE)")

    def kill(self) -> None:
        """Kill the server as a power cut would: its first process and all of its children, at once."""
        children = Path(f"/proc/{self._process.pid}/task/{self._process.pid}/children").read_text().split()
        for number in (self._process.pid, *map(int, children)):
            os.kill(number, signal.SIGKILL)
        self._process.wait()

    def close(self) -> None:
        """Stop it and take its folder away."""
        if hasattr(self, "_process"):
            self._process.send_signal(signal.SIGQUIT)
            self._process.wait()
        shutil.rmtree(self.folder, ignore_errors=True)


def _who() -> tuple[int, int]:
    """Who runs the server: we ourselves, but not root."""
    if os.getuid():
        return os.getuid(), os.getgid()
    known = {entry.pw_name: (entry.pw_uid, entry.pw_gid) for entry in pwd.getpwall()}
    return next(known[name] for name in USERS if name in known)
