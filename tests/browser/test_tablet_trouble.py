"""What goes wrong around the outbox costs no entry and hides no screen: a call that is refused as a whole, a photo that
is too large, a device that keeps nothing, pages that were kept for an earlier version.

Expected are the entries that the test pressed; statuses are those of RFC 9110, 15.5.14, 15.5.21 and 15.6.1.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import pytest
from playwright.sync_api import Page, Route, expect
from tests.bench_plans import B
from tests.browser.bench_runs import at_coat, begin, events_of, until
from tests.browser.conftest import Opening, started
from tests.browser.desk_process import DeskProcess
from tests.browser.screens import TABLET

from moldwright.log.ids import RunId
from moldwright.log.run_events import Weighed

BROKEN_DISK = """
window.broken = true;
const real = IDBFactory.prototype.open;
IDBFactory.prototype.open = function (...asked) {
  if (window.broken) throw new DOMException("no disk", "UnknownError");
  return real.apply(this, asked);
};
"""
EARLIER = """async (path) => {
  const pages = await caches.open("bench pages");
  await pages.put(path, new Response("of an earlier version"));
  await pages.put("/bench/none", new Response("of a run that is no more"));
  await navigator.serviceWorker.register("/worker.js", { scope: "/", updateViaCache: "none" });
}"""
"""What an earlier version left, and a worker that comes in place of its own."""
PHOTO = {"name": "cup.jpg", "mimeType": "image/jpeg", "buffer": b"\xff\xd8\xff\xe0 a cup"}


@pytest.fixture(scope="module")
def own_desk(can_run: None, tmp_path_factory: pytest.TempPathFactory) -> Iterator[DeskProcess]:
    """A desk for all tests here; each has a run of its own."""
    yield from started(DeskProcess(tmp_path_factory.mktemp("trouble-desk")))


def refusal(status: int) -> dict[str, Any]:
    """An answer as the desk refuses a call."""
    error = {"family": "InputRefused", "code": "some", "actual": "a", "limit": "b", "unit": "", "remedy": "Look."}
    return {"status": status, "json": {"error": error, "said": {"found": "a", "wanted": "b"}}}


def weighed(desk: DeskProcess, run: RunId) -> list[Weighed]:
    return [body for _, body in events_of(desk, run) if isinstance(body, Weighed)]


def kept(page: Page, desk: DeskProcess, run: RunId) -> None:
    """The part that was pressed stands in the log, once."""
    for _ in range(800):
        if there := weighed(desk, run):
            break
        page.wait_for_timeout(50)
    assert [each.part for each in there] == [B]


def test_a_call_that_is_refused_as_a_whole_is_sent_entry_by_entry(
    own_desk: DeskProcess, open_page: Opening, page_errors: list[str]
) -> None:
    run = begin(own_desk, at_coat())
    page = open_page(TABLET, own_desk, f"/bench/{run}", service_workers="block")

    def refusing(route: Route) -> None:
        if "?" in route.request.url:
            route.fulfill(**refusal(422))
        else:
            route.continue_()

    page.route("**/api/bench/*/events*", refusing)
    page.locator("[data-key=right]").click()
    kept(page, own_desk, run)
    expect(page.locator("mw-tray .error")).to_have_count(0)
    page_errors.clear()


@pytest.mark.parametrize("status", [413, 500])
def test_a_photo_that_cannot_be_taken_keeps_nothing_behind_it_waiting(
    own_desk: DeskProcess, open_page: Opening, page_errors: list[str], status: int
) -> None:
    """It is too large, or the desk fails at it each time."""
    run = begin(own_desk, at_coat())
    page = open_page(TABLET, own_desk, f"/bench/{run}", service_workers="block")
    page.route("**/api/files*", lambda route: route.fulfill(**refusal(status)))
    page.locator("[data-key=more]").click()
    page.locator("input[data-key=photo]").set_input_files(PHOTO)
    page.locator("[data-key=right]").click()
    kept(page, own_desk, run)
    expect(page.locator("mw-tray .error")).to_have_count(1)
    page_errors.clear()


def test_a_device_that_keeps_nothing_shows_the_bench_and_says_so(own_desk: DeskProcess, open_page: Opening) -> None:
    run = begin(own_desk, at_coat())
    page = open_page(TABLET, own_desk, "/", service_workers="block")
    page.add_init_script(BROKEN_DISK)
    page.goto(f"/bench/{run}")
    page.locator("[data-key=right]").click()
    expect(page.locator("mw-bench .refused")).to_be_visible()
    assert not weighed(own_desk, run)
    page.evaluate("window.broken = false")
    page.locator("[data-key=right]").click()
    kept(page, own_desk, run)


def test_pages_that_were_kept_for_an_earlier_version_are_asked_for_anew(
    own_desk: DeskProcess, open_page: Opening
) -> None:
    run = begin(own_desk, at_coat())
    page = open_page(TABLET, own_desk, f"/bench/{run}")
    until(page, "navigator.serviceWorker.ready.then(() => true)")
    page.evaluate("navigator.serviceWorker.getRegistration().then((it) => it.unregister())")
    page.goto("about:blank")
    page.goto("/")
    page.evaluate(EARLIER, f"/bench/{run}")
    until(page, f"caches.match('/bench/{run}').then((it) => it.text()).then((it) => it.includes('mw-bench'))")
    until(page, "caches.match('/bench/none').then((it) => it === undefined)")
