"""The bench's calls: how a run stands, the server's time, entries kept once, numbers, the worker."""

from __future__ import annotations

import time
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest
from at_desk import at_desk, settings_in
from bench_plans import bench_plan
from fastapi.testclient import TestClient

from moldwright.log.any_events import Noted
from moldwright.log.ids import RunId
from moldwright.log.run_events import Weighed
from moldwright.log.uuid7 import uuid7
from moldwright.plan.json_text import plan_to_json
from moldwright.records.clock import BenchClock
from moldwright.records.runs.start import start_run
from moldwright.records.shop import open_shop
from moldwright.records.store import faults
from moldwright.records.store.faults import UNREACHABLE
from moldwright.web.errors import status_of

STRANGE = "018bcfe5-6800-7000-8000-0000000000ff"


@dataclass(frozen=True)
class AtRun:
    client: TestClient
    run: RunId
    folder: Path

    def post(self, *events: dict[str, Any], told: bool = False) -> Any:
        answer = self.client.post(f"/api/bench/{self.run}/events?told={told}", json={"events": events})
        assert answer.status_code == 200, answer.text
        return answer.json()

    def stands(self, query: str = "") -> Any:
        return self.client.get(f"/api/bench/{self.run}{query}").json()

    def kept(self, kind: type) -> list[Any]:
        shop = open_shop(str(self.folder / "shop.db"))
        try:
            return [event for event in shop.events_of(self.run) if isinstance(event.body, kind)]
        finally:
            shop.close()


def now_ms() -> int:
    return time.time_ns() // 1_000_000


def note(number: int, text: str) -> dict[str, Any]:
    at_ms = now_ms()
    body = {"text": text, "step": "receive", "turn": 0}
    return {"id": uuid7(at_ms, number << 40), "kind": "noted", "at_ms": at_ms, "body": body}


@pytest.fixture
def at_run(tmp_path: Path) -> Iterator[AtRun]:
    with at_desk(settings_in(tmp_path)) as client:
        shop = open_shop(str(tmp_path / "shop.db"))
        run = start_run(shop, BenchClock("desk"), plan_to_json(bench_plan(1)), 1)
        shop.close()
        yield AtRun(client, run.id, tmp_path)


def test_the_server_s_time_is_this_machine_s(at_run: AtRun) -> None:
    before = now_ms()
    told = at_run.client.get("/api/time").json()["now_ms"]
    assert before <= told <= now_ms()


def test_an_entry_that_is_sent_twice_is_kept_once(at_run: AtRun) -> None:
    sent = [note(1, "one"), note(2, "two")]
    assert [each["became"] for each in at_run.post(*sent)["events"]] == ["kept", "kept"]
    assert [each["became"] for each in at_run.post(*sent, note(3, "three"))["events"]] == ["known", "known", "kept"]
    assert [event.body.text for event in at_run.kept(Noted)] == ["one", "two", "three"]


def test_one_that_is_refused_says_why_and_keeps_no_other_from_being_kept(at_run: AtRun) -> None:
    bad = note(4, "bad") | {"kind": "number-given"}
    answers = at_run.post(bad, note(5, "good"))["events"]
    assert [each["became"] for each in answers] == ["refused", "kept"]
    assert answers[0]["said"]["remedy"]
    assert [event.body.text for event in at_run.kept(Noted)] == ["good"]


def test_a_store_that_fails_refuses_nothing_of_what_was_sent(at_run: AtRun, monkeypatch: pytest.MonkeyPatch) -> None:
    """RFC 9110, 15.6.4: the same call may be made again; a tablet keeps what it has for that."""

    def failing(*_: object) -> None:
        raise UNREACHABLE.refusal("the shop")

    with monkeypatch.context() as patched:
        patched.setattr("moldwright.records.shop.Shop.append", failing)
        sent = note(7, "poured")
        answer = at_run.client.post(f"/api/bench/{at_run.run}/events", json={"events": [sent]})
        assert answer.status_code == 503
    assert at_run.post(sent)["events"][0]["became"] == "kept"


@pytest.mark.parametrize("fault", [each for each in vars(faults).values() if isinstance(each, faults.StoreFault)])
def test_no_fault_of_a_store_is_told_as_one_of_the_call(fault: faults.StoreFault) -> None:
    assert status_of(fault.refusal("the shop")) in (503, 507)


def test_entries_stand_under_the_device_that_sent_them(at_run: AtRun) -> None:
    at_run.post(note(6, "here"))
    assert {event.bench for event in at_run.kept(Noted)} == {"desk"}


def test_with_the_mark_of_the_last_answer_nothing_is_told_until_something_is_written(at_run: AtRun) -> None:
    mark = at_run.stands()["mark"]
    asked = at_run.client.get(f"/api/bench/{at_run.run}", params={"mark": mark})
    assert (asked.status_code, asked.content) == (204, b"")
    told = at_run.post(note(7, "new"), told=True)["told"]
    assert told["mark"] != mark
    assert at_run.client.get(f"/api/bench/{at_run.run}", params={"mark": mark}).json()["mark"] == told["mark"]


def test_what_a_press_carries_is_what_the_server_keeps(at_run: AtRun) -> None:
    """The cup's first part is 100.0 g of B (`bench_plans.MIXES`); the scale reads 103.0: 3.0 g too much."""
    place = "?step=coat-1-mix&turn=0"
    view = at_run.stands(place)["view"]
    assert (view["press"], view["figure"]["text"], view["figure"]["unit"]) == ("weigh", "100.0", "g")
    over = next(press for press in view["presses"] if press["id"] == "over")
    (event,) = over["events"]
    at_ms = now_ms()
    body = event["body"] | {over["asks"][0]["field"]: "103.0"}
    sent = {"id": uuid7(at_ms, 1 << 50), "kind": event["kind"], "at_ms": at_ms, "body": body}
    at_run.post(sent)
    (weighed,) = at_run.kept(Weighed)
    assert (weighed.body.mass_g, weighed.body.reads_g) == (103.0, 103.0)
    assert "3.0 g too much" in at_run.stands(place)["view"]["put_right"]["head"]
    (went_on,) = at_run.stands(place)["view"]["put_right"]["ways"][0]["press"]["events"]
    at_run.post(went_on | {"id": uuid7(at_ms + 1, 2 << 50), "at_ms": at_ms + 1})
    for screen in (place, ""):
        assert at_run.stands(screen)["view"]["put_right"] is None


def test_a_box_that_was_passed_over_is_not_asked_for(at_run: AtRun) -> None:
    assert at_run.client.get(f"/api/bench/{at_run.run}", params={"passed": "receive/x/"}).status_code == 422


def test_a_run_that_is_not_there_is_told(at_run: AtRun) -> None:
    assert at_run.client.get(f"/api/bench/{STRANGE}").status_code in (404, 409)
    assert at_run.client.get(f"/bench/{STRANGE}").status_code == 404
    assert at_run.client.post(f"/api/bench/{STRANGE}/events", json={"events": []}).status_code in (404, 409)


def test_a_number_is_asked_of_a_run_with_an_edition_only(at_run: AtRun) -> None:
    asked = {"step": "receive", "turn": 1, "which": "number"}
    answer = at_run.client.post(f"/api/bench/{at_run.run}/number", json=asked)
    assert answer.status_code == 422
    assert answer.json()["error"]["code"] == "no-box"


def test_a_run_begins_by_a_plan_that_is_kept(at_run: AtRun) -> None:
    plan = at_run.stands()["plan"]
    new = at_run.client.post("/api/bench", json={"plan": plan, "casts": 2}).json()["run"]
    assert at_run.client.get(f"/api/bench/{new}").json()["casts"] == 2
    assert at_run.client.post("/api/bench", json={"plan": "0" * 64}).status_code in (404, 409, 422)


def test_the_pages_say_what_is_next_without_a_script(at_run: AtRun) -> None:
    listed = at_run.client.get("/bench").text
    assert f'href="/bench/{at_run.run}"' in listed
    page = at_run.client.get(f"/bench/{at_run.run}?step=coat-1-mix").text
    assert '<p class="big">100.0<span class="unit">g</span></p>' in page


def test_an_act_without_the_session_s_token_is_refused(at_run: AtRun) -> None:
    answer = at_run.client.post(f"/api/bench/{at_run.run}/events", json={"events": []}, headers={"x-token": ""})
    assert answer.status_code == 403
