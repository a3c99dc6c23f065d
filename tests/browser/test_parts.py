"""The parts that all pages share, in every state and look, under the desk's policy of scripts and styles.

Source: WCAG 2.2 (W3C) by axe-core; the sizes of what is pressed: the design's.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator

import pytest
from playwright.sync_api import BrowserContext, Page
from tests.browser.axe import barriers
from tests.browser.conftest import complaint
from tests.browser.measures import double_text, sideways, too_small
from tests.browser.parts_page import LOOKS, open_parts
from tests.browser.screens import FROM_PHONE, PHONE, TABLET, Screen

NEAR_PX, BENCH_PX = 48, 64
Showing = Callable[[Screen, str], Page]


@pytest.fixture
def parts(new_context: Callable[..., BrowserContext], page_errors: list[str]) -> Iterator[Showing]:
    """`parts(screen, look)` shows them; whatever the policy stops fails the test."""

    def showing(screen: Screen, look: str) -> Page:
        page = new_context(**screen.context()).new_page()
        page.on("console", lambda message: complaint(message, page_errors))
        open_parts(page, look)
        return page

    yield showing
    assert not page_errors


@pytest.mark.parametrize("look", LOOKS)
def test_nobody_is_barred(parts: Showing, look: str) -> None:
    assert not barriers(parts(PHONE, look))


@pytest.mark.parametrize("screen", FROM_PHONE)
def test_what_is_pressed_is_large_and_nothing_scrolls_sideways(parts: Showing, screen: Screen) -> None:
    page = parts(screen, "light")
    assert not too_small(page, NEAR_PX)
    assert not sideways(page)
    double_text(page)
    assert not sideways(page)


def test_at_the_bench_a_knuckle_finds_what_it_presses(parts: Showing) -> None:
    page = parts(TABLET, "light")
    for act in page.locator(".bench button").all():
        box = act.bounding_box()
        assert box is not None
        assert min(box["width"], box["height"]) >= BENCH_PX


def test_a_phone_s_bar_leads_to_every_place(parts: Showing) -> None:
    page = parts(PHONE, "light")
    bar = page.locator("nav.places")
    assert bar.get_by_role("link").all_inner_texts() == ["Today", "Take in", "Days", "Shelf"]
    bar.get_by_text("More").tap()
    assert bar.get_by_role("link", name="Editions").is_visible()
    assert not too_small(page, NEAR_PX)
    assert not sideways(page)


def test_a_figure_is_read_out_whole_and_a_timer_is_named(parts: Showing) -> None:
    page = parts(PHONE, "light")
    assert page.get_by_role("timer", name="Past: feel the cup: +0:42").count() == 1
    assert page.get_by_role("img", name="Right: 82.8 g of 82.0 to 83.6 g").count() == 1
    assert page.get_by_role("progressbar").get_attribute("aria-valuenow") == "62"


def test_focus_is_four_pixels_wide(parts: Showing) -> None:
    page = parts(PHONE, "light")
    for name in ("Stop it", "Keep this plan"):
        page.get_by_role("button", name=name).focus()
        page.keyboard.press("Shift+Tab")
        page.keyboard.press("Tab")
        width = page.evaluate("getComputedStyle(document.activeElement).outlineWidth")
        assert (page.evaluate("document.activeElement.textContent"), width) == (name, "4px")
