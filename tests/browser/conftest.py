"""What the tests in a browser share: the real desk in its process, pages at three sizes, and what a page complains of.

`desk` is a desk of the test's own, which may be killed and started again; `shared_desk` is one for all tests of a
process that only look. `open_page(SCREEN, desk)` gives a page; at the test's end a page that threw an error or was
stopped by its policy of scripts fails the test, unless the test cleared `page_errors`.

A browser holds an event loop in the tests' thread until the process ends: no test here calls `asyncio.run` itself.
"""

from __future__ import annotations

import os
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import BrowserContext, ConsoleMessage, Page
from tests.browser.chromium import LAUNCH, NEEDED, lacking
from tests.browser.desk_process import DeskProcess
from tests.browser.screens import DESKTOP, PHONE, TABLET, Screen

Opening = Callable[..., Page]


@pytest.fixture(scope="session", autouse=True)
def can_run() -> None:
    """Skipped, with what is lacking, where there is no browser or no bundle; a failure where one is asked for."""
    if why := lacking():
        if os.environ.get(NEEDED):
            pytest.fail(f"{why}; {NEEDED} asks for it", pytrace=False)
        pytest.skip(f"not run in a browser: {why}")


@pytest.fixture(scope="session")
def browser_type_launch_args(browser_type_launch_args: dict[str, Any], can_run: None) -> dict[str, Any]:
    """Debian's browser; no other is fetched."""
    return {**browser_type_launch_args, **LAUNCH}


@pytest.fixture(scope="session")
def base_url() -> None:
    """Each page is told its desk's own; in place of the plugin's, which newer versions of pytest warn of."""


@pytest.fixture(scope="session")
def shared_desk(can_run: None, tmp_path_factory: pytest.TempPathFactory) -> Iterator[DeskProcess]:
    """A desk for tests that change nothing."""
    yield from started(DeskProcess(tmp_path_factory.mktemp("shared-desk")))


@pytest.fixture
def desk(can_run: None, tmp_path: Path) -> Iterator[DeskProcess]:
    """A desk of the test's own, with empty records."""
    yield from started(DeskProcess(tmp_path / "desk"))


def started(made: DeskProcess) -> Iterator[DeskProcess]:
    """The desk while a test needs it."""
    made.start()
    try:
        yield made
    finally:
        made.kill()


@pytest.fixture
def page_errors() -> list[str]:
    """What pages complained of; whoever expects a complaint clears it."""
    return []


@pytest.fixture
def open_page(new_context: Callable[..., BrowserContext], page_errors: list[str]) -> Iterator[Opening]:
    """`open_page(screen, desk, path="/", look="light", **more)`: a device of its own, with its own cookies."""

    def opening(screen: Screen, desk: DeskProcess, path: str = "/", look: str = "light", **more: Any) -> Page:
        context = new_context(**{**screen.context(look), "base_url": desk.address, **more})
        page = context.new_page()
        page.on("pageerror", lambda error: page_errors.append(str(error)))
        page.on("console", lambda message: complaint(message, page_errors))
        page.goto(path)
        return page

    yield opening
    assert not page_errors


UNREACHED = ("ERR_", "An unknown error occurred when fetching the script.")
"""What Chromium says where nobody answers; the second of the service worker, asked for while its desk is killed."""


def complaint(message: ConsoleMessage, into: list[str]) -> None:
    """What a page says as an error counts; that it could not reach the server is told by the test itself."""
    if message.type == "error" and not any(said in message.text for said in UNREACHED):
        into.append(message.text)


@pytest.fixture
def phone(open_page: Opening, desk: DeskProcess) -> Page:
    """Today on a phone."""
    return open_page(PHONE, desk)


@pytest.fixture
def tablet(open_page: Opening, desk: DeskProcess) -> Page:
    """Today on a tablet."""
    return open_page(TABLET, desk)


@pytest.fixture
def desktop(open_page: Opening, desk: DeskProcess) -> Page:
    """Today on a screen."""
    return open_page(DESKTOP, desk)
