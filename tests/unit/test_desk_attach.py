"""`moldwright shop attach`, as a maker types it."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from photo_files import encoded, picture
from typer.testing import CliRunner

from moldwright.desk.main import app
from moldwright.log.any_events import Attached
from moldwright.log.codes import short_code
from moldwright.log.event import About
from moldwright.log.ids import RunId, SubjectId
from moldwright.log.run_events import ShopAir
from moldwright.records.clock import BenchClock
from moldwright.records.shop import open_shop

RUN = RunId(SubjectId("017f22e2-79b0-7cc3-98c4-dc0c0c07398f"))


@pytest.fixture
def here(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A shop with one run, a photo and a web page beside it."""
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("MOLDWRIGHT_SHOP", "shop.db")
    monkeypatch.setenv("MOLDWRIGHT_BENCH", "tablet 1")
    opened = open_shop("shop.db")
    opened.append([BenchClock("tablet 1").event(About.RUN, RUN, ShopAir(21.0))])
    opened.close()
    (tmp_path / "coat.jpg").write_bytes(encoded(picture()))
    (tmp_path / "page.jpg").write_text("<html>")
    return tmp_path


def test_a_photo_is_kept_with_its_run(here: Path) -> None:
    typed = ["shop", "attach", "coat.jpg", "--to", "run", short_code(RUN), "--text", "first coat", "--by", "Kim"]
    told = CliRunner().invoke(app, typed)
    assert (told.exit_code, told.stdout) == (0, "coat.jpg is kept with run 0C07-398F.\n")
    opened = open_shop("shop.db")
    (event,) = (each for each in opened.events_of(RUN) if isinstance(each.body, Attached))
    opened.close()
    assert (event.body.text, event.bench, event.by) == ("first coat", "tablet 1", "Kim")
    assert (here / "shop.files" / event.body.file[:2] / event.body.file).is_file()
    again = CliRunner().invoke(app, [*typed[:6], "--json"])
    assert json.loads(again.stdout)["file"] == event.body.file


@pytest.mark.parametrize(
    ("typed", "code", "exit_code"),
    [
        (["page.jpg", "--to", "run", RUN], "file-not-kept", 3),
        (["nowhere.jpg", "--to", "run", RUN], "file-missing", 3),
        (["coat.jpg", "--to", "mold", RUN], "not-kept", 3),
        (["coat.jpg", "--to", "run", RUN, "--text", "two\nlines"], "text-unusable", 3),
    ],
)
def test_what_cannot_be_kept_is_told_and_nothing_is_written(
    here: Path, typed: list[str], code: str, exit_code: int
) -> None:
    told = CliRunner().invoke(app, ["shop", "attach", *typed, "--json"])
    assert told.exit_code == exit_code
    assert json.loads(told.stderr)["error"]["code"] == code
    assert not (here / "shop.files").exists()


def test_a_folder_of_files_may_be_told(here: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("MOLDWRIGHT_FILES", str(here / "shared"))
    assert CliRunner().invoke(app, ["shop", "attach", "coat.jpg", "--to", "run", RUN]).exit_code == 0
    assert any((here / "shared").rglob("*"))
    assert not (here / "shop.files").exists()
