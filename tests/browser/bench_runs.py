"""Runs for tests at the bench: of the small plan that is reckoned in the head, begun as long ago as it takes."""

from __future__ import annotations

import time
from collections.abc import Sequence

from bench_plans import COAT_CUP, SKIN_CUP, A, B, bench_plan
from playwright.sync_api import Page
from tests.browser.desk_process import DeskProcess

from moldwright.log.event import About, Body
from moldwright.log.ids import RunId
from moldwright.log.run_events import CupRef, Done, Weighed
from moldwright.plan.ids import StepId
from moldwright.plan.json_text import plan_to_json
from moldwright.plan.plan import Plan
from moldwright.records.clock import BenchClock
from moldwright.records.runs.start import start_run
from moldwright.records.shop import Shop, open_shop

SECOND, MINUTE, HOUR = 1000, 60_000, 3_600_000
COAT, SKIN = CupRef(COAT_CUP), CupRef(SKIN_CUP, 1)
Then = tuple[int, Body]
"""So many milliseconds ago, and what happened."""


def now_ms() -> int:
    return time.time_ns() // 1_000_000


def store(desk: DeskProcess) -> Shop:
    """The desk's own records, opened beside it."""
    return open_shop(str(desk.home / "shop.db"), desk.home / "files")


def begin(desk: DeskProcess, then: Sequence[Then] = (), casts: int = 1, plan: Plan | None = None) -> RunId:
    """A run that began two days ago, with what happened since."""
    shop = store(desk)
    past = [now_ms() - 48 * HOUR]
    clock = BenchClock("desk", now=lambda: past[0])
    run = start_run(shop, clock, plan_to_json(plan or bench_plan(casts)), casts)
    for ago_ms, body in then:
        past[0] = now_ms() - ago_ms
        shop.append([clock.event(About.RUN, run.id, body)])
    shop.close()
    return run.id


def done(ago_ms: int, *steps: str, turn: int = 0) -> list[Then]:
    """Steps that were done, one after the other, the last so long ago."""
    return [(ago_ms + 10 * (len(steps) - n), Done(StepId(step), turn)) for n, step in enumerate(steps, start=1)]


def at_coat() -> list[Then]:
    """All before the first cup is done: 100.0 g of B is asked for next."""
    return done(30 * HOUR, "receive", "release")


def coat_met(ago_ms: int) -> list[Then]:
    """The coat's cup, its parts met so long ago: within 30 min from then on it must be on the work."""
    weighed = [(B, 100.0), (A, 100.0)]
    return at_coat() + [
        (ago_ms + 20 - n, Weighed(COAT, kind, mass, mass)) for n, (kind, mass) in enumerate(weighed, 19)
    ]


def until(page: Page, expression: str) -> None:
    """Wait until the page says yes. The page's own policy lets no text become code there, so it is asked from here."""
    for _ in range(600):
        if page.evaluate(expression):
            return
        page.wait_for_timeout(50)
    raise AssertionError(f"never: {expression}")


def events_of(desk: DeskProcess, run: RunId) -> list[tuple[str, Body]]:
    """What the desk keeps of a run, in its order."""
    shop = store(desk)
    try:
        return [(event.id, event.body) for event in shop.events_of(run)]
    finally:
        shop.close()


def there(desk: DeskProcess, run: RunId, count: int) -> None:
    """So many entries are at the desk."""
    for _ in range(600):
        if len(events_of(desk, run)) == count:
            return
        time.sleep(0.05)
    raise AssertionError(f"{len(events_of(desk, run))} are there, not {count}")
