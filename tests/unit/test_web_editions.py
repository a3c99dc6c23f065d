"""Editions at the desk: a number is given once, a piece goes only where it can, what was struck out stays readable."""

from __future__ import annotations

import csv
import io
from io import StringIO

import pypdf
import pytest
from bench_plans import SKIN_CUP, A, bench_plan
from tests.at_desk import DeskHand, Roles, desk, roles
from tests.browser.shop_scene import in_shop

from moldwright.log.codes import short_code
from moldwright.log.edition_events import Series
from moldwright.log.event import About
from moldwright.log.lot_events import LotReceived, Stuff
from moldwright.log.run_events import CupRef, Weighed
from moldwright.plan.json_text import plan_to_json
from moldwright.plan.needs import NeedUnit
from moldwright.records.clock import BenchClock
from moldwright.records.editions.numbers import CastTold, give_number
from moldwright.records.editions.open import open_edition
from moldwright.records.runs.start import start_run
from moldwright.records.stock.keep import receive
from moldwright.web.doors.visitor import Role

__all__ = ["desk", "roles"]


def opened(desk: DeskHand, **more: object) -> str:
    """The path of a new edition's API."""
    told = desk("/api/editions", **{"name": "otter", "size": "24", "proofs": "2", "material": "", **more})
    return f"/api/editions/{told['id']}"


def numbered(desk: DeskHand, api: str, **body: object) -> str:
    """The path of a newly numbered piece's API."""
    return f"{api}/pieces/{desk(f'{api}/numbers', **body)['id']}"


def test_an_edition_is_opened_and_numbers_follow_one_another(desk: DeskHand) -> None:
    api = opened(desk)
    given = [desk(f"{api}/numbers", number="", cast="")["number"] for _ in range(2)]
    told = desk.client.get(api).json()
    assert (given, told["left"], told["proofs_left"]) == ([1, 2], 22, 2)
    assert desk(f"{api}/numbers", series="artist's proof")["series"] == "artist's proof"


def test_who_presses_second_is_told_that_it_is_given_and_which_is_free(desk: DeskHand) -> None:
    api = opened(desk)
    desk(f"{api}/numbers", number="7")
    answer = desk.client.post(f"{api}/numbers", json={"number": "7"})
    assert (answer.status_code, answer.json()["error"]["code"]) == (409, "number-given")
    assert "7/24 is given" in answer.json()["said"]["found"]
    assert answer.json()["error"]["remedy"] == "The next free one is 1."
    assert len(desk.client.get(api).json()["pieces"]) == 1


def test_a_piece_goes_only_where_it_can_from_where_it_is(desk: DeskHand) -> None:
    api = opened(desk)
    piece = numbered(desk, api, number="3")
    desk(f"{piece}/moves", state="sold", whom="somebody", on="2026-03-01")
    assert desk.refused(f"{piece}/moves", state="sold") == (409, "piece-elsewhere")
    page = desk.get(api.replace("/api", ""), number="3")
    assert "sold, somebody, 2026-03-01" in page
    assert 'value="broken"' in page
    assert 'value="sold"' not in page
    desk(f"{piece}/strike", why="the other buyer")
    assert desk.client.get(api).json()["pieces"][0]["state"] == "in the shop"
    assert desk.refused(f"{piece}/strike") == (409, "piece-unmoved")


def test_a_void_number_stays_spent_and_only_the_owner_voids(desk: DeskHand, roles: Roles) -> None:
    api = opened(desk)
    piece = numbered(desk, api, number="1")
    roles.now = Role.BENCH
    assert desk.refused(f"{piece}/void") == (403, "role-too-small")
    assert desk.refused("/api/editions", name="leaf", size="3") == (403, "role-too-small")
    assert desk.refused(f"{api}/size", size="3") == (403, "role-too-small")
    roles.now = Role.VIEW
    assert desk.refused(f"{api}/numbers") == (403, "role-too-small")
    assert desk.get(api)
    roles.now = Role.OWNER
    desk(f"{piece}/void", why="cut twice")
    assert desk.refused(f"{api}/numbers", number="1") == (409, "number-given")
    assert desk.refused(f"{piece}/moves", state="sold") == (409, "piece-void")


@pytest.mark.parametrize(
    ("act", "body", "code"),
    [
        ("numbers", {"number": "25"}, "number-outside"),
        ("numbers", {"cast": "0000-0000/1"}, "not-kept"),
        ("numbers", {"cast": "x"}, "cast-unknown"),
        ("size", {"size": "30"}, "edition-grows"),
        ("size", {"size": "3"}, "edition-cut"),
    ],
)
def test_what_cannot_be_is_refused_and_nothing_is_written(
    desk: DeskHand, act: str, body: dict[str, object], code: str
) -> None:
    api = opened(desk)
    desk(f"{api}/numbers", number="7")
    before = desk.client.get(api).json()
    assert desk.refused(f"{api}/{act}", **body)[1] == code
    assert desk.client.get(api).json() == before


def test_two_editions_have_two_names_and_a_size(desk: DeskHand) -> None:
    opened(desk)
    assert desk.refused("/api/editions", name="OTTER", size="3") == (409, "edition-named")
    assert desk.refused("/api/editions", name="leaf", size="") == (422, "edition-size")


def test_every_number_is_a_place_with_what_is_said_of_it(desk: DeskHand) -> None:
    """24 numbers and 2 proofs: 26 places, counted by hand."""
    api = opened(desk)
    desk(f"{numbered(desk, api, number='3')}/moves", state="reserved", whom="somebody")
    page = desk.get(api.replace("/api", ""))
    assert page.count('<a class="place') == 26
    assert page.count('<a class="place free"') == 25
    assert 'aria-label="3: reserved, somebody' in page
    assert "Number 7 is free" in desk.get(api.replace("/api", ""), number="7")
    assert "Give a number" in desk.get(api.replace("/api", ""), number="99")


def test_a_cast_of_a_run_gets_its_number_once(desk: DeskHand) -> None:
    made = in_shop(desk.shop, bench_plan(4), 60)
    api = f"/api/editions/{made.edition}"
    assert desk.refused(f"{api}/numbers", cast=f"{made.run}/1") == (409, "cast-numbered")
    told = desk(f"{api}/numbers", cast=f"{made.run}/2")
    assert (told["run"], told["cast"]) == (made.run, 2)


def test_a_certificate_is_a_pdf_and_that_it_was_made_is_written_down(desk: DeskHand) -> None:
    api = opened(desk, material="bronze powder in resin")
    piece = numbered(desk, api, number="3")
    answer = desk.client.post(f"{piece}/certificate", json={"maker": "A maker"})
    text = pypdf.PdfReader(io.BytesIO(answer.content)).pages[0].extract_text()
    assert answer.headers["content-type"] == "application/pdf"
    assert "A maker" in text
    assert "bronze powder in resin" in text
    assert len(desk.client.get(api).json()["pieces"][0]["certificates_ms"]) == 1
    assert desk.refused(f"{piece}/certificate", paper="a9") == (422, "unknown-choice")
    assert desk.client.get(f"{piece}/label.pdf").content.startswith(b"%PDF-")


def test_the_table_holds_every_piece_and_no_formula(desk: DeskHand) -> None:
    """What begins with "=" a spreadsheet reckons with (OWASP, CSV injection)."""
    api = opened(desk, name="=otter")
    desk(f"{numbered(desk, api)}/moves", state="sold", whom="@somebody")
    (row,) = csv.DictReader(StringIO(desk.get(f"{api}/pieces.csv")))
    assert (row["edition"], row["whom"], row["state"]) == ("'=otter", "'@somebody", "sold")


def test_pieces_are_found_by_number_state_and_name(desk: DeskHand) -> None:
    api = opened(desk)
    desk(f"{numbered(desk, api, number='3')}/moves", state="sold", whom="a gallery")
    numbered(desk, api, number="4")
    found = desk.get(api.replace("/api", ""), find="gallery")
    assert ">3/24</a>" in found
    assert ">4/24</a>" not in found


def test_an_empty_shop_has_one_sentence_and_one_act(desk: DeskHand) -> None:
    page = desk.get("/editions")
    assert "An edition holds so many numbers, each given once and for good." in page
    assert page.count('class="do"') == 1


def test_what_a_name_holds_never_becomes_markup(desk: DeskHand) -> None:
    api = opened(desk, name="<b>bold</b>", material="<i>x</i>")
    desk(f"{numbered(desk, api)}/moves", state="sold", whom='"><script>')
    page = desk.get(api.replace("/api", ""), number="1") + desk.get("/editions")
    assert not any(tag in page for tag in ("<b>bold", "<i>x", '"><script>'))


def test_the_lots_in_a_numbered_piece_are_told_where_it_is_pressed(desk: DeskHand) -> None:
    """A customer writes about one piece: what was weighed into its cast is known from the log; common practice."""
    clock = BenchClock("tablet")
    stuff = Stuff("resin", "urethane-standard", "standard casting urethane, A")
    lot = receive(desk.shop, clock, LotReceived(stuff, 2500.0, NeedUnit.GRAM, "2026-01-05", "K-17"), "2026-01-05")
    edition = open_edition(desk.shop, clock, "Otter", 12).id
    run = start_run(desk.shop, clock, plan_to_json(bench_plan(1)), 1, edition=edition).id
    weighed = Weighed(CupRef(SKIN_CUP, 1), A, 40.0, 40.0, lot=lot.shelf.lot.id)
    desk.shop.append([clock.event(About.RUN, run, weighed)])
    give_number(desk.shop, clock, edition, Series.NUMBERED, 3, CastTold(run, 1))
    page = desk.client.get(f"/editions/{edition}?number=3").text
    assert "standard casting urethane, A" in page
    assert "K-17" in page
    assert f'href="/shelf/{short_code(lot.shelf.lot.id)}"' in page
    assert "K-17" not in desk.client.get(f"/editions/{edition}?number=4").text
