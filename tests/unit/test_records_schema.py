"""The tables' versions: every step tried on both engines, on an empty database and on a store of that version."""

from __future__ import annotations

import json
import os
import sqlite3
import subprocess
import sys
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from contextlib import closing
from pathlib import Path
from threading import Barrier

import pytest
from alembic import command
from alembic.autogenerate import compare_metadata
from alembic.migration import MigrationContext
from alembic.script import ScriptDirectory
from postgres_server import Server
from shops import ENGINES
from sqlalchemy import Connection, MetaData, Table, inspect, text

from moldwright.errors import InputRefused
from moldwright.log.any_events import Noted, Undone
from moldwright.log.edition_events import NumberGiven, Series
from moldwright.log.ids import EventId, LotId, NumberedId, SubjectId
from moldwright.log.run_events import CupRef, Weighed
from moldwright.plan.ids import MixId
from moldwright.plan.mixes import PartKind
from moldwright.records.shop import Shop, open_shop
from moldwright.records.store import migrate, schema
from moldwright.records.store.engine import engine_for
from moldwright.records.store.tables import METADATA

OLD = Path(__file__).parent / "stores"
RUN, LOT, EDITION, PIECE = (SubjectId(f"0190a5f0-0000-7000-8000-0000000000{end}") for end in ("aa", "bb", "cc", "dd"))
STEP = """
import os, signal
import sqlalchemy as sa
from alembic import op
revision, down_revision = "9999", "{before}"
def upgrade():
    op.add_column("plan", sa.Column("shelf", sa.Text))
    op.create_table("drawer", sa.Column("id", sa.Integer, primary_key=True))
    {then}
"""
KILLED = "os.kill(os.getpid(), signal.SIGKILL)"
CHILD = """
import sys
from pathlib import Path
from moldwright.records.shop import open_shop
from moldwright.records.store import migrate, schema
migrate.VERSIONS += (Path(sys.argv[2]),)
schema.KNOWN += ("9999",)
open_shop(sys.argv[1])
"""


@pytest.fixture(params=ENGINES)
def bare(request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[str]:
    """A place with nothing in it."""
    if request.param == "sqlite":
        yield str(tmp_path / "shop.db")
        return
    server: Server = request.getfixturevalue("postgres")
    name = server.database()
    yield server.url(name)
    server.drop(name)


def step_in(folder: Path, then: str = "pass") -> Path:
    """A folder with one more step, such as a later version would bring."""
    folder.mkdir()
    (folder / "v9999_later.py").write_text(STEP.format(before=schema.newest(), then=then))
    return folder


def old_store(place: str, version: str) -> None:
    """A store as that version left it: its own steps, then its rows."""
    engine = engine_for(place)
    with engine.begin() as connection:
        command.upgrade(migrate._config(connection), version)
        for line in (OLD / f"{version}.jsonl").read_text().splitlines():
            row = json.loads(line)
            connection.execute(Table(row["table"], MetaData(), autoload_with=connection).insert(), row["row"])
    engine.dispose()


def indexes(connection: Connection) -> set[str]:
    """The indexes as the database itself writes them."""
    sqlite_order = "SELECT sql FROM sqlite_master WHERE type = 'index' AND sql IS NOT NULL"
    order = "SELECT indexdef FROM pg_indexes WHERE schemaname = 'public'"
    found = connection.execute(text(sqlite_order if connection.dialect.name == "sqlite" else order)).scalars()
    return {each for each in found if "moldwright_version" not in each}


def test_the_steps_give_the_tables_that_the_code_works_with(bare: str) -> None:
    with closing(open_shop(bare)) as shop, shop.reading() as connection:
        options = {"compare_type": True, "version_table": schema.VERSION.name}
        assert compare_metadata(MigrationContext.configure(connection, opts=options), METADATA) == []
        stepped = indexes(connection)
    with shop.writing() as connection:
        for name in inspect(connection).get_table_names():
            connection.execute(text(f'DROP TABLE "{name}"' + ("" if "://" not in bare else " CASCADE")))
        METADATA.create_all(connection)
        assert indexes(connection) == stepped
    shop.close()


def test_the_names_of_the_steps_are_those_that_the_files_tell() -> None:
    steps = ScriptDirectory(str(migrate.STEPS)).walk_revisions()
    assert [step.revision for step in steps] == [*reversed(schema.KNOWN)]


@pytest.mark.parametrize("version", schema.KNOWN)
def test_a_store_of_every_version_goes_forward_with_all_that_is_in_it(bare: str, version: str) -> None:
    old_store(bare, version)
    with closing(open_shop(bare)) as shop:
        first, weighed, noted, undone = shop.events_of(RUN)
        cup = CupRef(MixId("coat-1.cup-1"))
        assert weighed.body == Weighed(cup, PartKind.A, 82.8, 83.0, 83.0, lot=LotId(LOT))
        assert (noted.body, noted.at_ms, noted.bench) == (Noted("warm – 26 °C"), 1720000003000, "tablet 1")
        assert undone.body == Undone(EventId(noted.id), "wrong run")
        assert first.by == "Kim"
        assert [each.body for each in shop.events_of(EDITION)] == [NumberGiven(Series.NUMBERED, 17, NumberedId(PIECE))]
        with shop.reading() as connection:
            assert connection.execute(text("SELECT id FROM shop")).scalars().all()[0][-4:] == "0001"
            assert connection.execute(text("SELECT number, piece FROM number")).one() == (17, PIECE)


def test_a_later_step_is_gone_and_a_copy_of_the_older_file_is_kept(
    bare: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    old_store(bare, "0001")
    monkeypatch.setattr(migrate, "VERSIONS", (*migrate.VERSIONS, step_in(tmp_path / "steps")))
    monkeypatch.setattr(schema, "KNOWN", (*schema.KNOWN, "9999"))
    for _ in range(2):
        with closing(open_shop(bare)) as shop, shop.reading() as connection:
            assert schema.version_of(connection) == "9999"
            assert inspect(connection).has_table("drawer")
            assert len(shop.events_of(RUN)) == 4
    copies = sorted(tmp_path.glob("shop.db.before-*"))
    assert [each.name for each in copies] == (["shop.db.before-9999"] if "://" not in bare else [])
    monkeypatch.undo()
    for copy in copies:
        with closing(open_shop(str(copy))) as shop:
            assert len(shop.events_of(RUN)) == 4
    with pytest.raises(InputRefused, match="shop-newer"):
        open_shop(bare)


def test_killed_in_the_middle_of_a_step_the_store_is_as_it_was(bare: str, tmp_path: Path) -> None:
    old_store(bare, "0001")
    steps = step_in(tmp_path / "steps", KILLED)
    done = subprocess.run([sys.executable, "-c", CHILD, bare, str(steps)], check=False, env=os.environ)
    assert done.returncode == -9
    with closing(open_shop(bare)) as shop, shop.reading() as connection:
        assert schema.version_of(connection) == schema.newest()
        assert not inspect(connection).has_table("drawer")
        assert len(shop.events_of(RUN)) == 4


def test_a_newer_store_is_refused_and_left_as_it_is(tmp_path: Path) -> None:
    place = tmp_path / "shop.db"
    open_shop(str(place)).close()
    with closing(sqlite3.connect(place)) as raw:
        raw.execute("UPDATE moldwright_version SET version_num = '0200'")
        raw.commit()
    before = place.read_bytes()
    with pytest.raises(InputRefused, match="shop-newer: records of version 0200"):
        open_shop(str(place))
    assert place.read_bytes() == before


def test_another_programs_tables_are_refused_and_left_as_they_are(bare: str) -> None:
    engine = engine_for(bare)
    with engine.begin() as connection:
        connection.execute(text("CREATE TABLE event (id INTEGER)"))
    with pytest.raises(InputRefused, match="shop-foreign"):
        open_shop(bare)
    with engine.begin() as connection:
        assert inspect(connection).get_table_names() == ["event"]
    engine.dispose()


def test_twelve_who_open_one_new_store_at_once_find_one(bare: str) -> None:
    start = Barrier(12)

    def client(_: int) -> str:
        start.wait()
        with closing(open_shop(bare)) as shop:
            return name_of(shop)

    with ThreadPoolExecutor(12) as pool:
        assert len(set(pool.map(client, range(12)))) == 1


def name_of(shop: Shop) -> str:
    with shop.reading() as connection:
        (name,) = connection.execute(text("SELECT id FROM shop")).scalars()
        return str(name)
