"""Killed in the middle: a store is restored whole or is empty, and no half archive has the name of one."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
from contextlib import closing
from pathlib import Path

import pytest
from sqlalchemy import func, select

from moldwright.archive.read import opened_archive
from moldwright.archive.restore import restore
from moldwright.archive.save import export
from moldwright.log.any_events import Noted
from moldwright.log.event import About
from moldwright.log.ids import RunId, SubjectId
from moldwright.records.clock import BenchClock
from moldwright.records.files.keep import attach, keep_file
from moldwright.records.shop import Shop, open_shop
from moldwright.records.store.tables import EVENT

RUN = RunId(SubjectId("017f22e2-79b0-7cc3-98c4-dc0c0c07398f"))
NOTES = 2500
DIES = """
import os, signal, sys
from pathlib import Path
from moldwright.archive.read import opened_archive
from moldwright.archive.restore import restore
from moldwright.archive.save import export
from moldwright.records.shop import open_shop

what, archive, place, files, stage = sys.argv[1:]

def dies(told, done):
    if told == stage and done > 0.3 or stage == "copying" and told.startswith(stage):
        os.kill(os.getpid(), signal.SIGKILL)

shop = open_shop(place, Path(files))
if what == "export":
    export(shop, Path(archive), dies)
else:
    with opened_archive(Path(archive)) as found:
        restore(shop, found, False, dies)
"""


def killed(*told: str) -> int:
    environment = {**os.environ, "PYTHONPATH": str(Path(__file__).parents[2] / "src")}
    return subprocess.run([sys.executable, "-c", DIES, *told], check=False, env=environment).returncode


def counted(shop: Shop) -> int:
    with shop.reading() as connection:
        return connection.execute(select(func.count()).select_from(EVENT)).scalar_one()


@pytest.fixture
def archive(tmp_path: Path) -> Path:
    """Of a shop with many notes and a file."""
    clock = BenchClock("one")
    with closing(open_shop(str(tmp_path / "first.db"))) as first:
        first.append(clock.event(About.RUN, RUN, Noted(f"note {n}")) for n in range(NOTES - 1))
        attach(first, clock, About.RUN, RUN, keep_file(first, b"a text", "a.txt"))
        export(first, tmp_path / "a.zip")
    return tmp_path / "a.zip"


@pytest.mark.parametrize("stage", ["reading the archive", "copying"])
def test_a_killed_restore_leaves_an_empty_store_that_takes_it_again(
    shop_at: str, archive: Path, tmp_path: Path, stage: str
) -> None:
    files = tmp_path / "shop.files"
    assert killed("restore", str(archive), shop_at, str(files), stage) == -signal.SIGKILL
    with closing(open_shop(shop_at, files)) as shop:
        assert counted(shop) == 0
        with opened_archive(archive) as found:
            restore(shop, found)
        assert counted(shop) == NOTES
        export(shop, tmp_path / "b.zip")
    assert (tmp_path / "b.zip").read_bytes() == archive.read_bytes()


@pytest.mark.parametrize("stage", ["writing what happened", "reading the archive"])
def test_a_killed_export_leaves_none_by_its_name(archive: Path, tmp_path: Path, stage: str) -> None:
    """Not even where it was written already and died while it was read again."""
    out = tmp_path / "new.zip"
    assert killed("export", str(out), str(tmp_path / "first.db"), str(tmp_path / "first.files"), stage) == -9
    assert not out.exists()
    with closing(open_shop(str(tmp_path / "first.db"))) as first:
        export(first, out)
    assert out.read_bytes() == archive.read_bytes()
    assert [path.name for path in tmp_path.iterdir() if path.name.endswith(".part")] == []
