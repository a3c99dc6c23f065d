"""Molds at the desk: every act with what it writes, refusals with nothing written, and who may what."""

from __future__ import annotations

import csv
from io import StringIO

import pytest
from bench_plans import bench_plan
from tests.at_desk import DeskHand, Roles, desk, roles
from tests.browser.shop_scene import in_shop

from moldwright.log.ids import SubjectId
from moldwright.log.run_events import Started
from moldwright.web.doors.visitor import Role

__all__ = ["desk", "roles"]


def older(desk: DeskHand, **more: object) -> str:
    """The id of a mold that was typed in."""
    return str(
        desk("/api/molds", **{"name": "glove 1", "drawn": "3", "lasts": "20", "stored": "shelf 2", **more})["id"]
    )


def test_an_older_mold_is_typed_in_and_found(desk: DeskHand) -> None:
    """Lasting 20, 3 drawn: 17 are left, reckoned by hand."""
    id_ = older(desk)
    told = desk.client.get(f"/api/molds/{id_}").json()
    assert (told["name"], told["drawn"], told["left"]["likely"], told["stored"]) == ("glove 1", 3, 17.0, "shelf 2")
    assert "glove 1" in desk.client.get("/molds", params={"find": "SHELF"}).text
    assert "No mold is like that" in desk.client.get("/molds", params={"find": "cellar"}).text
    assert "17 left" in desk.client.get(f"/molds/{id_}").text


def test_what_is_written_of_a_mold_stands_in_its_story_and_its_log(desk: DeskHand) -> None:
    id_ = older(desk)
    api = f"/api/molds/{id_}"
    desk(f"{api}/looks", state="worn", text="at the neck")
    desk(f"{api}/shrinks", shrink="0.4 %")
    desk(f"{api}/place", stored="rack 3")
    desk(f"{api}/notes", text="talc it first")
    told = desk.client.get(api).json()
    assert (told["state"], told["stored"], told["shrink"]["likely_pct"]) == ("worn", "rack 3", pytest.approx(0.4))
    page = desk.client.get(f"/molds/{id_}").text
    for words in (
        "looked over: worn, at the neck",
        "measured: 0.4 % smaller",
        "moved to rack 3",
        "note: talc it first",
    ):
        assert words in page


def test_a_line_through_an_entry_leaves_it_readable_and_counts_in_nothing(desk: DeskHand) -> None:
    id_, other = older(desk), older(desk, name="glove 2")
    api = f"/api/molds/{id_}"
    desk(f"{api}/looks", state="torn")
    entry = desk.client.get(api).json()["log"][-1]["code"]
    assert desk.refused(f"/api/molds/{other}/strike", event=entry) == (422, "event-not-kept")
    assert desk.refused(f"{api}/strike", event=entry, why="two\nlines") == (422, "text-unusable")
    desk(f"{api}/strike", event=entry, why="the other one")
    told = desk.client.get(api).json()
    assert told["state"] == "good"
    assert [each["struck"] for each in told["log"]] == [False, True, False]
    assert "<s>looked over: torn</s>" in desk.client.get(f"/molds/{id_}").text


@pytest.mark.parametrize(
    ("act", "body", "code"),
    [
        ("looks", {"state": "splendid"}, "request-unclear"),
        ("shrinks", {"shrink": "much"}, "quantity-unclear"),
        ("shrinks", {"shrink": "40 %"}, "shrink-impossible"),
        ("place", {"stored": " "}, "text-unusable"),
        ("notes", {"text": "two\nlines"}, "text-unusable"),
        ("photos", {"file": "0" * 64}, "file-missing"),
        ("strike", {"event": "0000-0000"}, "event-not-kept"),
        ("runs", {"casts": "2"}, "mold-without-plan"),
    ],
)
def test_what_cannot_be_is_refused_and_nothing_is_written(
    desk: DeskHand, act: str, body: dict[str, object], code: str
) -> None:
    id_ = older(desk)
    before = desk.client.get(f"/api/molds/{id_}").json()["log"]
    status, told = desk.refused(f"/api/molds/{id_}/{act}", **body)
    assert (status in (404, 409, 422), told) == (True, code)
    assert desk.client.get(f"/api/molds/{id_}").json()["log"] == before


def test_a_photo_is_kept_without_the_camera_s_traces_and_stands_on_the_page(desk: DeskHand) -> None:
    id_ = older(desk)
    from moldwright.records.files.keep import keep_file  # noqa: PLC0415

    file = keep_file(desk.shop, _photo(), "neck.png")
    desk(f"/api/molds/{id_}/looks", state="worn", text="the neck", file=file)
    assert f'src="/files/{file}"' in desk.client.get(f"/molds/{id_}").text
    assert desk.client.get(f"/api/molds/{id_}").json()["files"] == [file]


def _photo() -> bytes:
    from io import BytesIO  # noqa: PLC0415

    from PIL import Image  # noqa: PLC0415

    made = BytesIO()
    Image.new("RGB", (8, 8), "gray").save(made, "PNG")
    return made.getvalue()


def test_a_run_s_mold_is_registered_and_cast_from(desk: DeskHand) -> None:
    """The small plan's run: two casts out, bubbles on the second, as the scene writes them."""
    made = in_shop(desk.shop, bench_plan(4), 24)
    page = desk.client.get(f"/molds/{made.mold}").text
    assert "cast 2: bubbles or unfilled tips, at the left ear" in page
    assert desk.client.get(f"/api/molds/{made.mold}").json()["drawn"] == 2
    assert desk.refused("/api/molds/made", run=made.run) == (409, "mold-registered")
    begun = desk(f"/api/molds/{made.mold}/runs", casts="2", batch="")
    assert begun["path"] == f"/bench/{begun['run']}"
    events = desk.shop.events_of(SubjectId(str(begun["run"])))
    started = next(event.body for event in events if isinstance(event.body, Started))
    assert (started.mold, started.casts, started.batch) == (made.mold, 2, 1)


def test_only_the_owner_retires_and_who_views_writes_nothing(desk: DeskHand, roles: Roles) -> None:
    id_ = older(desk)
    roles.now = Role.BENCH
    assert desk.refused(f"/api/molds/{id_}/retire", why="torn") == (403, "role-too-small")
    desk(f"/api/molds/{id_}/looks", state="good")
    roles.now = Role.VIEW
    assert desk.refused(f"/api/molds/{id_}/looks", state="good") == (403, "role-too-small")
    assert desk.client.get(f"/api/molds/{id_}").status_code == 200
    roles.now = Role.OWNER
    desk(f"/api/molds/{id_}/retire", why="torn through")
    assert "glove 1" not in desk.client.get("/molds").text
    assert "torn through" in desk.client.get("/molds", params={"retired": "true"}).text
    retired = desk.client.get(f"/api/molds/{id_}").json()["log"][-1]["code"]
    roles.now = Role.BENCH
    assert desk.refused(f"/api/molds/{id_}/strike", event=retired) == (403, "role-too-small")
    roles.now = Role.OWNER
    desk(f"/api/molds/{id_}/strike", event=retired)
    assert "glove 1" in desk.client.get("/molds").text


def test_the_table_is_safe_in_a_spreadsheet(desk: DeskHand) -> None:
    """What begins with "=" a spreadsheet reckons with; the apostrophe keeps it words (OWASP, CSV injection)."""
    older(desk, name="=1+1")
    answer = desk.client.get("/api/molds.csv")
    rows = list(csv.DictReader(StringIO(answer.text)))
    assert answer.headers["content-type"] == "text/csv; charset=utf-8"
    assert [row["name"] for row in rows] == ["'=1+1"]


def test_an_empty_register_has_one_sentence_and_one_act(desk: DeskHand) -> None:
    page = desk.client.get("/molds").text
    assert "A mold is put here when a run has made it, or when an older one is typed in." in page
    assert page.count('class="do"') == 1


def test_its_label_is_a_pdf(desk: DeskHand) -> None:
    answer = desk.client.get(f"/api/molds/{older(desk)}/label.pdf")
    assert answer.content.startswith(b"%PDF-")


def test_what_a_name_holds_never_becomes_markup(desk: DeskHand) -> None:
    id_ = older(desk, name="<b>bold</b>")
    assert "<b>bold" not in desk.client.get(f"/molds/{id_}").text
    assert "<b>bold" not in desk.client.get("/molds").text
