"""`moldwright piece`, as a maker types it."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from job_plan_sample import sample_plan
from original_files import box, stl
from typer.testing import CliRunner, Result

from moldwright.desk.main import app
from moldwright.plan.json_text import plan_to_json


@pytest.fixture
def here(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A commission and its scan."""
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("MOLDWRIGHT_SHOP", "shop.db")
    monkeypatch.setenv("MOLDWRIGHT_BENCH", "desk")
    (tmp_path / "stag.stl").write_bytes(stl(*box()))
    (tmp_path / "order.toml").write_text('[original]\nfile = "stag.stl"\nunit = "mm"\n[edition]\ncount = 3\n')
    return tmp_path


def typed(*words: str) -> Result:
    return CliRunner().invoke(app, ["piece", *words])


def told(*words: str) -> dict[str, object]:
    found = typed(*words, "--json")
    assert found.exit_code == 0, found.output
    tree: dict[str, object] = json.loads(found.stdout)
    return tree


def test_a_piece_from_the_counter_to_the_shelf_and_back(here: Path) -> None:
    assert typed("list").stdout.startswith("No piece is in the shop.")
    taken = told("add", "order.toml", "--for", "A. Customer", "--due", "2026-12-24", "--by", "Kim")
    code = str(taken["code"])
    assert (taken["name"], taken["count"], taken["stage"], taken["due"]) == ("stag", 3, "taken_in", "2026-12-24")
    assert typed("list").stdout == f"{code}  stag  taken in · 3 casts · for A. Customer · due 2026-12-24\n"
    (here / "plan").mkdir()
    (here / "plan" / "plan.json").write_text(plan_to_json(sample_plan()))
    assert told("planned", code, "plan")["stage"] == "planned"
    (here / "order.toml").write_text('[original]\nfile = "stag.stl"\nunit = "mm"\n[edition]\ncount = 1\n')
    assert told("change", code, "order.toml", "--why", "one is enough")["changed_since_plan"] is True
    shown = typed("show", "stag").stdout
    for words in ("planned · 1 cast", "plan it again", "file: stag.stl", "one is enough", "(Kim)"):
        assert words in shown
    assert told("away", code, "--why", "collected")["put_away"] == "collected"
    assert told("list")["pieces"] == []
    assert [each["code"] for each in told("list", "--all")["pieces"]] == [code]  # type: ignore[attr-defined]
    assert told("back", code)["stage"] == "planned"
    assert typed("note", code, "an ear is cracked").exit_code == 0
    log = told("show", code)["log"]
    assert [entry["kind"] for entry in log] == [  # type: ignore[attr-defined]
        "piece-taken-in", "piece-planned", "commission-changed", "piece-put-away", "piece-taken-back", "noted",
    ]  # fmt: skip
    assert typed("strike", log[2]["code"]).exit_code == 0  # type: ignore[index]
    assert told("show", code)["count"] == 3


def test_a_piece_is_laid_out_again(here: Path) -> None:
    told("add", "order.toml")
    out = told("export", "stag", "out")
    assert out["files"] == ["stag.stl"]
    assert (here / "out" / "stag.stl").read_bytes() == (here / "stag.stl").read_bytes()
    assert (here / "out" / "commission.toml").read_bytes() == (here / "order.toml").read_bytes()
    assert "moldwright plan again/commission.toml" in typed("export", "stag", "again").stdout


def test_the_list_goes_into_a_table(here: Path) -> None:
    code = told("add", "order.toml", "--for", "=cmd()")["code"]
    assert typed("list", "--csv", "list.csv").exit_code == 0
    row = (here / "list.csv").read_text().splitlines()[1]
    assert row.startswith(f"{code},stag,taken in,3,'=cmd(),,")


@pytest.mark.parametrize(
    ("words", "code", "exit_code"),
    [
        (["add", "nowhere.toml"], "file-missing", 3),
        (["add", "torn.toml"], "commission-not-toml", 3),
        (["add", "lost.toml"], "file-missing", 3),
        (["add", "picture.toml"], "mislabelled", 3),
        (["add", "order.toml", "--due", "yule"], "day-unclear", 3),
        (["show", "otter"], "not-kept", 3),
        (["export", "otter", "out"], "not-kept", 3),
    ],
)
def test_what_cannot_be_is_refused_and_no_piece_is_written(
    here: Path, words: list[str], code: str, exit_code: int
) -> None:
    (here / "torn.toml").write_text("[original")
    (here / "lost.toml").write_text('[original]\nfile = "lost.stl"\nunit = "mm"\n')
    (here / "picture.toml").write_text('[original]\nfile = "picture.stl"\nunit = "mm"\n')
    (here / "picture.stl").write_bytes(b"\xff\xd8\xff\xe0" + bytes(100))
    found = typed(*words, "--json")
    assert found.exit_code == exit_code
    assert json.loads(found.stderr)["error"]["code"] == code
    assert told("list", "--all")["pieces"] == []


def test_a_lost_file_is_a_contradiction_and_told_by_its_name(here: Path) -> None:
    told("add", "order.toml")
    (kept,) = (path for path in (here / "shop.files").rglob("*") if path.is_file())
    kept.unlink()
    found = typed("export", "stag", "out", "--json")
    assert found.exit_code == 6
    error = json.loads(found.stderr)["error"]
    assert error["code"] == "file-missing"
    assert "stag.stl" in error["actual"]
    assert typed("list").exit_code == 0
