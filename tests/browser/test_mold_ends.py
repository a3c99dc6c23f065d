"""Where a quantity is least and most, marked on the mold and looked at: on spheres of which both places are known."""

from __future__ import annotations

import math
import re
from collections.abc import Iterator

import pytest
from playwright.sync_api import expect
from tests.browser.conftest import Opening
from tests.browser.mold_looked import Shop, canvas, chosen, middle, number, press_at, read, seen, settled, shops
from tests.browser.screens import DESKTOP, PHONE, Screen


@pytest.fixture(scope="module")
def shop(can_run: None, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Shop]:
    yield from shops(tmp_path_factory.mktemp("ends"))


@pytest.mark.parametrize("screen", [PHONE, pytest.param(DESKTOP, marks=pytest.mark.slow)])
def test_the_most_is_marked_and_looked_at_when_it_is_pressed(open_page: Opening, shop: Shop, screen: Screen) -> None:
    """The rubber is thickest at the very top and least at the foot: from straight above both lie in the middle, the
    foot behind; what is read there is what is told."""
    page = seen(open_page, shop, screen)
    chosen(page, "Thickness")
    most, least = (page.locator(f".over .end-sign.{name}") for name in ("most", "least"))
    expect(page.locator(".at-bench")).to_contain_text("Touch the last coat with its gauge at the marks")
    page.get_by_role("button", name=re.compile("^most 5 mm, right, back, up: .* 85 mm$")).click()
    settled(page)
    (x, y), box = middle(page), most.bounding_box()
    assert box
    assert math.dist((x, y), (box["x"] + box["width"] / 2, box["y"] + box["height"] / 2)) < 6.0
    expect(most).not_to_have_class(re.compile("behind"))
    expect(least).to_have_class(re.compile("behind"))
    expect(canvas(page)).to_be_in_viewport(ratio=0.5)
    press_at(page)
    assert number(read(page, "This place")["Rubber here"]) == pytest.approx(5.0, abs=0.1)
    page.get_by_role("button", name=re.compile("^least 3 mm")).click()
    expect(least).not_to_have_class(re.compile("behind"))
    chosen(page, "Seam")
    expect(most).to_be_hidden()
