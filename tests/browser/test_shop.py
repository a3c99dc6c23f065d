"""The page Shop in a browser: what a device is set to there, it keeps."""

from __future__ import annotations

from collections.abc import Callable

from playwright.sync_api import Page, expect
from tests.browser.desk_process import DeskProcess
from tests.browser.screens import PHONE


def test_a_look_that_is_chosen_stays_and_is_given_back_to_the_device(
    shared_desk: DeskProcess, open_page: Callable[..., Page]
) -> None:
    page = open_page(PHONE, shared_desk, "/shop")
    root = page.locator("html")
    page.get_by_text("Dark", exact=True).click()
    expect(root).to_have_attribute("data-look", "dark", timeout=20_000)
    page.goto("/shelf")
    expect(root).to_have_attribute("data-look", "dark")
    page.goto("/shop")
    page.get_by_text("As the device is set", exact=True).click()
    expect(page.get_by_role("radio", name="As the device is set")).to_be_checked()
    expect(root).not_to_have_attribute("data-look", "dark", timeout=20_000)
