"""`moldwright shop backup | export | restore`, as a maker types them."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from postgres_server import Server
from shops import EMPTY
from typer.testing import CliRunner

from moldwright.desk.main import app
from moldwright.log.any_events import Noted
from moldwright.log.event import About
from moldwright.log.ids import RunId, SubjectId
from moldwright.records.clock import BenchClock
from moldwright.records.files.keep import attach, keep_file
from moldwright.records.files.kept import place_of
from moldwright.records.shop import open_shop

RUN = RunId(SubjectId("017f22e2-79b0-7cc3-98c4-dc0c0c07398f"))


@pytest.fixture
def here(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A shop with a note and a text, and a stick."""
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("MOLDWRIGHT_SHOP", "shop.db")
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path / "home"))
    shop, clock = open_shop("shop.db"), BenchClock("tablet 1")
    shop.append([clock.event(About.RUN, RUN, Noted("first"))])
    attach(shop, clock, About.RUN, RUN, keep_file(shop, b"a text", "a.txt"))
    shop.close()
    (tmp_path / "stick").mkdir()
    return tmp_path


def typed(*words: str) -> tuple[int, str, str]:
    told = CliRunner().invoke(app, ["shop", *words])
    return told.exit_code, told.stdout, told.stderr


def test_a_backup_on_a_stick_comes_back_on_another_machine(here: Path) -> None:
    code, told, _ = typed("backup", "stick")
    (made,) = (here / "stick").iterdir()
    assert code == 0
    assert told == f"Written, and read again from the disk: {made}\n  2 events, 0 plans, 1 file.\n"
    code, told, _ = typed("restore", str(made), "--shop", "new.db")
    assert (code, told) == (0, f"Restored into {here / 'new.db'}\n  2 events, 0 plans, 1 file.\n")
    code, told, _ = typed("export", "again.zip", "--shop", "new.db", "--json")
    assert json.loads(told)["events"] == 2
    assert (here / "again.zip").read_bytes() == made.read_bytes()


def test_a_shop_moves_to_a_server_and_back(here: Path, postgres: Server, monkeypatch: pytest.MonkeyPatch) -> None:
    url = postgres.url(postgres.database(EMPTY))
    assert typed("export", "first.zip")[0] == 0
    monkeypatch.setenv("MOLDWRIGHT_FILES", str(here / "shared"))
    assert typed("restore", "first.zip", "--shop", url)[0] == 0
    assert typed("export", "second.zip", "--shop", url)[0] == 0
    assert (here / "first.zip").read_bytes() == (here / "second.zip").read_bytes()
    assert len([path for path in (here / "shared").rglob("*") if path.is_file()]) == 1


def test_without_a_folder_it_goes_to_the_home_and_says_that_this_is_the_same_disk(here: Path) -> None:
    code, told, _ = typed("backup")
    assert code == 0
    assert "copy it to a stick" in told
    assert len(list((here / "home" / "moldwright" / "backups").glob("shop-*.zip"))) == 1


def test_what_is_missing_is_told(here: Path) -> None:
    shop = open_shop("shop.db")
    place_of(shop.files, keep_file(shop, b"a text", "a.txt")).unlink()
    shop.close()
    assert "1 file missing or damaged in the shop, and not in it" in typed("backup", "stick")[1]


@pytest.mark.parametrize(
    ("words", "code"),
    [
        (("backup", "no-stick"), "folder-missing"),
        (("backup", "stick", "--shop", "typo.db"), "shop-missing"),
        (("export", "shop.db"), "file-there"),
        (("export", "nowhere/a.zip"), "archive-unwritable"),
        (("restore", "shop.db", "--shop", "new.db"), "archive-foreign"),
        (("restore", "nothing.zip", "--shop", "new.db"), "archive-missing"),
    ],
)
def test_what_cannot_be_is_refused_and_nothing_is_made(here: Path, words: tuple[str, ...], code: str) -> None:
    exit_code, _, told = typed(*words, "--json")
    assert exit_code == 3
    assert json.loads(told)["error"]["code"] == code
    assert not list((here / "stick").iterdir())
    assert not (here / "new.db").exists()
    assert not (here / "typo.db").exists()


def test_a_full_store_is_not_restored_into(here: Path) -> None:
    assert typed("export", "a.zip")[0] == 0
    code, _, told = typed("restore", "a.zip", "--json")
    assert (code, json.loads(told)["error"]["code"]) == (3, "shop-not-empty")


def test_a_store_that_was_made_for_nothing_is_gone_again(here: Path) -> None:
    """Its second event is one that nobody can read, which is seen only when the store is open."""
    shop = open_shop("shop.db")
    with shop.writing() as connection:
        connection.exec_driver_sql("UPDATE event SET body = '{}' WHERE kind = 'noted'")
    shop.close()
    assert typed("export", "a.zip")[0] == 0
    code, _, told = typed("restore", "a.zip", "--shop", "new.db", "--json")
    assert (code, json.loads(told)["error"]["code"]) == (3, "archive-event-unreadable")
    assert [path.name for path in here.iterdir() if path.name.startswith("new")] == []
    assert typed("restore", "a.zip", "--shop", "new.db", "--unreadable")[0] == 0
