"""The bench's clocks go by the server's time: over a reload, a killed server, a sleep, a wrong clock, on every device.

What they must show is reckoned from the entries by hand: parts met, 30 minutes to the work (`bench_runs.coat_met`).
"""

from __future__ import annotations

import ssl
import time
from base64 import b64encode
from datetime import UTC, datetime
from hashlib import sha256
from pathlib import Path
from typing import Any

import pytest
from cryptography import x509
from cryptography.hazmat.primitives.serialization import Encoding, PublicFormat
from playwright.sync_api import BrowserType, Page, expect
from tests.browser.bench_runs import MINUTE, SECOND, begin, coat_met, events_of, now_ms, store, until
from tests.browser.conftest import Opening
from tests.browser.desk_process import DeskProcess
from tests.browser.screens import PHONE, TABLET

from moldwright.log.ids import RunId
from moldwright.log.run_events import Weighed

WITHIN_S = 1.0
TO_THE_WORK_MS = 30 * MINUTE
BY_MIN = [pytest.param(-10, marks=pytest.mark.slow), 10]


def met_ms(desk: DeskProcess, run: RunId) -> int:
    """When the parts met, as the records have it."""
    shop = store(desk)
    try:
        return max(event.at_ms for event in shop.events_of(run) if isinstance(event.body, Weighed))
    finally:
        shop.close()


def shown_s(page: Page) -> float:
    """What the first clock shows [s]; past its end it is negative."""
    text = page.locator(".bench-clock .left").first.evaluate("it => it.firstChild.textContent").strip()
    sign = -1.0 if text.startswith("+") else 1.0
    minutes, seconds = text.lstrip("+").split(":")
    return sign * (60.0 * int(minutes) + int(seconds))


def right(page: Page, by_ms: int) -> None:
    """It shows what is left by this machine's clock, within a second; whole seconds are shown, and time passes while
    it is read."""
    expect(page.locator(".bench-clock").first).to_be_visible()
    before = now_ms()
    seen = shown_s(page)
    after = now_ms()
    most, least = (by_ms - before) / 1000.0, (by_ms - after) / 1000.0
    assert least - 1.0 - WITHIN_S <= seen <= most + WITHIN_S


@pytest.fixture
def run(desk: DeskProcess) -> RunId:
    return begin(desk, coat_met(2 * MINUTE))


def test_a_clock_shows_the_same_everywhere_and_over_a_reload(desk: DeskProcess, run: RunId, open_page: Opening) -> None:
    by_ms = met_ms(desk, run) + TO_THE_WORK_MS
    first, second = (open_page(screen, desk, f"/bench/{run}") for screen in (TABLET, PHONE))
    right(first, by_ms)
    right(second, by_ms)
    first.reload()
    right(first, by_ms)


@pytest.mark.parametrize("off_min", BY_MIN)
def test_a_tablet_s_wrong_clock_changes_nothing(
    desk: DeskProcess, run: RunId, open_page: Opening, off_min: int
) -> None:
    by_ms = met_ms(desk, run) + TO_THE_WORK_MS
    page = open_page(TABLET, desk, "/")
    wrong = datetime.fromtimestamp(time.time() + 60 * off_min, UTC)
    page.clock.install(time=wrong)
    page.goto(f"/bench/{run}")
    measured(page)
    assert abs(page.evaluate("Date.now()") - now_ms()) > 9 * MINUTE
    right(page, by_ms)
    page.reload()
    measured(page)
    right(page, by_ms)


def measured(page: Page) -> None:
    """The server was asked for its time since this page was loaded; what an earlier one kept may be another clock's."""
    until(page, "document.documentElement.dataset.time === 'measured'")
    expect(page.locator(".bench-clock").first).to_be_visible()


JUMP = "ms => { const real = Date.now; Date.now = () => real() + ms; }"


def test_a_clock_that_is_set_back_while_one_looks_changes_nothing(
    desk: DeskProcess, run: RunId, open_page: Opening
) -> None:
    """Without a server to ask: the browser's steady clock is believed."""
    by_ms = met_ms(desk, run) + TO_THE_WORK_MS
    page = open_page(TABLET, desk, f"/bench/{run}")
    measured(page)
    desk.kill()
    page.evaluate(JUMP, -10 * MINUTE)
    page.wait_for_timeout(600)
    right(page, by_ms)


def test_a_sleep_before_somebody_s_eyes_is_counted_and_in_doubt_until_the_desk_has_told(
    desk: DeskProcess, run: RunId, open_page: Opening
) -> None:
    """The page was never hidden: five minutes of sleep look like a clock set forward. A cup's time is told too short
    rather than too long; here it was a clock that was set, and the desk tells the right time."""
    by_ms = met_ms(desk, run) + TO_THE_WORK_MS
    page = open_page(TABLET, desk, f"/bench/{run}")
    measured(page)
    desk.kill()
    page.evaluate(JUMP, 5 * MINUTE)
    clock = page.locator(".bench-clock").first
    expect(clock).to_contain_text("the desk is asked")
    right(page, by_ms - 5 * MINUTE)
    desk.start()
    expect(clock).not_to_contain_text("the desk is asked", timeout=30_000)
    right(page, by_ms)


def test_a_sleep_is_counted_though_the_steady_clock_stood_still(
    desk: DeskProcess, run: RunId, open_page: Opening
) -> None:
    by_ms = met_ms(desk, run) + TO_THE_WORK_MS
    page = open_page(TABLET, desk, f"/bench/{run}")
    measured(page)
    desk.kill()
    page.evaluate(HIDE, True)
    page.evaluate("ms => { const real = Date.now; Date.now = () => real() + ms; }", 5 * MINUTE)
    page.evaluate(HIDE, False)
    page.wait_for_timeout(400)
    right(page, by_ms - 5 * MINUTE)


HIDE = """(hidden) => {
  Object.defineProperty(document, 'hidden', {configurable: true, get: () => hidden});
  document.dispatchEvent(new Event('visibilitychange'));
}"""


def test_a_server_that_was_killed_and_started_again_tells_the_same_time(
    desk: DeskProcess, run: RunId, open_page: Opening
) -> None:
    by_ms = met_ms(desk, run) + TO_THE_WORK_MS
    page = open_page(TABLET, desk, f"/bench/{run}")
    right(page, by_ms)
    desk.kill()
    right(page, by_ms)
    desk.start()
    right(page, by_ms)
    page.reload()
    right(page, by_ms)


def test_a_reload_without_a_server_goes_on(desk: DeskProcess, run: RunId, open_page: Opening) -> None:
    by_ms = met_ms(desk, run) + TO_THE_WORK_MS
    page = open_page(TABLET, desk, f"/bench/{run}")
    kept_for_offline(page)
    desk.kill()
    page.reload()
    right(page, by_ms)


def test_a_tablet_that_trusts_the_desk_reloads_over_https_without_it(
    can_run: None, tmp_path: Path, browser_type: BrowserType, browser_type_launch_args: dict[str, Any]
) -> None:
    """A worker is for secure pages alone (Service Workers, W3C, 3.1: a certificate that is not trusted gives none).
    What the tablet trusts here is this certificate's key, told by its hash, in place of the authority."""
    desk = DeskProcess(tmp_path / "desk", "--https")
    desk.start()
    try:
        run = begin(desk, coat_met(2 * MINUTE))
        by_ms = met_ms(desk, run) + TO_THE_WORK_MS
        trusting = f"--ignore-certificate-errors-spki-list={key_hash(desk)}"
        launch = browser_type_launch_args | {"args": [*browser_type_launch_args["args"], trusting]}
        with browser_type.launch(**launch) as tablet, tablet.new_context(base_url=desk.address) as context:
            page = context.new_page()
            page.goto(f"/bench/{run}")
            assert page.url.startswith("https://")
            kept_for_offline(page)
            measured(page)
            desk.kill()
            context.set_offline(True)
            page.reload()
            right(page, by_ms)
    finally:
        desk.kill()


def key_hash(desk: DeskProcess) -> str:
    """SHA-256 of the key in the certificate that it shows (RFC 7469, 2.4)."""
    port = int(desk.address.rpartition(":")[2])
    shown = x509.load_pem_x509_certificate(ssl.get_server_certificate(("127.0.0.1", port)).encode())
    key = shown.public_key().public_bytes(Encoding.DER, PublicFormat.SubjectPublicKeyInfo)
    return b64encode(sha256(key).digest()).decode()


def kept_for_offline(page: Page) -> None:
    """The worker has this page: it was loaded once more since the worker took over."""
    page.evaluate("navigator.serviceWorker.ready.then(() => true)")
    until(page, "navigator.serviceWorker.controller !== null")
    page.reload()
    until(page, "caches.open('bench pages').then(it => it.match(location.pathname)).then(it => !!it)")


def test_past_its_end_it_counts_up_and_says_what_to_do(desk: DeskProcess, open_page: Opening) -> None:
    late = begin(desk, coat_met(TO_THE_WORK_MS + 42 * SECOND))
    page = open_page(PHONE, desk, f"/bench/{late}")
    clock = page.locator(".bench-clock").first
    expect(clock).to_have_attribute("data-stage", "past")
    assert shown_s(page) <= -42.0
    expect(clock).to_contain_text("Use no more of it, let it set.")


def test_the_last_fifth_turns_and_knocks_twice_then_the_end_thrice_until_somebody_presses(
    desk: DeskProcess, open_page: Opening
) -> None:
    """Of 30 min the last fifth begins at 6:00. The page's own clock is driven; no knock is heard by ears here."""
    run = begin(desk, coat_met(23 * MINUTE))
    page = open_page(TABLET, desk, "/")
    page.clock.install(time=datetime.fromtimestamp(time.time(), UTC))
    page.goto(f"/bench/{run}")
    measured(page)
    desk.kill()
    page.evaluate("window.knocks = []; document.addEventListener('knock', it => window.knocks.push(it.detail))")
    page.clock.fast_forward(70 * SECOND)
    expect(page.locator(".bench-clock").first).to_have_attribute("data-stage", "last fifth")
    assert page.evaluate("window.knocks") == ["last fifth"]
    page.clock.fast_forward(6 * MINUTE)
    expect(page.locator(".bench-clock").first).to_have_attribute("data-stage", "past")
    assert page.evaluate("window.knocks") == ["last fifth", "end"]
    page.clock.fast_forward(31 * SECOND)
    assert page.evaluate("window.knocks") == ["last fifth", "end", "end"]
    page.locator(".bench-clock").first.click()
    page.clock.fast_forward(65 * SECOND)
    assert page.evaluate("window.knocks") == ["last fifth", "end", "end"]


def test_the_entries_of_the_run_are_those_that_were_written(desk: DeskProcess, run: RunId) -> None:
    assert sum(isinstance(body, Weighed) for _, body in events_of(desk, run)) == 2
