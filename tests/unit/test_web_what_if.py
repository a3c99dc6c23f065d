"""What if: a plan is tried beside a piece's own, told by its figures, kept or put back."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
from conftest import Job
from fastapi.testclient import TestClient
from screen_plans import COMMISSION, piece_in, plan_in

from moldwright.commission.reading import commission_from_toml
from moldwright.records.clock import BenchClock, now_ms
from moldwright.records.files.keep import keep_file
from moldwright.records.pieces.write import change, piece_known
from moldwright.units.system import UnitSystem
from moldwright.web.app import create_app
from moldwright.web.long_work.job import JobId, LongJob, WorkKind, WorkState
from moldwright.web.long_work.settle import settling
from moldwright.web.long_work.trials import last_trial
from moldwright.web.of_piece import of_piece
from moldwright.web.pages.what_if.asked import TrialAsked, tried_commission
from moldwright.web.settings import Settings

WARM = COMMISSION + '[shop]\ntemperature = "25 °C"\n'


@pytest.fixture
def client(tmp_path: Path) -> Iterator[TestClient]:
    settings = Settings(str(tmp_path / "shop.db"), None, tmp_path / "desk")
    with TestClient(create_app(settings), base_url="http://localhost:8477") as found:
        token = (
            found.get("/", headers={"accept": "text/html"})
            .text.partition('name="token" content="')[2]
            .partition('"')[0]
        )
        found.headers["X-Token"] = token
        yield found


@pytest.fixture
def inside(client: TestClient) -> Any:
    return client.app.state.insides.own  # type: ignore[attr-defined]


@pytest.fixture
def piece(inside: Any, small_job: Job) -> str:
    plan_in(inside.settings.data, small_job)
    return piece_in(inside.shop, small_job)


@pytest.fixture
def tried(inside: Any, small_job: Job, piece: str) -> str:
    """A trial that is made: the plan of a warmer shop, as its process would leave it."""
    plan = replace(small_job.planned.plan, temperature_c=25.0)
    id_ = plan_in(inside.settings.data, small_job._replace(planned=replace(small_job.planned, plan=plan)))
    order = {"asked": piece_known(inside.shop, piece).asked, "commission": WARM}
    job = LongJob(JobId(BenchClock("work").new_id()), WorkKind.TRIAL, "Figure", piece, order, now_ms(),
                  state=WorkState.DONE, ended_ms=now_ms(), result={"plan": id_, "rough": False})  # fmt: skip
    inside.work.files.of(job.id).mkdir()
    inside.work.files.write(job)
    return id_


def test_what_is_asked_for_stands_in_the_form(client: TestClient, piece: str) -> None:
    text = client.get(f"/pieces/{piece}/what-if").text
    assert 'value="22 °C"' in text
    assert 'value="4 mm"' in text
    assert "Keep this plan" not in text


def test_nothing_to_try_and_nonsense_are_refused(client: TestClient, inside: Any, piece: str) -> None:
    for asked, code in (
        ({}, "nothing-changed"),
        ({"temperature": "22 °C", "count": 1}, "nothing-changed"),
        ({"temperature": "warm"}, "quantity-unclear"),
        ({"count": 0}, "request-unclear"),
    ):
        answer = client.post(f"/api/pieces/{piece}/trial", json=asked)
        assert answer.status_code == 422
        assert answer.json()["error"]["code"] == code
    assert last_trial(inside.work, piece) is None
    assert client.post(f"/api/pieces/{piece}/trial/keep").json()["error"]["code"] == "nothing-tried"


def test_what_changes_is_told_before_anything_is_kept(client: TestClient, inside: Any, piece: str, tried: str) -> None:
    text = client.get(f"/pieces/{piece}/what-if").text
    assert "<td>22 °C</td><td><strong>25 °C</strong></td>" in text
    assert "Keep this plan" in text
    assert piece_known(inside.shop, piece).plan.plan != tried


def test_a_trial_that_is_kept_is_the_piece_s_plan_and_what_is_asked_for(
    client: TestClient, inside: Any, piece: str, tried: str
) -> None:
    assert client.post(f"/api/pieces/{piece}/trial/keep").json() == {"plan": tried}
    found = piece_known(inside.shop, piece)
    assert found.plan.plan == tried
    assert not found.changed_since
    assert commission_from_toml(found.commission).shop.temperature_c == 25.0
    assert last_trial(inside.work, piece) is None
    assert len(found.plans) == 2
    assert "Beside an earlier plan" in client.get(f"/pieces/{piece}/mold").text


def test_a_trial_that_is_put_back_leaves_the_piece_alone(
    client: TestClient, inside: Any, piece: str, tried: str
) -> None:
    before = piece_known(inside.shop, piece)
    assert client.post(f"/api/pieces/{piece}/trial/back").status_code == 200
    assert piece_known(inside.shop, piece) == before
    assert last_trial(inside.work, piece) is None
    assert tried not in client.get(f"/pieces/{piece}/what-if").text
    left = {folder.name for folder in (inside.settings.data / "plans").iterdir()}
    assert left == {before.plan.plan}
    assert not any(inside.work.files.folder.iterdir())


def test_a_trial_that_comes_to_the_piece_s_own_plan_leaves_that_when_it_is_put_back(
    client: TestClient, inside: Any, piece: str, tried: str
) -> None:
    own = piece_known(inside.shop, piece).plan.plan
    job = last_trial(inside.work, piece)
    assert job is not None
    inside.work.files.write(replace(job, result={"plan": own, "rough": False}))
    client.post(f"/api/pieces/{piece}/trial/back")
    assert (inside.settings.data / "plans" / own / "plan.json").is_file()
    assert client.get(f"/pieces/{piece}/mold").status_code == 200


def test_every_figure_that_hangs_on_what_is_tried_is_marked(
    client: TestClient, inside: Any, small_job: Job, piece: str, tried: str
) -> None:
    both = client.get("/api/compare", params={"before": piece_known(inside.shop, piece).plan.plan, "after": tried})
    changed = [pair for pair in both.json()["pairs"] if pair["changed"]]
    text = client.get(f"/pieces/{piece}/what-if").text
    every = text.partition("All figures</summary>")[2]
    assert changed
    assert every.count("changed</span>") == len(changed)


def test_own_sheets_are_among_the_choices(client: TestClient, inside: Any, piece: str) -> None:
    """A rubber by a name of the shop's own, which no shipped class has; the commission asks for it by that name."""
    own = b'[rubber.addition-cure-a20-fast]\nname = "rubber of the blue pail"\n'
    kept = keep_file(inside.shop, own)
    now = piece_known(inside.shop, piece)
    files = {**{each.name: each.file for each in now.files}, "sheets/ours.toml": kept}
    asked = COMMISSION.replace("[mold]", '[mold]\nrubber = "rubber of the blue pail"') + '[shop]\nsheets = "sheets"\n'
    change(inside.shop, BenchClock("other"), piece, asked, files)
    text = client.get(f"/pieces/{piece}/what-if").text
    assert '<option value="addition-cure-a20-fast" selected>rubber of the blue pail</option>' in text
    assert '<option value="addition-cure-a10-slow">' in text


@pytest.mark.parametrize(
    ("asked", "key", "value"),
    [
        ({"rubber": "condensation-cure-a25"}, "mold.rubber", "condensation-cure-a25"),
        ({"temperature": "77 °F"}, "shop.temperature_c", 25.0),
        ({"count": 7}, "edition.count", 7),
        ({"powder": "copper"}, "cast.powder", "copper"),
    ],
)
def test_each_field_is_tried(client: TestClient, inside: Any, piece: str, asked: Any, key: str, value: Any) -> None:
    inside.work.close()
    answer = client.post(f"/api/pieces/{piece}/trial", json=asked)
    assert answer.status_code == 200, answer.text
    job = last_trial(inside.work, piece)
    assert job is not None
    table, field = key.split(".")
    assert getattr(getattr(commission_from_toml(job.order["commission"]), table), field) == pytest.approx(value)


def test_the_page_tells_each_number_of_pieces_and_why_one_is_recommended(client: TestClient, piece: str) -> None:
    text = client.get(f"/pieces/{piece}/what-if").text
    assert "least hands and material of those with which the glove rolls" in text
    assert '<select id="shell" name="pieces">' in text


def test_another_number_of_pieces_is_asked_of_the_commission(inside: Any, piece: str) -> None:
    taken = of_piece(inside.shop, piece).piece
    text = tried_commission(inside.shop, taken, TrialAsked(pieces=3), UnitSystem.METRIC)
    assert commission_from_toml(text).mold.pieces == 3


def test_a_piece_that_was_changed_meanwhile_is_not_changed_back(
    client: TestClient, inside: Any, piece: str, tried: str
) -> None:
    now = piece_known(inside.shop, piece)
    files = {each.name: each.file for each in now.files}
    change(inside.shop, BenchClock("other"), piece, COMMISSION + "[edition]\ncount = 9\n", files)
    answer = client.post(f"/api/pieces/{piece}/trial/keep")
    assert (answer.status_code, answer.json()["error"]["code"]) == (409, "piece-changed-meanwhile")
    assert piece_known(inside.shop, piece).plan.plan == now.plan.plan


def test_a_trial_is_not_written_into_the_piece_s_log(inside: Any, small_job: Job, piece: str, tmp_path: Path) -> None:
    made = plan_in(tmp_path / "made", small_job._replace(planned=replace(
        small_job.planned, plan=replace(small_job.planned.plan, count=7))))  # fmt: skip
    job = LongJob(JobId("a"), WorkKind.TRIAL, "", piece, {}, 0, result={"plan": made, "rough": False})
    before = piece_known(inside.shop, piece)
    settling(inside.shop, inside.settings)(job, tmp_path / "made" / "plans" / made)
    assert piece_known(inside.shop, piece) == before
    assert (inside.settings.data / "plans" / made / "plan.json").is_file()
