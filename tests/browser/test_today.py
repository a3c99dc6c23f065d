"""Today and the wall: clocks go on by the desk's time, and what another device writes is told there.

Source: common practice, no source; the plan of `bench_plans` is reckoned in the head: a cup is laid within 30 min.
"""

from __future__ import annotations

from bench_plans import B
from tests.browser.bench_runs import COAT, MINUTE, at_coat, begin, coat_met, store, until
from tests.browser.conftest import Opening
from tests.browser.desk_process import DeskProcess
from tests.browser.screens import PHONE, TABLET

from moldwright.log.event import About
from moldwright.log.run_events import Weighed
from moldwright.records.clock import BenchClock

SEEN = "document.dispatchEvent(new Event('visibilitychange'))"
LEFT = "document.querySelector('.clock .left').textContent"


def test_a_cup_s_clock_counts_down_on_today(open_page: Opening, desk: DeskProcess) -> None:
    begin(desk, coat_met(10 * MINUTE))
    page = open_page(PHONE, desk)
    until(page, f"{LEFT} < '20:00'")
    before = page.evaluate(LEFT)
    until(page, f"{LEFT} < '{before}'")
    minutes, seconds = map(int, before.split(":"))
    assert 15 * 60 < minutes * 60 + seconds < 20 * 60


def test_the_wall_tells_what_another_device_did(open_page: Opening, desk: DeskProcess) -> None:
    run = begin(desk, at_coat())
    page = open_page(TABLET, desk, "/wall")
    assert page.locator(".next").inner_text() == "Pour B up to 100.0 g"
    shop = store(desk)
    clock = BenchClock("another tablet")
    shop.append([clock.event(About.RUN, run, Weighed(COAT, B, 100.0, 100.0))])
    shop.close()
    until(page, f"({SEEN}, !document.querySelector('.next').textContent.includes('Pour B'))")
    smallest = page.evaluate("parseFloat(getComputedStyle(document.querySelector('.next')).fontSize)")
    assert smallest >= 52
