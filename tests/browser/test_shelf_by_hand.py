"""The shelf, recipes and labels in a browser: by keyboard alone, on a phone and on a screen, in light and dark."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect
from tests.browser.axe import barriers_in_both_looks
from tests.browser.conftest import Opening
from tests.browser.desk_process import DeskProcess
from tests.browser.measures import sideways, too_small
from tests.browser.screens import DESKTOP, FROM_PHONE, PHONE, Screen

LEAST_PX = 48


def typed(page: Page, **fields: str) -> None:
    for name, text in fields.items():
        page.locator(f"#{name.replace('_', '-')}").fill(text)


def added(page: Page, material: str, amount: str, **more: str) -> None:
    page.goto("/shelf/add")
    typed(page, material=material, amount=amount, **more)
    page.get_by_role("button", name="Put it on the shelf").press("Enter")
    expect(page.get_by_text("On the shelf:")).to_be_visible()


def filled(open_page: Opening, desk: DeskProcess, screen: Screen = DESKTOP) -> Page:
    page = open_page(screen, desk, "/shelf")
    added(page, "addition-cure-a10-slow-a", "5 kg", number="4711-A", expires="2099-06", stored="shelf 2")
    added(page, "bronze", "12 kg", stored="cabinet")
    return page


def test_a_lot_by_keyboard_alone(open_page: Opening, desk: DeskProcess) -> None:
    """5 kg less 300 g are 4.70 kg; put back, they are 5 kg again."""
    page = filled(open_page, desk)
    page.goto("/shelf")
    page.keyboard.press("Tab")
    page.locator("#q").focus()
    page.keyboard.type("4711")
    expect(page.get_by_text("bronze powder")).to_have_count(0)
    expect(page).to_have_url(re.compile("q=4711"))
    page.locator(".row-link").focus()
    page.keyboard.press("Enter")
    expect(page.locator("#standing")).to_contain_text("sealed")
    page.locator("summary", has_text="Use some").focus()
    page.keyboard.press("Enter")
    page.keyboard.press("Tab")
    page.keyboard.type("300 g")
    page.keyboard.press("Enter")
    expect(page.locator("#standing")).to_contain_text("4.70 kg")
    page.get_by_role("button", name="Put it back").focus()
    page.keyboard.press("Enter")
    expect(page.locator("#standing")).to_contain_text("5.00 kg")
    expect(page.get_by_text("Struck out: used, 300 g.")).to_be_visible()
    expect(page.locator("#log .struck")).to_have_text("used, 300 g")


def test_what_is_refused_is_told_beside_and_nothing_is_lost(
    open_page: Opening, desk: DeskProcess, page_errors: list[str]
) -> None:
    page = filled(open_page, desk, PHONE)
    page.goto("/shelf?q=4711")
    page.locator(".row-link").tap()
    page.locator("summary", has_text="Count it").tap()
    typed(page, count_amount="many")
    page.get_by_role("button", name="It is counted").tap()
    expect(page.locator(".said-error")).to_contain_text("a mass with its unit")
    expect(page.locator("#count-amount")).to_have_value("many")
    page_errors.clear()


def test_papers_are_kept_with_a_lot_and_open(open_page: Opening, desk: DeskProcess, tmp_path: Path) -> None:
    sheet = tmp_path / "sheet.txt"
    sheet.write_text("Safety data sheet of a hardener")
    page = open_page(DESKTOP, desk, "/shelf/add")
    typed(page, material="urethane-standard-b", amount="1 kg")
    page.locator("#data_sheet").set_input_files(sheet)
    page.get_by_role("button", name="Put it on the shelf").click()
    expect(page.get_by_text("On the shelf:")).to_be_visible()
    page.goto("/shelf")
    page.locator(".row-link").click()
    address = page.get_by_role("link", name="See: safety data sheet").get_attribute("href")
    assert address is not None
    assert page.request.get(address).text() == "Safety data sheet of a hardener"


def test_a_recipe_kept_and_scaled_by_hand(open_page: Opening, desk: DeskProcess) -> None:
    """100 g and 104.8 g, ratio 104.8 : 100: of 409.6 g in all the scale reads 200.0 and 409.6 g."""
    page = open_page(PHONE, desk, "/recipes/keep")
    typed(page, typed_name="clear", what_1="urethane-standard-a", mass_1="100 g", what_2="urethane-standard-b")
    typed(page, mass_2="104.8 g")
    page.get_by_role("button", name="Keep it").tap()
    expect(page.get_by_text("clear is kept.")).to_be_visible()
    page.goto("/recipes")
    page.get_by_role("link", name="clear").tap()
    typed(page, total="409.6 g")
    expect(page.locator(".scaled")).to_contain_text("200.0 g")
    expect(page.locator(".scaled")).to_contain_text("409.6 g")
    expect(page.locator("#amount .caution").first).to_be_visible()


def test_labels_are_chosen_and_begin_where_one_presses(open_page: Opening, desk: DeskProcess) -> None:
    page = filled(open_page, desk, PHONE)
    page.goto("/labels")
    page.locator("#add-Lot").select_option(index=1)
    expect(page.locator("#chosen")).to_contain_text("Lot:")
    page.locator("#place-5").locator("..").tap()
    expect(page.locator("#laid")).to_contain_text("next time begin at label 6")
    address = page.get_by_role("link", name="Open the labels to print").get_attribute("href")
    assert address is not None
    answer = page.request.get(address)
    assert (answer.status, answer.body()[:5]) == (200, b"%PDF-")


@pytest.mark.parametrize("screen", FROM_PHONE)
def test_nobody_is_barred_and_nothing_is_too_small(open_page: Opening, desk: DeskProcess, screen: Screen) -> None:
    """Source: WCAG 2.2 by axe-core; 48 px is the design's own."""
    filled(open_page, desk)
    page = open_page(screen, desk, "/shelf")
    link = page.locator(".row-link").first.get_attribute("href")
    assert link is not None
    lot = link.rpartition("/")[2]
    for path in ("/shelf", link, "/shelf/ahead?until=2099-01-01", f"/labels?thing=lot:{lot}&start=5"):
        page.goto(path)
        assert not barriers_in_both_looks(page), path
        assert not too_small(page, LEAST_PX), path
        assert not sideways(page), path
