"""A piece's page: its plan in figures, its files by known names alone, its runs."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from at_desk import app_of, at_desk, settings_in
from fastapi.testclient import TestClient
from sheets_fixture import plan as sample

from moldwright.commission.keys import keys
from moldwright.log.ids import PieceId
from moldwright.making.plan_folders import plan_home
from moldwright.records.clock import BenchClock
from moldwright.records.editions.read import editions
from moldwright.records.pieces.write import planned, take_in
from moldwright.records.runs.listing import runs
from moldwright.records.shop import Shop
from moldwright.sheets.figures import figures as told_figures
from moldwright.sheets.plan_text import plan_text
from moldwright.web.inside import Insides

ASKED = '[original]\ndisplaced = "1.90 l"\nname = "Otter"\n[edition]\ncount = 12\n'
CLOCK = BenchClock("test")


@pytest.fixture
def client(tmp_path: Path) -> Iterator[TestClient]:
    with at_desk(settings_in(tmp_path)) as found:
        yield found


def shop_of(client: TestClient) -> Shop:
    insides: Insides = app_of(client).state.insides
    return insides.own.shop


@pytest.fixture
def piece(client: TestClient) -> PieceId:
    return take_in(shop_of(client), CLOCK, ASKED, {}, whom="A chapel")


@pytest.fixture
def folder(client: TestClient, piece: PieceId, tmp_path: Path) -> Path:
    """Its plan's, with a sheet, a solid and what may not be given."""
    text = plan_text(sample())
    planned(shop_of(client), CLOCK, piece, text, "0.1.0")
    (known,) = {each.body.plan for each in shop_of(client).events_of(piece) if hasattr(each.body, "plan")}
    home = plan_home(tmp_path / "desk", known)
    (home / "sheets").mkdir(parents=True)
    (home / "mold").mkdir()
    (home / "sheets" / "bench-a4.pdf").write_bytes(b"%PDF-1.7 sheet")
    (home / "mold" / "glove.stl").write_bytes(b"solid glove")
    (home / "plan.json").write_text(text)
    (home / "sheets" / "notes.html").write_text("<script>alert(1)</script>")
    return home


def test_a_piece_without_a_plan_offers_to_plan_it(client: TestClient, piece: PieceId) -> None:
    page = client.get(f"/pieces/{piece}")
    assert page.status_code == 200
    assert "<h1>Otter</h1>" in page.text
    assert f'data-path="/api/pieces/{piece}/plan"' in page.text
    assert client.post(f"/api/pieces/{piece}/runs", json={}).json()["error"]["code"] == "piece-unplanned"


def test_its_plan_is_told_as_the_sheets_tell_it(client: TestClient, piece: PieceId, folder: Path) -> None:
    page = client.get(f"/pieces/{piece}").text
    assert "<dd>A chapel</dd>" in page
    assert "Bench sheets" in page
    assert "Rubber in the glove" in page
    assert f'/sheets/{next(each.name for each in (folder / "sheets").glob("*.pdf"))}"' in page
    client.cookies.set("units", "us")
    assert " fl oz" in client.get(f"/pieces/{piece}").text


def test_files_are_given_by_known_names_alone(client: TestClient, piece: PieceId, folder: Path) -> None:
    sheet = client.get(f"/pieces/{piece}/sheets/bench-a4.pdf")
    assert (sheet.content, sheet.headers["content-type"]) == (b"%PDF-1.7 sheet", "application/pdf")
    assert sheet.headers["content-disposition"].startswith("inline")
    solid = client.get(f"/pieces/{piece}/mold/glove.stl")
    assert solid.headers["content-disposition"].startswith("attachment")
    for path in ("sheets/notes.html", "sheets/..%2Fplan.json", "sheets/none.pdf", "../x/plan.json", "mold/plan.json"):
        assert client.get(f"/pieces/{piece}/{path}").status_code == 404, path


def test_a_run_begins_for_so_many_casts(client: TestClient, piece: PieceId, folder: Path) -> None:
    made = client.post(f"/api/pieces/{piece}/runs", json={"casts": 2, "batch": 1}).json()
    (row,) = runs(shop_of(client))
    assert (row.id, row.started.casts, row.ended_ms) == (made["run"], 2, None)
    assert made["path"] == f"/bench/{row.id}"
    assert f'href="/bench/{row.id}"' in client.get(f"/pieces/{piece}").text
    assert client.post(f"/api/pieces/{piece}/runs", json={"casts": -1}).status_code == 422
    assert client.post(f"/api/pieces/{piece}/runs", json={"mold": "no such"}).status_code == 404


def test_an_edition_is_opened_with_the_run_that_gives_its_numbers_or_neither_is(
    client: TestClient, piece: PieceId, folder: Path
) -> None:
    assert f'data-path="/api/pieces/{piece}/edition-runs"' in client.get(f"/pieces/{piece}").text
    path, shop = f"/api/pieces/{piece}/edition-runs", shop_of(client)
    made = client.post(path, json={"casts": 2, "name": "Otter, small", "size": 24}).json()
    (edition,), (run,) = editions(shop), runs(shop)
    assert (edition.name, edition.size, run.id, run.started.edition) == ("Otter, small", 24, made["run"], edition.id)
    told = {"name": "otter, SMALL", "size": 3}, {"name": "Hare", "size": 0}, {"name": "", "size": 3}
    codes = [client.post(path, json=each).json()["error"]["code"] for each in told]
    assert codes == ["edition-named", "edition-size", "text-unusable"]
    assert client.post(path, json={"name": "Hare", "size": 3, "casts": -1}).status_code == 422
    assert (len(editions(shop)), len(runs(shop))) == (1, 1)


def test_it_is_put_away_and_taken_back(client: TestClient, piece: PieceId) -> None:
    assert client.post(f"/api/pieces/{piece}/away", json={"why": "the client has it"}).status_code == 200
    assert f'data-path="/api/pieces/{piece}/back"' in client.get(f"/pieces/{piece}").text
    assert client.post(f"/api/pieces/{piece}/away", json={}).json()["error"]["code"] == "piece-away"
    assert client.post(f"/api/pieces/{piece}/back", json={}).status_code == 200


def test_a_piece_that_nobody_knows_is_not_there(client: TestClient) -> None:
    assert client.get("/pieces/nothing").status_code == 404


def test_each_figure_tells_where_it_comes_from(client: TestClient, piece: PieceId, folder: Path) -> None:
    """What was taken for granted stands there with its source, as the plan holds it; common practice, no source."""
    page = client.get(f"/pieces/{piece}").text
    told = re.search(r'class="told-figures">(.*?)</section>', page, re.S)
    assert told
    figures = told[1].split("<details>")[1:]
    assert len(figures) >= 10
    assert all("</summary>" in each and re.search(r"<p>\w.*</p>", each) for each in figures)
    plan = sample()
    powder = next(each for each in plan.assumed if each.key == "cast.powder")
    piece_mass = next(each for each in figures if each.startswith("<summary><span>Finished piece</span>"))
    assert "Finish: the powder in the skin" in piece_mass
    assert powder.source in piece_mass
    granted = {each.key for each in plan.assumed} | {key.dotted for table in keys().values() for key in table.values()}
    rests = {key for column in told_figures(plan) for figure in column for key in figure.rests}
    assert {key for key in rests if key.partition(".")[0] in ("mold", "cast", "shop")} <= granted
