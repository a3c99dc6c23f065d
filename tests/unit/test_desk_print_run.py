"""A run's sheets in a folder of their own: whole or not at all, and nothing else is replaced by them."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from tests.run_on_paper import RUN, Log, run_plan, texts

from moldwright.desk.print_run import print_run
from moldwright.errors import InputRefused
from moldwright.log.run_events import Done
from moldwright.plan.ids import StepId
from moldwright.sheets.run.shown import run_shown


def put(log: Log, out: Path, cast: int | None = None) -> tuple[Path, ...]:
    its = run_plan()
    state = log.state(60, its)
    return print_run(run_shown(its, RUN, state, log.events, state.now_ms), out, cast)


def test_both_papers_are_written_and_replaced(tmp_path: Path) -> None:
    out, log = tmp_path / "again", Log()
    files = put(log, out)
    assert [file.name for file in files] == ["run-a4.pdf", "run-letter.pdf"]
    before = [file.read_bytes() for file in files]
    assert all(content.startswith(b"%PDF") for content in before)
    log.write(30, Done(StepId("receive")))
    put(log, out)
    assert all("Done 2026-03-09" in " ".join(texts(file.read_bytes())) for file in files)
    assert sorted(path.name for path in tmp_path.iterdir()) == ["again"]
    assert sorted(path.name for path in out.iterdir()) == ["run-a4.pdf", "run-letter.pdf"]


def _notes(folder: Path) -> None:
    folder.joinpath("notes.txt").write_text("mine", encoding="utf-8")


def _plan(folder: Path) -> None:
    folder.joinpath("plan.json").write_text('{"schema_version": 6}', encoding="utf-8")


def _both(folder: Path) -> None:
    folder.joinpath("run-a4.pdf").write_text("old", encoding="utf-8")
    _notes(folder)


@pytest.mark.parametrize("fill", [_notes, _plan, _both])
def test_a_folder_that_holds_anything_else_is_left_alone(tmp_path: Path, fill: Callable[[Path], None]) -> None:
    fill(tmp_path)
    before = {path.name: path.read_bytes() for path in tmp_path.iterdir()}
    with pytest.raises(InputRefused) as refused:
        put(Log(), tmp_path)
    assert refused.value.code == "out-not-empty"
    assert "sheets of a run and nothing else" in refused.value.remedy
    assert {path.name: path.read_bytes() for path in tmp_path.iterdir()} == before


def test_a_file_is_no_folder(tmp_path: Path) -> None:
    file = tmp_path / "sheet.pdf"
    file.write_text("mine", encoding="utf-8")
    with pytest.raises(InputRefused, match="out-no-folder"):
        put(Log(), file)
    assert file.read_text(encoding="utf-8") == "mine"


@pytest.mark.parametrize("cast", [0, 31, -1])
def test_a_cast_that_the_run_has_not_is_refused(tmp_path: Path, cast: int) -> None:
    with pytest.raises(InputRefused) as refused:
        put(Log(casts=30), tmp_path / "again", cast)
    assert (refused.value.code, refused.value.actual, refused.value.limit) == ("cast-not-in-run", cast, 30)
    assert not tmp_path.joinpath("again").exists()


def test_the_last_cast_of_the_run_is_printed(tmp_path: Path) -> None:
    files = put(Log(casts=30), tmp_path / "again", 30)
    assert all("Cast 30, printed again" in texts(file.read_bytes())[0] for file in files)
