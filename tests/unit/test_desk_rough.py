"""`moldwright plan` and `look` where water or weight alone tell the original: a folder of its own, and its sheet."""

from __future__ import annotations

import io
import json
from pathlib import Path
from typing import Any

import jsonschema
import pytest
from pypdf import PdfReader

from moldwright.commission.reading import commission_from_toml
from moldwright.desk import main
from moldwright.errors import InputRefused
from moldwright.job.rough import make_rough
from moldwright.making.folder import holds_plan
from moldwright.materials import library
from moldwright.plan.json_schema import quantities_schema
from moldwright.plan.rough import Lack
from moldwright.sheets.rough_data import rough_data, rough_sheet
from moldwright.sheets.rough_words import rough_table

WATER = '[original]\nname = "Owl"\ndisplaced = "1.90 l"\n'
AS_ITS_FORM = "seam of", "drawn off", "half 1", "half 2", "shell-1", "station"


@pytest.fixture
def here(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> Path:
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))
    Path("c.toml").write_text(WATER, encoding="utf-8")
    return tmp_path


def run(as_json: bool = False) -> None:
    main.plan(commission=Path("c.toml"), out=Path("out"), as_json=as_json, quiet=True)


def texts(tree: Any) -> list[str]:
    if isinstance(tree, str):
        return [tree]
    inner = tree.values() if isinstance(tree, dict) else tree if isinstance(tree, list) else []
    return [text for each in inner for text in texts(each)]


def test_the_folder_holds_quantities_and_nothing_of_a_plan(here: Path, capsys: pytest.CaptureFixture[str]) -> None:
    run()
    assert {path.name for path in (here / "out").rglob("*")} == {"quantities.json", "quantities.pdf"}
    tree = json.loads((here / "out/quantities.json").read_text(encoding="utf-8"))
    jsonschema.validate(tree, quantities_schema(), cls=jsonschema.Draft202012Validator)
    said = capsys.readouterr().out
    assert said.splitlines()[1] == rough_table()["banner"]
    assert all(rough_table()["lacks"][lack] in said for lack in Lack)
    assert "levels = [" in said
    assert 'photos = "folder"' in said


def test_json_is_one_object_of_its_own_kind(here: Path, capsys: pytest.CaptureFixture[str]) -> None:
    run(as_json=True)
    told = json.loads(capsys.readouterr().out)
    assert set(told) == {"folder", "quantities"}
    assert told["quantities"] == json.loads((here / "out/quantities.json").read_text(encoding="utf-8"))


def test_it_is_replaced_by_what_is_planned_next(here: Path) -> None:
    run()
    assert holds_plan(here / "out")
    Path("c.toml").write_text(WATER.replace("1.90", "1.80"), encoding="utf-8")
    before = (here / "out/quantities.json").read_bytes()
    run()
    assert (here / "out/quantities.json").read_bytes() != before


def test_a_contradiction_is_exit_3_and_writes_nothing(here: Path, capsys: pytest.CaptureFixture[str]) -> None:
    Path("c.toml").write_text(f'{WATER}weight = "1.20 kg"\ndensity = "1.650 g/ml"\n', encoding="utf-8")
    with pytest.raises(SystemExit) as ended:
        run(as_json=True)
    assert ended.value.code == InputRefused.exit_code
    assert json.loads(capsys.readouterr().err)["error"]["code"] == "sources-disagree"
    assert not (here / "out").exists()


def look(as_json: bool = False, picture: Path | None = None) -> None:
    main.look(file=Path("c.toml"), as_json=as_json, picture=picture)


def test_a_look_tells_the_volume_and_what_it_lacks(here: Path, capsys: pytest.CaptureFixture[str]) -> None:
    look()
    said = capsys.readouterr().out
    assert "1.90 l (1.86–1.94)" in said
    assert said.startswith(rough_table()["banner"])
    look(as_json=True)
    told = json.loads(capsys.readouterr().out)
    assert told["lacks"] == [lack.value for lack in Lack]
    assert told["original"]["source"] == "water"


def test_a_look_draws_nothing_of_a_volume(here: Path, capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit) as ended:
        look(picture=here / "a.png")
    assert ended.value.code == InputRefused.exit_code
    assert "option-unfit" in capsys.readouterr().err
    assert not (here / "a.png").exists()


@pytest.mark.parametrize(("paper", "tall_pt"), [("a4", 841.9), ("letter", 792.0)])
def test_the_sheet_says_first_what_it_is_not(paper: str, tall_pt: float) -> None:
    """Heights of A4 and Letter: ISO 216, ANSI Y14.1 (from memory)."""
    plan = make_rough(commission_from_toml(WATER), library())
    reader = PdfReader(io.BytesIO(rough_sheet(plan, paper)))
    assert float(reader.pages[0].mediabox.height) == pytest.approx(tall_pt, abs=0.5)
    first = " ".join(reader.pages[0].extract_text().split())
    assert "no plan of a mold" in first
    assert all("no form is known" in page.extract_text() for page in reader.pages)


@pytest.mark.parametrize("rest", ["", '[shop]\nunits = "us"\n', '[shop]\nmeasure = "volume"\n', "[mold]\nseam='lap'\n"])
def test_nothing_on_the_sheet_tells_a_form(rest: str) -> None:
    plan = make_rough(commission_from_toml(WATER + rest), library())
    data = rough_data(plan, "a4")
    told = [text.lower() for text in texts({key: value for key, value in data.items() if key != "lacks"})]
    assert not [(word, text) for word in AS_ITS_FORM for text in told if word in text]
    assert len(data["lacks"]) == len(Lack)
    assert all(row["high"] for group in data["list"]["groups"] for row in group["rows"])


def test_us_units_are_told_in_pounds_and_ounces() -> None:
    plan = make_rough(commission_from_toml(WATER + '[shop]\nunits = "us"\n'), library())
    told = " ".join(texts(rough_data(plan, "us-letter")["figures"]))
    assert "in²" in told
    assert "qt" in told or "fl oz" in told
    assert " g " not in told
    assert "cm²" not in told
