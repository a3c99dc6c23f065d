"""The mold's page as a person works it: what is pressed, slid and read, on a desk with two plans' worth of spheres."""

from __future__ import annotations

import re
from collections.abc import Iterator
from io import BytesIO
from pathlib import Path
from typing import NamedTuple

import numpy as np
from PIL import Image
from playwright.sync_api import Locator, Page, expect
from tests.browser.conftest import Opening, started
from tests.browser.desk_process import DeskProcess
from tests.browser.mold_scene import MoldScene, mold_scene, trial_in
from tests.browser.screens import DESKTOP, Screen

expect.set_options(timeout=60_000)
STOP_MM = 2.0
PATHS = {
    "piece": "/pieces/{piece}",
    "mold": "/pieces/{piece}/mold",
    "compare": "/compare/{plan}/{other}",
    "what-if": "/pieces/{piece}/what-if",
}


class Shop(NamedTuple):
    """A desk with a piece that has two plans' worth of spheres."""

    desk: DeskProcess
    made: MoldScene
    other: MoldScene

    def path(self, name: str) -> str:
        return PATHS[name].format(piece=self.made.piece, plan=self.made.plan, other=self.other.plan)


def shops(home: Path) -> Iterator[Shop]:
    """A desk that runs there, as long as it is asked for."""
    desk = DeskProcess(home)
    made, other = mold_scene(desk), mold_scene(desk, 24, 25.0)
    trial_in(desk, made, other)
    for running in started(desk):
        yield Shop(running, made, other)


def seen(open_page: Opening, shop: Shop, screen: Screen = DESKTOP, units: str = "metric", before: str = "") -> Page:
    """The mold's page, its solids drawn."""
    page = open_page(screen, shop.desk, shop.path("what-if"))
    page.context.add_cookies([{"name": "units", "value": units, "url": shop.desk.address}])
    if before:
        page.add_init_script(before)
    page.goto(shop.path("mold"))
    expect(page.locator(".bar-of-scale")).to_have_attribute("data-told", re.compile("."))
    return page


def press(page: Page, name: str) -> None:
    page.get_by_role("button", name=name, exact=True).click()


def chosen(page: Page, name: str) -> None:
    """A color, unfolded where it is folded away."""
    button = page.get_by_role("button", name=name, exact=True)
    if not button.is_visible():
        page.locator("details.fold summary").first.click()
    button.click()


def slide(page: Page, name: str, to_mm: float) -> None:
    page.get_by_role("slider", name=name).fill(str(round(to_mm / STOP_MM)))
    expect(page.get_by_role("slider", name=name)).to_have_attribute(
        "aria-valuetext", f"{to_mm:g} mm" if to_mm else "closed"
    )


def canvas(page: Page) -> Locator:
    return page.locator(".stage canvas")


def settled(page: Page) -> None:
    """All that was asked for is drawn."""
    page.evaluate("() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)))")


def picture(page: Page) -> np.ndarray:
    """What is seen of the solids, without what lies over them."""
    page.evaluate("document.querySelector('.over').hidden = true")
    settled(page)
    shot = Image.open(BytesIO(canvas(page).screenshot())).convert("RGB")
    page.evaluate("document.querySelector('.over').hidden = false")
    return np.asarray(shot, np.int32)


def mm_per_px(page: Page) -> float:
    """As the bar tells it, which is what a person has."""
    settled(page)
    bar = page.locator(".bar-of-scale")
    told, box = bar.get_attribute("data-told"), bar.bounding_box()
    assert told
    assert box
    return float(told.removesuffix(" mm")) / box["width"]


def middle(page: Page) -> tuple[float, float]:
    box = canvas(page).bounding_box()
    assert box
    return box["x"] + box["width"] / 2, box["y"] + box["height"] / 2


def press_at(page: Page, right_mm: float = 0.0, up_mm: float = 0.0) -> None:
    """Press a place so far from the middle."""
    scale, (x, y) = mm_per_px(page), middle(page)
    page.mouse.click(x + right_mm / scale, y - up_mm / scale)


def read(page: Page, title: str) -> dict[str, str]:
    """What is read below the solids."""
    expect(page.locator(".readings h3")).to_have_text(title)
    names, values = page.locator(".readings dt"), page.locator(".readings dd")
    return dict(zip(names.all_inner_texts(), values.all_inner_texts(), strict=True))


def number(told: str) -> float:
    return float(told.split(" ", maxsplit=1)[0])
