"""No question that is asked often reads the whole table of events: SQLite tells how it would look."""

from __future__ import annotations

from collections.abc import Callable
from contextlib import closing
from pathlib import Path

import pytest
from sqlalchemy import event as hooks
from store_events import RUN, notes

from moldwright.log.event import About
from moldwright.log.ids import LotId
from moldwright.records.find import find
from moldwright.records.shop import Shop, open_shop
from moldwright.records.stock.weighed import weighed_since

LOT = LotId(RUN)


def summed(shop: Shop) -> object:
    with shop.reading() as connection:
        return weighed_since(connection, {LOT: (5, "")})


@pytest.mark.parametrize(
    "ask",
    [
        lambda shop: shop.events_of(RUN),
        lambda shop: shop.events_about(About.RUN, ["started"]),
        lambda shop: shop.events_about(About.LOT, ["lot-received", "lot-opened"]),
        lambda shop: shop.last_ms("tablet 1"),
        lambda shop: find(shop, About.RUN, RUN),
        summed,
        lambda shop: shop.append(notes(1)),
    ],
    ids=["events_of", "started", "lots", "last_ms", "find", "stock", "append"],
)
def test_no_question_scans_the_events(tmp_path: Path, ask: Callable[[Shop], object]) -> None:
    asked: list[tuple[str, object]] = []
    with closing(open_shop(str(tmp_path / "shop.db"))) as shop:
        shop.append(notes(1, "tablet 2"))
        hooks.listen(shop.engine, "before_cursor_execute", lambda *given: asked.append((given[2], given[3])))
        ask(shop)
        plans = [row for order, values in list(asked) for row in plan_of(shop, order, values)]
    assert asked
    scans = [each for each in plans if each.startswith("SCAN event") and "USING" not in each]
    assert not scans, plans


def plan_of(shop: Shop, order: str, values: object) -> list[str]:
    raw = shop.engine.raw_connection()
    try:
        first = values[0] if isinstance(values, list) else values
        return [row[3] for row in raw.cursor().execute(f"EXPLAIN QUERY PLAN {order}", first)]
    finally:
        raw.close()


def test_the_rule_can_fail(tmp_path: Path) -> None:
    with closing(open_shop(str(tmp_path / "shop.db"))) as shop:
        (plan,) = plan_of(shop, "SELECT * FROM event WHERE body LIKE '%bronze%'", ())
    assert plan.startswith("SCAN event")
