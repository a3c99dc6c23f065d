"""Taking in at the desk, as its page calls it: files that arrive, what is wrong told while one writes, the piece."""

from __future__ import annotations

import html
import json
import re
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from errno import ENOSPC
from pathlib import Path
from typing import Any

import impossible_bodies as impossible
import pytest
from at_desk import app_of, at_desk, settings_in
from conftest import small_figure
from fastapi.testclient import TestClient
from taking_in import begun, checked, over, sent

from moldwright.records.pieces.listing import pieces
from moldwright.sheets.model_files import stl_bytes, write_stl
from moldwright.web.inside import Insides
from moldwright.web.long_work.queue import WorkQueue
from moldwright.web.pages.take_in.arriving import check_scan

TAPE = {
    "levels": [
        {"at": "0", "girth": "352", "breadth": "95", "depth": "119"},
        {"at": "42", "girth": "276", "breadth": "69", "depth": "98"},
        {"at": "99", "girth": "133", "breadth": "41", "depth": "42"},
        {"at": "156", "girth": "90"},
        {"at": "190", "girth": "0"},
    ]
}


@pytest.fixture
def client(tmp_path: Path) -> Iterator[TestClient]:
    with at_desk(settings_in(tmp_path)) as found:
        yield found


@pytest.fixture
def scan(tmp_path: Path) -> bytes:
    """A small figure, 1 unit a millimeter: nothing in the file says so."""
    file = tmp_path / "figure.stl"
    write_stl(small_figure(), file)
    return file.read_bytes()


def test_the_page_shows_defaults_as_defaults(client: TestClient) -> None:
    page = client.get("/take-in")
    assert page.status_code == 200
    assert 'placeholder="4"' in page.text
    assert "as usual: plaster bandage" in page.text
    client.cookies.set("units", "us")
    assert 'placeholder="5/32"' in client.get("/take-in").text


def test_a_scan_is_looked_at_and_its_size_is_asked(client: TestClient, scan: bytes) -> None:
    draft = begun(client)
    assert sent(client, draft, scan).json()["file"] == "figure.stl"
    job = client.post(f"/api/take-in/{draft}/look").json()
    told = over(client, job["id"])
    assert told["state"] == "done"
    assert told["result"]["asked"]["code"] == "size-unclear"
    assert "mm" in {each["unit"] for each in told["result"]["sizes"]}
    page = client.get(f"/take-in/{draft}/looked").text
    assert 'data-set="original.unit" data-value="mm"' in page
    not_yet = checked(client, draft, {"original.file": "figure.stl"}, way="scan")
    assert [each["code"] for each in not_yet["wrong"]] == ["size-unclear"]
    answers = {"original.file": "figure.stl", "original.unit": "mm", "original.up": "+z"}
    assert checked(client, draft, answers)["ready"]
    told = over(client, client.post(f"/api/take-in/{draft}/look").json()["id"])
    name = told["result"]["picture"]
    picture = client.get(f"/api/work/{told['id']}/pictures/{name}")
    assert picture.content.startswith(b"\x89PNG")
    assert client.get(f"/api/work/{told['id']}/pictures/..%2Fjob.json").status_code == 404
    assert checked(client, draft, answers)["rubber"].endswith(")")


def test_a_scan_of_which_no_mold_can_be_made_is_refused_with_the_place_and_its_picture(client: TestClient) -> None:
    """A hollow of 20 mm radius, closed all round, 42 mm over the board."""
    draft = begun(client)
    sent(client, draft, stl_bytes(impossible.mesh(impossible.hollow_ball())))
    checked(client, draft, {"original.file": "figure.stl", "original.unit": "mm", "original.up": "+z"}, way="scan")
    told = over(client, client.post(f"/api/take-in/{draft}/look").json()["id"])
    assert told["state"] == "refused"
    assert told["error"]["place"] == "In the middle, 42 mm over the board, 40 mm across"
    assert client.get(told["error"]["picture"]).content.startswith(b"\x89PNG")
    client.cookies.set("language", "de")
    page = client.get(f"/take-in/{draft}/looked").text
    assert f'<img src="{told["error"]["picture"]}"' in page
    assert "In der Mitte, 42 mm über dem Brett, 40 mm groß" in page
    assert client.get(f"/api/work/{told['id']}/pictures/other-refused.png").status_code == 404


def test_a_piece_is_taken_in_with_its_scan_and_its_plan_begins(client: TestClient, scan: bytes) -> None:
    draft = begun(client)
    sent(client, draft, scan)
    answers = {"original.file": "figure.stl", "original.unit": "mm", "original.up": "+z", "original.name": "Figure",
               "edition.count": "12", "mold.thickness": "4"}  # fmt: skip
    assert checked(client, draft, answers, whom="A chapel", due="2026-12-24", way="scan")["ready"]
    made = client.post(f"/api/take-in/{draft}/piece").json()
    insides: Insides = app_of(client).state.insides
    (known,) = pieces(insides.own.shop)
    assert (known.piece.name, known.count, known.piece.whom, known.piece.due) == (
        "Figure", 12, "A chapel", "2026-12-24",
    )  # fmt: skip
    assert known.piece.id == made["piece"]
    (work,) = [each for each in client.get("/api/work").json()["work"] if each["kind"] == "plan"]
    assert work["about"] == made["piece"]
    assert client.get(f"/take-in/{draft}").status_code == 404
    client.post(f"/api/work/{work['id']}/stop")


def test_what_is_answered_while_a_scan_comes_stays_answered(
    client: TestClient, scan: bytes, monkeypatch: pytest.MonkeyPatch
) -> None:
    draft = begun(client)

    def meanwhile(part: Path, name: str) -> None:
        checked(client, draft, {"original.name": "Figure"}, whom="A chapel")
        check_scan(part, name)

    monkeypatch.setattr("moldwright.web.pages.take_in.route.check_scan", meanwhile)
    assert sent(client, draft, scan, "a.stl").status_code == 200
    page = client.get(f"/take-in/{draft}").text
    assert 'value="Figure"' in page
    assert 'value="A chapel"' in page
    assert "a.stl" in page


def test_who_goes_on_in_other_units_finds_what_was_typed(client: TestClient) -> None:
    """190 mm are 190 mm, whoever reads them; 7 1/2 in are as tall."""
    draft = begun(client)
    answers = {"original.tape": TAPE, "original.height": "190", "mold.thickness": "4"}
    metric = checked(client, draft, answers, way="tape")["rubber"]
    client.cookies.set("units", "us")
    page = client.get(f"/take-in/{draft}").text
    assert 'value="190 mm"' in page
    assert 'value="352 mm"' in page
    client.cookies.set("units", "metric")
    assert 'value="190 mm"' in client.get(f"/take-in/{draft}").text
    typed = {"original.tape": TAPE, "original.height": "190 mm", "mold.thickness": "4 mm"}
    assert checked(client, draft, typed, way="tape")["rubber"] == metric


def test_two_who_take_the_same_in_at_once_make_one_piece(client: TestClient) -> None:
    draft = begun(client)
    checked(client, draft, {"original.displaced": "1.90 l", "original.name": "Otter"}, way="water")
    with ThreadPoolExecutor(4) as pool:
        answers = list(pool.map(lambda _: client.post(f"/api/take-in/{draft}/piece"), range(4)))
    assert sorted(each.status_code for each in answers) == [200, 404, 404, 404]
    insides: Insides = app_of(client).state.insides
    assert [each.piece.name for each in pieces(insides.own.shop)] == ["Otter"]


def test_a_piece_whose_plan_cannot_be_begun_is_taken_in_once(
    client: TestClient, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Its page offers to plan it; pressing again makes no second one."""
    draft = begun(client)
    checked(client, draft, {"original.displaced": "1.90 l", "original.name": "Otter"}, way="water")

    def full(*_: object, **__: object) -> None:
        raise OSError(ENOSPC, "no space left on device")

    monkeypatch.setattr(WorkQueue, "ask", full)
    answer = client.post(f"/api/take-in/{draft}/piece")
    assert answer.status_code == 200
    assert "It is not planned yet" in client.get(answer.json()["path"]).text
    assert client.post(f"/api/take-in/{draft}/piece").status_code == 404
    insides: Insides = app_of(client).state.insides
    assert [each.piece.name for each in pieces(insides.own.shop)] == ["Otter"]


@pytest.mark.parametrize(
    ("content", "name", "code"),
    [
        (b"", "a.stl", "file-empty"),
        (b"<html><script>alert(1)</script>", "a.stl", "mislabelled"),
        (b"\0" * 80 + b"\xff\xff\0\0" + b"\0" * 100, "a.stl", "file-cut-off"),
        (b"hello", "a.exe", "format-unknown"),
    ],
)
def test_what_is_no_scan_is_refused_and_nothing_of_it_stays(
    client: TestClient, tmp_path: Path, content: bytes, name: str, code: str
) -> None:
    draft = begun(client)
    answer = sent(client, draft, content, name)
    assert answer.status_code in (413, 422)
    assert answer.json()["error"]["code"] == code
    assert not [
        each for each in (tmp_path / "desk" / "taking-in").rglob("*") if each.is_file() and each.suffix != ".json"
    ]


@pytest.mark.parametrize("name", ["../../../etc/x.stl", "/etc/x.stl", "..\\x.stl", "x\0.stl", "CON.stl"])
def test_no_name_of_a_file_leads_out_of_its_folder(client: TestClient, tmp_path: Path, scan: bytes, name: str) -> None:
    draft = begun(client)
    answer = sent(client, draft, scan, name)
    home = tmp_path / "desk" / "taking-in" / draft / "files"
    assert answer.status_code in (200, 422)
    assert {each.parent for each in tmp_path.rglob("*.stl") if each.name != "figure.stl"} <= {home}


def test_a_commission_s_name_of_a_file_is_never_read_from_elsewhere(client: TestClient, tmp_path: Path) -> None:
    secret = tmp_path / "secret.stl"
    secret.write_bytes(b"solid secret")
    draft = begun(client)
    answers = {"original.file": str(secret), "original.unit": "mm", "shop.steps": "../../secret.stl"}
    told = checked(client, draft, answers, way="scan")
    assert [each["code"] for each in told["wrong"]] == ["original-untold"]
    assert client.post(f"/api/take-in/{draft}/piece").json()["error"]["code"] == "key-missing"


def test_wrong_answers_are_told_at_their_field_with_a_remedy(client: TestClient) -> None:
    draft = begun(client)
    answers = {"original.displaced": "1.90 l", "mold.thickness": "90 mm", "edition.count": "0"}
    told = checked(client, draft, answers, way="water")
    assert {each["key"]: each["code"] for each in told["wrong"]} == {
        "mold.thickness": "value-out-of-range", "edition.count": "value-out-of-range",
    }  # fmt: skip
    assert all(each["remedy"] for each in told["wrong"])
    assert not told["ready"]


def test_what_can_ruin_the_job_is_told_while_one_writes(client: TestClient) -> None:
    """Sulfur in oil clay stops the cure of addition-cure silicone: common practice, no source."""
    draft = begun(client)
    bad = {"original.displaced": "1.90 l", "original.material": "oil clay"}
    told = checked(client, draft, bad, way="water")
    assert told["ready"]
    assert any("sulfur" in each["text"].lower() for each in told["cautions"])
    assert told["rubber"]
    fine = checked(client, draft, {"original.displaced": "1.90 l", "original.material": "glass"}, way="water")
    assert not any("sulfur" in each["text"].lower() for each in fine["cautions"])


def test_a_tape_is_drawn_as_it_grows(client: TestClient) -> None:
    def told(levels: int) -> dict[str, Any]:
        answers = {"original.tape": {"levels": TAPE["levels"][:levels]}, "original.height": "190"}
        found: dict[str, Any] = client.post("/api/take-in/tape", json={"answers": answers}).json()
        return found

    few, all_ = told(2), told(5)
    assert few["understood"] is None
    assert [each["at"] for each in few["so_far"]] == [0.0, 42.0]
    known = all_["understood"]
    assert known["height"] == "190 mm"
    assert {view["facing"] for view in known["views"]} == {"front", "side"}
    top = max(z for view in known["views"] for ring in view["rings"] for _, z in ring)
    assert top == pytest.approx(190.0, abs=2.0)
    base = next(view["rings"][0] for view in known["views"] if view["facing"] == "front")
    assert max(x for x, z in base if z < 5.0) == pytest.approx(95 / 2, rel=0.08)


def test_a_tape_in_inches_is_told_in_inches(client: TestClient) -> None:
    client.cookies.set("units", "us")
    rows = [{"at": "0", "girth": "14"}, {"at": "3", "girth": "10"}, {"at": "6", "girth": "5 1/2"}]
    answers = {"original.tape": {"levels": rows}, "original.height": "7 1/2"}
    told = client.post("/api/take-in/tape", json={"answers": answers}).json()
    assert told["understood"]["height_mm"] == pytest.approx(7.5 * 25.4, abs=0.1)
    assert "in" in told["understood"]["height"]


def test_measures_that_cannot_be_are_told_in_words(client: TestClient) -> None:
    """Once round what is 95 across and 119 deep cannot be 198: 2 (95 + 119) / ... even its diagonals go round 304."""
    rows = [{"at": "0", "girth": "198", "breadth": "95", "depth": "119"}, *TAPE["levels"][1:]]
    told = client.post("/api/take-in/tape", json={"answers": {"original.tape": {"levels": rows}}}).json()
    assert told["wrong"]["remedy"]
    assert "row 1" in told["wrong"]["found"]


def test_photos_arrive_one_by_one_and_may_be_left_out(client: TestClient) -> None:
    draft = begun(client)
    png = b"\x89PNG\r\n\x1a\n" + b"\0" * 60
    for name in ("a.png", "b.png"):
        assert sent(client, draft, png, name, "photos").status_code == 200
    refused = sent(client, draft, b"no photo at all, just letters", "c.jpg", "photos")
    assert refused.json()["error"]["code"] == "format-unknown"
    assert client.delete(f"/api/take-in/{draft}/photos/a.png").json() == {
        "photos": ["b.png"],
        "here": "1 photo is here.",
    }
    assert client.delete(f"/api/take-in/{draft}/photos/..%2F..%2Fanswers.json").status_code == 404


@pytest.mark.parametrize(("said_bytes", "status"), [(100_000_001, 413), (100_000_000, 422)])
def test_a_scan_has_100_mb_at_the_most(client: TestClient, tmp_path: Path, said_bytes: int, status: int) -> None:
    """The limit that the page tells; the second is refused for what was really sent, which is no scan."""
    draft = begun(client)
    headers = {"content-length": str(said_bytes)}
    answer = client.put(f"/api/take-in/{draft}/scan?name=a.stl", content=b"no scan", headers=headers)
    assert answer.status_code == status
    if status == 413:
        error = answer.json()["error"]
        assert (error["code"], error["limit"], error["unit"]) == ("file-too-large", 100.0, "MB")
    assert not [each for each in (tmp_path / "desk").rglob("*") if each.name == "a.stl"]


def test_answers_about_bowls_stand_there_when_the_page_is_loaded_anew(client: TestClient) -> None:
    draft = begun(client)
    told = {"original.bowls": [{"name": "A", "depth": "12", "width": "40", "floor": "round"}]}
    checked(client, draft, told, way="photos")
    page = client.get(f"/take-in/{draft}").text
    kept = re.search(r"data-bowls='([^']*)'", page)
    assert kept
    assert json.loads(html.unescape(kept[1])) == told["original.bowls"]


def test_who_only_views_takes_nothing_in(client: TestClient) -> None:
    del client.headers["x-token"]
    assert client.post("/api/take-in", json={"answers": {}, "beside": {}}).status_code == 403


def test_another_commission_begins_with_what_stands(client: TestClient) -> None:
    draft = begun(client)
    answers = {"original.tape": TAPE, "original.height": "190", "original.name": "Otter", "mold.rubber": ""}
    assert checked(client, draft, answers, way="tape", whom="A trust")["ready"]
    made = client.post(f"/api/take-in/{draft}/piece").json()
    for each in client.get("/api/work").json()["work"]:
        client.post(f"/api/work/{each['id']}/stop")
    other = client.post(f"/api/pieces/{made['piece']}/change").json()
    page = client.get(other["path"]).text
    assert 'value="352 mm"' in page
    assert 'value="tape" checked' in page
    changed = {**answers, "edition.count": "3"}
    assert checked(client, other["id"], changed, way="tape", why="three more")["ready"]
    assert client.post(f"/api/take-in/{other['id']}/piece").json()["piece"] == made["piece"]
    insides: Insides = app_of(client).state.insides
    (known,) = pieces(insides.own.shop)
    assert (known.count, known.piece.whom) == (3, "A trust")


def test_what_has_no_field_goes_along_and_may_be_left_out(client: TestClient) -> None:
    """A commission from a file may ask for what the page has no field for: changing another answer drops none of it."""
    coats = [{"name": "detail", "thickness": "0.6 mm"}, {"name": "build", "thickness": "3.4 mm"}]
    gaps = [{"where": "under the chin", "depth": "12 mm", "width": "20 mm"}]
    began = {"original.tape": TAPE, "original.height": "190 mm", "mold.coats": coats, "original.gaps": gaps}
    draft = str(client.post("/api/take-in", json={"answers": began, "beside": {"way": "tape"}}).json()["id"])
    page = client.get(f"/take-in/{draft}").text
    assert "detail, 0.6 mm; build, 3.4 mm" in page
    typed = {"original.tape": TAPE, "original.height": "190", "mold.thickness": "5"}
    (wrong,) = checked(client, draft, typed, way="tape")["wrong"]
    assert (wrong["code"], wrong["key"]) == ("coats-disagree", "mold.thickness")
    kept = client.delete(f"/api/take-in/{draft}/answers/mold.coats").json()["answers"]
    assert "original.gaps" in kept
    assert checked(client, draft, typed, way="tape")["ready"]
    assert client.delete(f"/api/take-in/{draft}/answers/mold.coats").status_code == 404


def test_what_is_dropped_is_gone(client: TestClient, tmp_path: Path, scan: bytes) -> None:
    draft = begun(client)
    sent(client, draft, scan)
    assert client.delete(f"/api/take-in/{draft}").status_code == 200
    assert list((tmp_path / "desk" / "taking-in").iterdir()) == []
