"""Molds, editions and a piece's records in the browser: nobody is barred, the keyboard is enough, the second is told.

Source: WCAG 2.2 (W3C) by axe-core; 48 px is the design's own. Numbers given twice: `docs/molds-and-editions.md`.
"""

from __future__ import annotations

from collections.abc import Iterator
from io import BytesIO

import pytest
from PIL import Image
from playwright.sync_api import FilePayload, Page, expect
from tests.browser.axe import barriers_in_both_looks
from tests.browser.conftest import Opening, started
from tests.browser.desk_process import DeskProcess
from tests.browser.measures import double_text, sideways, too_small
from tests.browser.screens import DESKTOP, FROM_PHONE, PHONE, Screen
from tests.browser.shop_scene import Scene, scene

expect.set_options(timeout=60_000)
LEAST_PX = 48
PNG = BytesIO()
Image.new("RGB", (32, 24), "gray").save(PNG, "PNG")
PHOTO: FilePayload = {"name": "neck.png", "mimeType": "image/png", "buffer": PNG.getvalue()}
OPEN = "() => [...document.querySelectorAll('main details')].slice(0, 6).forEach((each) => (each.open = true))"
PATHS = {
    "molds": "/molds",
    "mold": "/molds/{mold}",
    "editions": "/editions",
    "free": "/editions/{edition}?number=299",
    "reserved": "/editions/{edition}?number=3",
    "mixes": "/pieces/{piece}/mixes",
    "corrected": "/pieces/{piece}/mixes?cup=coat-1.cup-1&in:B=110",
    "casts": "/pieces/{piece}/casts",
    "log": "/pieces/{piece}/log",
    "paper": "/pieces/{piece}/paper/{run}?sheet=1",
}


@pytest.fixture(scope="module")
def shop(can_run: None, tmp_path_factory: pytest.TempPathFactory) -> Iterator[tuple[DeskProcess, Scene]]:
    """A desk with a shop in it, for tests that change little."""
    desk = DeskProcess(tmp_path_factory.mktemp("shop"))
    made = scene(desk)
    for running in started(desk):
        yield running, made


def opened(open_page: Opening, shop: tuple[DeskProcess, Scene], path: str, screen: Screen = DESKTOP) -> Page:
    desk, made = shop
    named = {"mold": made.mold, "edition": made.edition, "piece": made.piece, "run": made.run}
    return open_page(screen, desk, path.format(**named))


@pytest.mark.parametrize("screen", FROM_PHONE)
@pytest.mark.parametrize("name", PATHS)
def test_nobody_is_barred_and_all_is_large_enough(
    open_page: Opening, shop: tuple[DeskProcess, Scene], name: str, screen: Screen
) -> None:
    page = opened(open_page, shop, PATHS[name], screen)
    page.evaluate(OPEN)
    assert not barriers_in_both_looks(page)
    assert not too_small(page, LEAST_PX)
    assert not sideways(page)
    double_text(page)
    assert not sideways(page)


def test_a_number_is_given_by_the_keyboard_alone(open_page: Opening, shop: tuple[DeskProcess, Scene]) -> None:
    """The chosen place is the row's one stop; End, then one back: 299 of 300."""
    page = opened(open_page, shop, "/editions/{edition}")
    for _ in range(60):
        page.keyboard.press("Tab")
        if page.evaluate("document.activeElement.classList.contains('place')"):
            break
    page.keyboard.press("End")
    page.keyboard.press("ArrowLeft")
    page.keyboard.press("Enter")
    expect(page.get_by_role("heading", name="Number 299 is free")).to_be_visible()
    page.get_by_role("button", name="Give it 299").focus()
    page.keyboard.press("Enter")
    expect(page.locator("#chosen h2")).to_contain_text("299/300")
    expect(page.get_by_label("299: in the shop")).to_be_visible()


def test_of_two_who_press_at_once_the_second_is_told(
    open_page: Opening, shop: tuple[DeskProcess, Scene], page_errors: list[str]
) -> None:
    first, second = (opened(open_page, shop, "/editions/{edition}?number=120", PHONE) for _ in range(2))
    first.get_by_role("button", name="Give it 120").click()
    expect(first.locator("#chosen h2")).to_contain_text("120/300")
    second.get_by_role("button", name="Give it 120").click()
    told = second.locator(".said-error")
    expect(told).to_contain_text("120/300 is given to piece")
    expect(told).to_contain_text("The next free one is")
    assert all("409" in each for each in page_errors)
    page_errors.clear()


def test_a_certificate_opens_when_it_is_made(open_page: Opening, shop: tuple[DeskProcess, Scene]) -> None:
    page = opened(open_page, shop, "/editions/{edition}?number=1")
    page.get_by_text("Its certificate").click()
    page.get_by_label("Whose work it is").fill("A maker")
    page.get_by_role("button", name="Make the PDF").click()
    link = page.get_by_role("link", name="Open the certificate")
    expect(link).to_be_visible(timeout=60_000)
    with page.expect_download() as saved:
        link.click()
    assert saved.value.suggested_filename == "certificate.pdf"


def test_a_mold_is_looked_over_with_a_photo(
    open_page: Opening, shop: tuple[DeskProcess, Scene], page_errors: list[str]
) -> None:
    page = opened(open_page, shop, "/molds/{mold}", PHONE)
    page.get_by_label("A photo of it").set_input_files(
        {"name": "neck.png", "mimeType": "image/png", "buffer": PNG.getvalue()}
    )
    expect(page.get_by_text("The photo is kept.")).to_be_visible()
    page.get_by_text("worn", exact=True).click()
    page.get_by_label("Where and what").fill("at the neck")
    page.locator("form", has=page.get_by_label("Where and what")).get_by_role("button", name="Write it down").click()
    expect(page.get_by_text("looked over: worn, at the neck")).to_be_visible()
    expect(page.locator(".photos img")).to_have_count(1)


def test_a_refusal_is_told_in_its_form_and_nothing_is_lost(
    open_page: Opening, shop: tuple[DeskProcess, Scene], page_errors: list[str]
) -> None:
    page = opened(open_page, shop, "/molds/{mold}", PHONE)
    page.get_by_label("How much smaller than the original").fill("much")
    page.locator("form", has=page.get_by_label("How much smaller than the original")).get_by_role("button").click()
    expect(page.locator(".said-error")).to_be_visible()
    expect(page.get_by_label("How much smaller than the original")).to_have_value("much")
    page_errors.clear()


def test_a_sheet_is_typed_in_by_the_keyboard_alone(open_page: Opening, shop: tuple[DeskProcess, Scene]) -> None:
    """Enter goes from box to box; the last Enter sends, and the desk says what is new."""
    page = opened(open_page, shop, "/pieces/{piece}/log")
    page.get_by_role("link", name="Type in from paper").first.click()
    last = page.get_by_label("Which sheet").locator("option").count()
    page.goto(f"{page.url}?sheet={last}")
    boxes = page.locator(".box input").count()
    page.locator(".box input").first.focus()
    for _ in range(boxes):
        ticks = page.evaluate("document.activeElement.closest('.box').classList.contains('tick')")
        page.keyboard.type("x" if ticks else "")
        page.keyboard.press("Enter")
    expect(page.locator("output")).to_contain_text("New:")
