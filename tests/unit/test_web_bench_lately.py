"""What is told to one device is told to the next that asks the same, as long as nothing was written."""

from __future__ import annotations

import json
from collections.abc import Iterator
from contextlib import closing
from dataclasses import replace
from pathlib import Path

import pytest
from tests.bench_plans import MINUTE, START, bench_plan

from moldwright.log.ids import LotId, RunId
from moldwright.log.lot_events import LotReceived, Stuff
from moldwright.log.run_events import Done
from moldwright.plan.ids import StepId
from moldwright.plan.json_text import tree_of
from moldwright.plan.needs import NeedUnit
from moldwright.records.clock import BenchClock
from moldwright.records.runs.place import BenchPlace
from moldwright.records.runs.start import start_run
from moldwright.records.runs.write import log
from moldwright.records.shop import Shop, open_shop
from moldwright.records.stock.keep import receive
from moldwright.web.pages.bench import lately
from moldwright.web.pages.bench.lately import KEPT_MS, AskedFor, ToldLately
from moldwright.web.words.said import speaker_of
from moldwright.words.speaker import spoken_by

TABLET, OTHER = "tablet 1", "tablet 2"
NOW = START + 70 * MINUTE
"""The release that was brushed on is dry."""


@pytest.fixture
def shop(tmp_path: Path) -> Iterator[Shop]:
    with closing(open_shop(str(tmp_path / "shop.db"))) as opened:
        yield opened


@pytest.fixture
def reckoned(monkeypatch: pytest.MonkeyPatch) -> list[RunId]:
    """The runs that were reckoned anew, one after the other."""
    runs, real = list[RunId](), lately.bench_told

    def counted(shop: Shop, run: RunId, now_ms: int, place: BenchPlace, presses: int, overs: int, turns: int) -> object:
        runs.append(run)
        return real(shop, run, now_ms, place, presses, overs, turns)

    monkeypatch.setattr(lately, "bench_told", counted)
    return runs


def begun(shop: Shop) -> RunId:
    """A run that is at the coat's cup."""
    plan = replace(bench_plan(1), needs=())
    run = start_run(shop, BenchClock("desk", "", lambda: START), json.dumps(tree_of(plan)), 1).id
    for minute, step in enumerate(("receive", "release"), start=1):
        done(shop, run, step, START + minute * MINUTE)
    return run


def done(shop: Shop, run: RunId, step: str, at_ms: int) -> None:
    log(shop, BenchClock(TABLET, "", lambda: at_ms), run, Done(StepId(step)))


def lot(shop: Shop) -> LotId:
    """100 g and more of the cup's first part."""
    came = LotReceived(Stuff("rubber", "B", "rubber B"), 5000.0, NeedUnit.GRAM, "2023-11-01", "new")
    return LotId(receive(shop, BenchClock("desk", "", lambda: START + 1500), came, "2023-11-14").shelf.lot.id)


def test_two_tablets_are_told_one_answer_each_with_what_it_may_strike_out(shop: Shop, reckoned: list[RunId]) -> None:
    run, told = begun(shop), ToldLately()
    asked = AskedFor(run, BenchPlace(), 3, 1)
    own = told.tree(shop, asked, TABLET, NOW + 2000)
    other = told.tree(shop, asked, OTHER, NOW + 2500)
    assert reckoned == [run]
    assert (own["now_ms"], other["now_ms"]) == (NOW + 2000, NOW + 2500)
    assert (own["strikes"]["text"], other["strikes"]) == ("step 2 is done", None)
    assert own["view"] == other["view"]


def test_what_is_written_a_lot_that_came_in_and_fifteen_seconds_have_it_reckoned_anew(
    shop: Shop, reckoned: list[RunId]
) -> None:
    run, told = begun(shop), ToldLately()
    asked = AskedFor(run, BenchPlace(), 3, 0)
    first = told.tree(shop, asked, OTHER, NOW + 2000)
    assert first["view"]["lots"] == []
    came = lot(shop)
    second = told.tree(shop, asked, OTHER, NOW + 2100)
    assert [each["id"] for each in second["view"]["lots"]] == [came]
    done(shop, run, "coat-1-mix", NOW + 2150)
    third = told.tree(shop, asked, OTHER, NOW + 2200)
    assert third["mark"] != second["mark"]
    assert third["view"]["act"] != second["view"]["act"]
    told.tree(shop, asked, OTHER, NOW + 2200 + KEPT_MS - 1)
    assert len(reckoned) == 3
    told.tree(shop, asked, OTHER, NOW + 2200 + KEPT_MS)
    assert len(reckoned) == 4


def test_another_place_another_length_and_another_language_are_told_their_own(
    shop: Shop, reckoned: list[RunId]
) -> None:
    run, told = begun(shop), ToldLately()
    asked = AskedFor(run, BenchPlace(), 3, 0)
    english = told.tree(shop, asked, OTHER, NOW + 2000)
    assert len(told.tree(shop, replace(asked, presses=5), OTHER, NOW + 2000)["ahead"]) == 5
    aside = replace(asked, place=BenchPlace(passed=frozenset({(StepId("release"), 0, "weight")})))
    told.tree(shop, aside, OTHER, NOW + 2000)
    with spoken_by(speaker_of("de")):
        german = told.tree(shop, asked, OTHER, NOW + 2000)
    assert german["view"]["say"] != english["view"]["say"]
    assert len(reckoned) == 4
