"""What is pressed while the Wi-Fi is gone is kept on the tablet and stands in the log once, in the presses' order; what
an over-pour asks for offline is what the desk says of it.

Expected entries are those that the test pressed, told by itself; targets are reckoned in the head from the small plan
of `tests/bench_plans.py`: B and A alike, 100.0 g of each.
"""

from __future__ import annotations

import re
import time
from collections.abc import Iterator
from dataclasses import replace
from datetime import UTC, datetime
from typing import Any

import pytest
from playwright.sync_api import Page, Route, expect
from tests.bench_plans import A, B, bench_plan
from tests.browser.bench_runs import MINUTE, at_coat, begin, events_of, there, until
from tests.browser.conftest import Opening, started
from tests.browser.desk_process import DeskProcess
from tests.browser.screens import PHONE, TABLET

from moldwright.log.any_events import Noted, Undone
from moldwright.log.event import Body
from moldwright.log.ids import RunId
from moldwright.log.run_events import ShopAir, Weighed
from moldwright.plan.mixes import MeasuredBy

KEPT_IDS = """new Promise((done) => {
  const opening = indexedDB.open('moldwright');
  opening.onsuccess = () => {
    const asked = opening.result.transaction('entries').objectStore('entries').getAll();
    asked.onsuccess = () => { done(asked.result.map((entry) => entry.event.id)); opening.result.close(); };
  };
})"""
AWAY_MS = 10 * MINUTE
LATER_MS = 20_000
"""More than `bench` puts a clock ahead of what the desk told it: what is pressed after it is later at the desk."""


@pytest.fixture(scope="module")
def own_desk(can_run: None, tmp_path_factory: pytest.TempPathFactory) -> Iterator[DeskProcess]:
    """A desk for the tests here that do not kill it; each has a run of its own."""
    yield from started(DeskProcess(tmp_path_factory.mktemp("outbox-desk")))


def bench(page: Page, run: RunId) -> Page:
    """The run on a page that was told how it goes on for a while: then the Wi-Fi may go. The page's clock is driven."""
    page.clock.install(time=datetime.fromtimestamp(time.time(), UTC))
    page.goto(f"/bench/{run}")
    expect(page.locator("[data-key=right]")).to_be_visible()
    page.clock.fast_forward(10_000)
    until(page, "Number(document.querySelector('mw-bench').dataset.ahead) > 3")
    return page


def offline(page: Page, gone: bool = True) -> None:
    page.context.set_offline(gone)


def waiting(page: Page) -> list[str]:
    """The entries that wait on the tablet, by their ids, the oldest first."""
    found: list[str] = page.evaluate(KEPT_IDS)
    return found


def kept(page: Page, count: int) -> None:
    """So many wait there: what was pressed is on the tablet's disk."""
    for _ in range(600):
        if len(waiting(page)) == count:
            return
        page.wait_for_timeout(10)
    raise AssertionError(f"{len(waiting(page))} wait, not {count}")


def settled(page: Page) -> None:
    """Everything is at the desk."""
    expect(page.locator("mw-tray [role=status]")).to_have_text("all kept", timeout=60_000)


def note(page: Page, text: str) -> None:
    page.locator("[data-key=more]").click()
    page.locator("[data-key^=aside-note]").click()
    page.locator("textarea").fill(text)
    page.locator("[data-key=take]").click()


def over(page: Page, reads: str) -> None:
    """The scale reads too much: typed on the pad."""
    page.locator("[data-key=over]").click()
    page.keyboard.type(reads)
    page.locator("[data-key=take]").click()


def since(desk: DeskProcess, run: RunId, before: int) -> list[tuple[str, Body]]:
    """What the desk keeps beyond what the test began with."""
    return events_of(desk, run)[before:]


class Answers:
    """What the desk answers to what was pressed; the first answer is lost on its way to the tablet."""

    def __init__(self, page: Page) -> None:
        self.lost = 0
        page.route("**/events*", self.take)

    def take(self, route: Route) -> None:
        if self.lost:
            route.continue_()
            return
        self.lost = 1
        route.fetch()
        route.abort()


@pytest.mark.parametrize("count", [12, pytest.param(200, marks=pytest.mark.slow)])
def test_ten_minutes_without_wifi_and_a_desk_that_is_killed_lose_nothing_and_double_nothing(
    desk: DeskProcess, open_page: Opening, count: int
) -> None:
    """Four presses go round: B is right, a line through it, two notes. The answer to the first sending is lost, so that
    what it held is sent twice."""
    run = begin(desk, at_coat())
    before = len(events_of(desk, run))
    page = bench(open_page(TABLET, desk, "/", service_workers="block"), run)
    offline(page)
    for number in range(count):
        if number == count // 2:
            desk.kill()
            desk.start()
        pressed(page, number)
        kept(page, number + 1)
    page.clock.fast_forward(AWAY_MS)
    told = re.compile(rf"No Wi-Fi for \d\d+ min\. {count} entries kept on this tablet")
    expect(page.locator("mw-tray [role=status]")).to_have_text(told)
    order = waiting(page)
    answers = Answers(page)
    offline(page, False)
    settled(page)
    came = since(desk, run, before)
    assert answers.lost == 1
    assert [id_ for id_, _ in came] == order
    assert [said(body) for _, body in came] == [meant(number, order) for number in range(count)]
    assert not waiting(page)


def pressed(page: Page, number: int) -> None:
    match number % 4:
        case 0:
            page.keyboard.press("Space")
        case 1:
            page.keyboard.press("Backspace")
        case _:
            note(page, f"note {number}")


def meant(number: int, ids: list[str]) -> Any:
    match number % 4:
        case 0:
            return B, 100.0
        case 1:
            return ids[number - 1]
        case _:
            return f"note {number}"


def said(body: Body) -> Any:
    match body:
        case Weighed():
            return body.part, body.mass_g
        case Undone():
            return body.event
        case Noted():
            return body.text
        case _:
            return body


def test_strike_out_offline_shows_the_screen_before(own_desk: DeskProcess, open_page: Opening) -> None:
    run = begin(own_desk, at_coat())
    page = bench(open_page(PHONE, own_desk, "/"), run)
    first = page.locator("h1").inner_text()
    offline(page)
    page.locator("[data-key=right]").click()
    expect(page.locator("h1")).not_to_have_text(first)
    page.locator("[data-key=strike]").click()
    expect(page.locator("h1")).to_have_text(first)
    offline(page, False)
    settled(page)
    expect(page.locator("h1")).to_have_text(first)


def test_an_over_pour_is_put_right_offline_as_the_desk_puts_it_right(own_desk: DeskProcess, open_page: Opening) -> None:
    """101.2 g of B ask for 101.2 g of A: with the trace of pigment the scale then reads 202.6 g."""
    seen = []
    for gone in (False, True):
        run = begin(own_desk, at_coat())
        page = bench(open_page(TABLET, own_desk, "/"), run)
        before = len(events_of(own_desk, run))
        if gone:
            offline(page)
        over(page, "101.2")
        expect(page.locator(".put-right h1")).to_contain_text("1.2 g too much")
        waits = page.locator(".way button small", has_text="What is next comes with the Wi-Fi")
        expect(waits).to_have_count(int(gone))
        ways = [line for line in page.locator(".put-right").inner_text().splitlines() if "Wi-Fi" not in line]
        page.locator(".way.best .do").click()
        page.locator("[data-key=right]").click()
        expect(page.locator(".bench-say .big")).to_contain_text("202.6")
        page.locator("[data-key=right]").click()
        expect(page.locator("[data-key=right]")).to_have_count(0)
        offline(page, False)
        settled(page)
        weighed = [body for _, body in since(own_desk, run, before) if isinstance(body, Weighed)]
        poured = [(body.part, round(body.mass_g, 1)) for body in weighed if body.part in (A, B)]
        assert poured == [(B, 101.2), (A, 101.2)]
        seen.append(ways)
    assert seen[0] == seen[1]


def aside(page: Page, press: str, text: str = "") -> None:
    """Something beside the work is pressed; what it asks for is typed, or left empty."""
    page.locator("[data-key=more]").click()
    expect(page.locator("button small", has_text="What is next comes with the Wi-Fi")).to_have_count(0)
    page.locator(f"[data-key^=aside-{press}]").click()
    if text:
        page.locator("textarea").fill(text)
    page.locator("[data-key=take]").click()


def screen(page: Page) -> list[str]:
    """What a screen says large, and what may be pressed on it."""
    expect(page.locator(".laid-over")).to_have_count(0)
    expect(page.locator(".acts > button").first).to_be_visible()
    large = page.locator("main h1, main .big").all_text_contents()
    return large + page.locator(".acts > button > span").all_inner_texts()


@pytest.mark.parametrize(("turn", "text", "then"), [("gelled", "", "100.0"), ("leave-out", "no rubber left", "")])
def test_the_work_turns_aside_offline_as_the_desk_tells_it(
    own_desk: DeskProcess, open_page: Opening, turn: str, text: str, then: str
) -> None:
    """All is in the coat's cup, and it gelled: 100.0 g of B go into the next; or its step is left out. What the tablet
    shows while the Wi-Fi is gone is what the desk tells of the same presses, made with it; the entries are the same."""
    seen = []
    for gone in (False, True):
        run = begin(own_desk, at_coat())
        page = open_page(PHONE, own_desk, "/" if gone else f"/bench/{run}")
        before, screens = len(events_of(own_desk, run)), []
        if gone:
            offline(bench(page, run))
        for count, press in enumerate(("right", "right", "right", turn, *(["right"] if then else [])), start=1):
            if press == turn:
                aside(page, press, text)
            else:
                page.locator(f"[data-key={press}]").click()
            if gone:
                kept(page, count)
            else:
                there(own_desk, run, before + count)
                page.reload()
            screens.append(screen(page))
        order = waiting(page)
        offline(page, False)
        settled(page)
        entries = since(own_desk, run, before)
        assert not gone or [id_ for id_, _ in entries] == order != []
        seen.append((screens, [type(body) for _, body in entries]))
    assert seen[0] == seen[1]
    assert then in "".join(seen[1][0][3])


def test_offline_one_pours_on_to_a_reading_that_was_told_of(own_desk: DeskProcess, open_page: Opening) -> None:
    """Far past the limit not every reading is told: what was read first is struck out by what it reads then."""
    run = begin(own_desk, at_coat())
    before = len(events_of(own_desk, run))
    page = bench(open_page(PHONE, own_desk, "/"), run)
    offline(page)
    over(page, "107.1")
    expect(page.locator("h1")).to_contain_text("Pour on up to")
    page.locator("[data-key=reads-now]").click()
    head = page.locator(".put-right h1").inner_text()
    offline(page, False)
    settled(page)
    expect(page.locator(".put-right h1")).to_have_text(head)
    first, line, then = since(own_desk, run, before)
    assert isinstance(first[1], Weighed)
    assert isinstance(line[1], Undone)
    assert isinstance(then[1], Weighed)
    assert (first[1].mass_g, line[1].event) == (107.1, first[0])
    assert then[1].mass_g > 107.1
    assert f"{then[1].mass_g - 100.0:.1f} g too much" in head


def test_offline_a_part_by_volume_is_short_then_whole(own_desk: DeskProcess, open_page: Opening) -> None:
    """100 g of A by a syringe of 95 ml: 40 ml are in, then all of it; the log has 100 g once."""
    plan = bench_plan(1)
    by = {A: MeasuredBy.SYRINGE}
    parts = tuple(replace(part, by=by.get(part.kind, part.by), volume_ml=95.0) for part in plan.mixes[0].parts)
    run = begin(own_desk, at_coat(), plan=replace(plan, mixes=(replace(plan.mixes[0], parts=parts), *plan.mixes[1:])))
    before = len(events_of(own_desk, run))
    page = bench(open_page(PHONE, own_desk, "/"), run)
    offline(page)
    for _ in range(2):
        page.locator("[data-key=right]").click()
    expect(page.locator(".bench-say .big")).to_contain_text("95")
    page.locator("[data-key=short]").click()
    page.keyboard.type("40")
    page.locator("[data-key=take]").click()
    expect(page.locator("main .more")).to_contain_text("40 ml in")
    page.locator("[data-key=right]").click()
    expect(page.locator("[data-key=right]")).to_have_count(0)
    offline(page, False)
    settled(page)
    entries = since(own_desk, run, before)
    struck = {body.event for _, body in entries if isinstance(body, Undone)}
    weighed = [body for id_, body in entries if isinstance(body, Weighed) and id_ not in struck]
    assert [body.mass_g for body in weighed if body.part is A] == [100.0]


def test_two_tablets_at_one_run_agree_whatever_was_pressed_offline(own_desk: DeskProcess, open_page: Opening) -> None:
    run = begin(own_desk, at_coat())
    before = len(events_of(own_desk, run))
    one, other = (bench(open_page(screen, own_desk, "/"), run) for screen in (TABLET, PHONE))
    for page in (one, other):
        offline(page)
    one.locator("[data-key=right]").click()
    note(other, "a hair in it")
    for page in (other, one):
        kept(page, 1)
        offline(page, False)
        settled(page)
    for page in (one, other):
        page.clock.fast_forward(10_000)
        expect(page.locator("h1")).to_contain_text("a trace on a clean stick")
    bodies = [body for _, body in since(own_desk, run, before)]
    assert {type(body) for body in bodies} == {Weighed, Noted}
    assert len(bodies) == 2


def test_one_pour_that_two_screens_told_counts_once_and_readings_that_differ_are_asked_about(
    own_desk: DeskProcess, open_page: Opening
) -> None:
    """One presses Right, 100.0 g of B; the other, offline, types 104.2 g for the same pour: it is 100.0 or 104.2 g."""
    run = begin(own_desk, at_coat())
    one, other = (bench(open_page(screen, own_desk, "/"), run) for screen in (TABLET, PHONE))
    offline(other)
    one.locator("[data-key=right]").click()
    settled(one)
    other.clock.fast_forward(LATER_MS)
    over(other, "104.2")
    kept(other, 1)
    offline(other, False)
    settled(other)
    expect(other.locator(".put-right .way h2")).to_contain_text(["100.0 g, by", "104.2 g, by"])
    other.locator("[data-key=second-stands-low]").click()
    expect(other.locator(".put-right h1")).to_contain_text("4.2 g too much")
    other.locator("[data-key=lift-out-low]").click()
    expect(other.locator("h1")).to_contain_text("a trace on a clean stick")
    for page, ahead_ms in ((one, 10_000), (other, 40_000)):
        expect(page.locator("h1")).to_contain_text("a trace on a clean stick")
        offline(page)
        page.clock.fast_forward(ahead_ms)
        page.locator("[data-key=right]").click()
        kept(page, 1)
    for page in (one, other):
        offline(page, False)
        settled(page)
    expect(other.locator(".noted")).to_contain_text("already written by")


def test_what_the_desk_refuses_is_shown_and_holds_nothing_else_up(own_desk: DeskProcess, open_page: Opening) -> None:
    """No shop's air has 999 degrees: it is refused when it comes there, with the limit; what was pressed after it is
    kept."""
    run = begin(own_desk, at_coat())
    before = len(events_of(own_desk, run))
    page = bench(open_page(PHONE, own_desk, "/"), run)
    offline(page)
    page.locator("[data-key=more]").click()
    page.locator("[data-key^=aside-air]").click()
    page.keyboard.type("999")
    page.locator("[data-key=take]").click()
    kept(page, 1)
    page.locator("[data-key=right]").click()
    kept(page, 2)
    offline(page, False)
    refusal = page.locator("mw-tray .error")
    expect(refusal).to_contain_text("999", timeout=60_000)
    bodies = [body for _, body in since(own_desk, run, before)]
    assert [type(body) for body in bodies] == [Weighed]
    assert not [body for body in bodies if isinstance(body, ShopAir)]
    refusal.locator("button").last.click()
    settled(page)
