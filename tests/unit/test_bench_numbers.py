"""A number as it is typed at the bench: given for good, so what is no number gives none."""

from __future__ import annotations

from datetime import datetime

from conftest import Job

from moldwright.bench.acts import Act
from moldwright.bench.boxes import BoxOf, box_of
from moldwright.desk.bench_session import BenchSession
from moldwright.records.clock import BenchClock
from moldwright.records.editions.open import open_edition
from moldwright.records.editions.read import edition as edition_now
from moldwright.records.runs.next_act import Press
from moldwright.records.runs.start import start_run
from moldwright.records.shop import Shop
from moldwright.sheets.plan_text import plan_text

NINE = int(datetime(2026, 11, 2, 9, 0).timestamp() * 1000)


def test_a_number_is_given_as_it_is_typed_or_not_at_all(shop: Shop, small_job: Job) -> None:
    plan, clock = small_job.planned.plan, BenchClock("tablet 1", "", lambda: NINE)
    edition = open_edition(shop, clock, "figure", 24, 2)
    session = BenchSession(shop, clock, start_run(shop, clock, plan_text(plan), 2, edition=edition.id).id)
    step = next(step for step in plan.steps if any(box_of(line) is BoxOf.NUMBER for line in step.write))

    def typed(text: str) -> str:
        return "\n".join(session.take(text))

    session.turn_to(Act(step.id, 1))
    assert session.next.press is Press.NUMBER
    for unclear in ("7.5", "7 kg", "ap seven", "seven"):
        assert typed(unclear).startswith("Not written: "), unclear
    assert edition_now(shop, edition.id).pieces == ()
    assert "cast 1 is 7/24" in typed("7/24")
    session.turn_to(Act(step.id, 2))
    assert "cast 2 is proof 2/2" in typed("ap 2/2")
    assert [piece.number for piece in edition_now(shop, edition.id).pieces] == [7, 2]
