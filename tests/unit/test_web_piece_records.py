"""A piece's mixes, casts and log at the desk, and its sheets typed in: the same words as at the terminal."""

from __future__ import annotations

import csv
from io import BytesIO, StringIO
from zipfile import ZipFile

import pytest
from bench_plans import COAT_CUP, bench_plan
from tests.at_desk import DeskHand, Roles, desk, roles
from tests.browser.shop_scene import COMMISSION, Scene, in_shop

from moldwright.log.codes import short_code
from moldwright.records.clock import BenchClock
from moldwright.records.pieces.write import take_in
from moldwright.web.doors.visitor import Role

__all__ = ["desk", "roles"]


@pytest.fixture
def made(desk: DeskHand) -> Scene:
    return in_shop(desk.shop, bench_plan(4), 60)


def unplanned(desk: DeskHand) -> str:
    return take_in(desk.shop, BenchClock("desk"), COMMISSION, {}, "Leaf")


def test_a_card_stands_for_everything_that_is_mixed(desk: DeskHand, made: Scene) -> None:
    """The small plan's coat: 100 g of B, then A to 200 g on the scale, told in `bench_plans`."""
    page = desk.get(f"/pieces/{made.piece}/mixes")
    assert "Coat 1 of" in page
    assert "200.0" in page
    assert "No mixes yet" in desk.get(f"/pieces/{unplanned(desk)}/mixes")


def test_an_over_pour_is_put_right_by_hand(desk: DeskHand, made: Scene) -> None:
    """110 g of B are in where 100 g were to be: as much A, 110 g, by its ratio of 1 : 1, and 0.2 g of pigment."""
    told = desk.get(f"/pieces/{made.piece}/mixes", **{"cup": COAT_CUP, "in:B": "110"})
    assert "add 110.0 g: scale reads 220.2 g" in told
    cup = f"/api/pieces/{made.piece}/cups/{COAT_CUP}/targets"
    (mixed,) = desk.client.get(cup, params={"in:B": "110 g"}).json()["correction"]["cups"]
    assert {part["kind"]: part["add_g"] for part in mixed["parts"]}["A"] == 110.0
    us = desk.client.get(cup, params={"in:B": "4"}, headers={"cookie": "units=us"}).json()["correction"]["cups"][0]
    assert {part["kind"]: part["in_g"] for part in us["parts"]}["B"] == pytest.approx(4 * 28.349523125)


def test_what_no_scale_shows_is_refused_where_it_was_typed(desk: DeskHand, made: Scene) -> None:
    page = desk.get(f"/pieces/{made.piece}/mixes", **{"cup": COAT_CUP, "in:B": "much"})
    assert 'role="alert"' in page
    assert desk.client.get(f"/api/pieces/{made.piece}/cups/none/targets").json()["error"]["code"] == "cup-unknown"


def test_a_rest_is_told_against_what_is_still_to_be_mixed(desk: DeskHand, made: Scene) -> None:
    page = desk.get(f"/pieces/{made.piece}/mixes")
    assert "What does a rest still cover?" in page
    answer = desk.client.get(f"/api/pieces/{made.piece}/runs/{made.run}/rests", params={"stuff": "A", "left": "50 g"})
    assert answer.json()["rests"][0]["mass_g"] == 50.0
    odd = desk.client.get(f"/api/pieces/{made.piece}/runs/{made.run}/rests", params={"stuff": "gold", "left": "50 g"})
    assert odd.json()["error"]["code"] == "stuff-not-needed"


def test_casts_stand_against_their_plan(desk: DeskHand, made: Scene) -> None:
    """Cast 1 as likely as planned, cast 2 a tenth under the least: the scene writes them so."""
    one, two = desk.client.get(f"/api/pieces/{made.piece}/casts").json()["casts"]
    assert (one["cast"], one["number"], two["problems"]) == (1, "1/60", ["bubbles or unfilled tips, at the left ear"])
    page = desk.get(f"/pieces/{made.piece}/casts")
    assert page.count("lighter than planned") == 1
    rows = list(csv.DictReader(StringIO(desk.get(f"/api/pieces/{made.piece}/casts.csv"))))
    assert [row["cast"] for row in rows] == ["1", "2"]
    assert "No casts yet" in desk.get(f"/pieces/{unplanned(desk)}/casts")


def test_the_log_is_searched_and_a_line_goes_through_an_entry_for_good(desk: DeskHand, made: Scene) -> None:
    api = f"/api/pieces/{made.piece}/log"
    found = desk.get(f"/pieces/{made.piece}/log", find="bubbles ear")
    assert found.count('class="when"') == 1
    entry = next(each for each in desk.client.get(api).json()["entries"] if "bubbles" in each["told"])
    desk(f"{api}/strike", event=entry["code"], run=entry["run"], why="another cast")
    struck = desk.get(f"/pieces/{made.piece}/log", find="bubbles ear")
    assert "<s>bubbles or unfilled tips: at the left ear</s>" in struck
    assert desk.client.get(f"/api/pieces/{made.piece}/casts").json()["casts"][1]["problems"] == []
    line = next(each for each in desk.client.get(api).json()["entries"] if "struck out" in each["told"])
    assert desk.refused(f"{api}/strike", event=line["id"], run=line["run"]) == (422, "line-struck-out")


def test_a_note_stands_in_the_piece_s_log(desk: DeskHand, made: Scene, roles: Roles) -> None:
    api = f"/api/pieces/{made.piece}/log/notes"
    desk(api, text="the client came by")
    assert "note: the client came by" in desk.get(f"/pieces/{made.piece}/log")
    assert desk.refused(api, file="0" * 64) == (404, "file-missing")
    roles.now = Role.VIEW
    assert desk.refused(api, text="x") == (403, "role-too-small")


def test_what_stands_on_paper_is_typed_in_whole_or_not_at_all(desk: DeskHand, made: Scene) -> None:
    api = f"/api/pieces/{made.piece}/runs/{made.run}/paper"
    rows = desk.client.get(api).json()["rows"]
    ticks = [row["key"] for row in rows if row["kind"] == "tick" and row["cast"] == 3][:2]
    before = desk.client.get(f"/api/pieces/{made.piece}/log").json()
    bad = desk.refused(api, day="2026-11-20", rows={ticks[0]: "14:05", ticks[1]: "perhaps"})
    assert bad == (422, "paper-unreadable")
    assert desk.client.get(f"/api/pieces/{made.piece}/log").json() == before
    told = dict.fromkeys(ticks, "x")
    assert desk(api, day="2026-11-20", rows=told) == {"new": 2, "known": 0, "struck": 0}
    assert desk(api, day="2026-11-20", rows=told) == {"new": 0, "known": 2, "struck": 0}
    assert desk.refused(api, rows={"99 tick": "x"}) == (422, "form-unreadable")
    page = desk.get(f"/pieces/{made.piece}/paper/{made.run}", sheet="1")
    assert "What stands on paper" in page
    assert "there: x" in page or "there:" in page


def test_a_run_s_sheets_are_printed_again(desk: DeskHand, made: Scene) -> None:
    api = f"/api/pieces/{made.piece}/runs/{made.run}/sheets.pdf"
    assert desk.client.get(api, params={"paper": "letter"}).content.startswith(b"%PDF-")
    assert desk.client.get(api, params={"cast": "9"}).json()["error"]["code"] == "cast-not-in-run"
    assert desk.client.get(api, params={"paper": "a9"}).json()["error"]["code"] == "unknown-choice"


def test_a_run_of_another_piece_is_none_of_this_one(desk: DeskHand, made: Scene) -> None:
    other = unplanned(desk)
    assert desk.client.get(f"/api/pieces/{other}/runs/{made.run}/paper").json()["error"]["code"] == "not-kept"


def test_a_piece_is_taken_along_as_one_file(desk: DeskHand) -> None:
    """A zip (PKWARE's APPNOTE 6.3.10, as `zipfile` reads it) of the commission's own words."""
    answer = desk.client.get(f"/api/pieces/{unplanned(desk)}/folder.zip")
    assert answer.status_code == 200
    with ZipFile(BytesIO(answer.content)) as packed:
        assert packed.testzip() is None
        (name,) = packed.namelist()
        assert packed.read(name).decode() == COMMISSION


def test_the_lots_of_a_cast_and_of_a_mold_are_told(desk: DeskHand, made: Scene) -> None:
    casts = desk.get(f"/pieces/{made.piece}/casts")
    assert f"/casts/{short_code(made.run)}/0" in casts
    for cast in (0, 1):
        told = desk.client.get(f"/api/pieces/{made.piece}/runs/{made.run}/casts/{cast}/lots").json()
        page = desk.get(f"/pieces/{made.piece}/casts/{made.run}/{cast}")
        assert ("No lot is named" in page) is (told["lots"] == [])
    assert "No cast is like that" in desk.get(f"/pieces/{made.piece}/casts", find="zzz")


def test_a_text_is_laid_to_a_lot_and_to_an_edition(desk: DeskHand, roles: Roles) -> None:
    kept = desk.client.put("/api/files?name=a.txt", content=b"Seen at the dock.").json()["file"]
    lot = desk("/api/lots", material="addition-cure-a10-slow-a", amount="1 kg")["lot"]["id"]
    edition = desk("/api/editions", name="Otter", size=7)["id"]
    for about, to, path in (("lot", lot, f"/shelf/{lot}"), ("edition", edition, f"/editions/{edition}")):
        entry = desk("/api/attachments", about=about, to=to, file=kept, text="the dock")["event"]
        strike = f"/api/attachments/{about}/{entry}/strike"
        assert (f"/files/{kept}" in desk.get(path), strike in desk.get(path)) == (True, True)
        desk(strike)
        assert f"/files/{kept}" not in desk.get(path)
        assert desk.refused(f"/api/attachments/{about}/FFFF-FFFF/strike")[1] == "event-not-kept"
    odd = {"about": "lot", "to": lot, "file": "0" * 64}
    assert desk.refused("/api/attachments", **odd)[1] == "file-missing"
    roles.now = Role.VIEW
    assert desk.refused("/api/attachments", about="lot", to=lot, file=kept)[0] == 403
