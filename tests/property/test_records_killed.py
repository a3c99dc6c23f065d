"""Killed at random moments while logging: what was acknowledged is there, nothing is half, the store checks clean."""

from __future__ import annotations

import os
import random
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import closing
from pathlib import Path

import pytest
from postgres_server import Server
from shops import EMPTY

from moldwright.log.any_events import Noted
from moldwright.log.ids import RunId, SubjectId
from moldwright.records.check.whole import checked
from moldwright.records.clock import BenchClock
from moldwright.records.shop import open_shop

TESTS = Path(__file__).parents[1]
CLIENT = TESTS / "killed_clients.py"
PER_STORE = 50
"""Kills of one store, which is opened again each time."""
LOGGING = """
import sys
from killed_clients import log
from moldwright.log.ids import RunId, SubjectId
log(sys.argv[1], RunId(SubjectId(sys.argv[2])), 3, 1)
"""


def program(*words: str) -> list[str]:
    return [sys.executable, *words]


def environment() -> dict[str, str]:
    return {**os.environ, "PYTHONPATH": os.pathsep.join([str(TESTS), *sys.path])}


def killed(place: str, files: Path, kills: int, seed: int) -> tuple[int, int, int]:
    command = program(str(CLIENT), place, str(kills), str(seed))
    done = subprocess.run(command, capture_output=True, text=True, check=False, env=environment())
    assert done.returncode == 0, done.stderr[-2000:]
    told = checked(place, files)
    assert (told.sound, told.findings) == (True, ())
    early, late, acknowledged = map(int, done.stdout.split())
    return early, late, acknowledged


def test_clients_killed_at_some_moments(shop_at: str, tmp_path: Path) -> None:
    early, late, acknowledged = killed(shop_at, tmp_path / "files", 20, 1)
    assert early + late == 20
    assert acknowledged > 0


@pytest.mark.slow
def test_clients_killed_at_a_thousand_moments(
    shop_at: str, tmp_path: Path, request: pytest.FixtureRequest, capsys: pytest.CaptureFixture[str]
) -> None:
    """A thousand for each engine, some of them while the store itself is being made."""
    sums = [0, 0, 0]
    for number in range(1000 // PER_STORE):
        place = str(tmp_path / f"shop-{number}.db")
        if "://" in shop_at:
            server: Server = request.getfixturevalue("postgres")
            place = server.url(server.database())
        sums = [old + new for old, new in zip(sums, killed(place, tmp_path / "files", PER_STORE, number), strict=True)]
    with capsys.disabled():
        print(f"\n{sums[0]} killed before, {sums[1]} after their first acknowledged batch; {sums[2]} events, none lost")
    assert sums[0] + sums[1] == 1000
    assert min(sums[:2]) > 100, "kills come before and after the first acknowledged event"


@pytest.fixture
def durable() -> Iterator[Server]:
    """A server that waits for the disk, for this test alone."""
    with closing(Server(durable=True)) as server:
        server.say(f"CREATE DATABASE {EMPTY}")
        yield server


def crash(server: Server, runs: list[str], seed: int) -> list[int]:
    """How many events each of some clients had acknowledged when the server was killed."""
    place = server.url(EMPTY)
    clients = [
        subprocess.Popen(
            program("-c", LOGGING, place, run),
            stdout=subprocess.PIPE,
            stderr=subprocess.DEVNULL,
            env=environment(),
        )
        for run in runs
    ]
    first = [client.stdout.readline() for client in clients if client.stdout]
    time.sleep(random.Random(seed).uniform(0.0, 0.3))
    server.kill()
    told = [lines + client.communicate()[0] for lines, client in zip(first, clients, strict=True)]
    return [int(each.split()[-1]) for each in told]


def crashed(server: Server, files: Path, times: int) -> int:
    ids, acknowledged = BenchClock("ids"), 0
    for seed in range(times):
        runs = [ids.new_id() for _ in range(3)]
        told = crash(server, runs, seed)
        server.start()
        with closing(open_shop(server.url(EMPTY))) as shop:
            for run, least in zip(runs, told, strict=True):
                bodies = [event.body for event in shop.events_of(RunId(SubjectId(run)))]
                assert bodies == [Noted(str(number)) for number in range(len(bodies))]
                assert least <= len(bodies) <= least + 3
                assert len(bodies) % 3 == 0
        acknowledged += sum(told)
    told = checked(server.url(EMPTY), files)
    assert (told.sound, told.findings) == (True, ())
    return acknowledged


def test_a_server_that_is_killed_has_what_it_acknowledged(postgres: Server, durable: Server, tmp_path: Path) -> None:
    assert crashed(durable, tmp_path, 1) > 0


@pytest.mark.slow
def test_a_server_that_is_killed_many_times_has_what_it_acknowledged(
    postgres: Server, durable: Server, tmp_path: Path
) -> None:
    assert crashed(durable, tmp_path, 40) > 0
