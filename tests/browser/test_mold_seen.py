"""The mold, seen: worked as a person does, on spheres of which every length is known; two plans; what if.

Sources: areas of sections by trimesh and shapely, and of circles; lengths on a sphere by its equation; WCAG 2.2 (W3C)
by axe-core; 48 px is the design's own.
"""

from __future__ import annotations

import math
import re
import time
from collections.abc import Iterator
from itertools import pairwise
from pathlib import Path

import numpy as np
import pytest
from playwright.sync_api import BrowserType, Page, expect
from tests.browser.axe import barriers_in_both_looks
from tests.browser.chromium import LAUNCH
from tests.browser.conftest import Opening, started
from tests.browser.desk_process import DeskProcess
from tests.browser.measures import sideways, too_small
from tests.browser.mold_looked import (
    PATHS,
    Shop,
    canvas,
    chosen,
    middle,
    mm_per_px,
    number,
    picture,
    press,
    press_at,
    read,
    seen,
    settled,
    shops,
    slide,
)
from tests.browser.mold_scene import (
    DRAWS,
    ORIGINAL_MM,
    RUBBER_MM,
    SHELL_MM,
    mold_scene,
    section_mm2,
)
from tests.browser.screens import DESKTOP, PHONE, Screen

expect.set_options(timeout=60_000)
LEAST_PX = 48
NO_3D = [*LAUNCH["args"], "--disable-gpu", "--disable-3d-apis"]
COUNT_SENT = """(() => {
  const kind = WebGL2RenderingContext.prototype, send = kind.bufferData;
  window.sent = 0;
  kind.bufferData = function (...rest) { window.sent += 1; return send.apply(this, rest); };
})()"""


@pytest.fixture(scope="module")
def shop(can_run: None, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Shop]:
    yield from shops(tmp_path_factory.mktemp("seen"))


@pytest.mark.parametrize(
    "screen", [pytest.param(PHONE, id="phone"), pytest.param(DESKTOP, id="desktop", marks=pytest.mark.slow)]
)
@pytest.mark.parametrize("name", PATHS)
def test_nobody_is_barred_and_all_is_large_enough(open_page: Opening, shop: Shop, name: str, screen: Screen) -> None:
    page = open_page(screen, shop.desk, shop.path(name))
    if name == "mold":
        expect(page.get_by_role("application")).to_be_visible()
        expect(page.get_by_role("application")).to_have_accessible_name(re.compile("Arrow keys turn it"))
        chosen(page, "Thickness")
        expect(page.get_by_role("button", name=re.compile("^most 5 mm"))).to_be_visible()
    if name == "piece":
        expect(page.get_by_role("link", name="original.stl")).to_be_visible()
    for one in page.locator("main details").all():
        one.evaluate("(it) => (it.open = true)")
    assert not barriers_in_both_looks(page)
    assert not too_small(page, LEAST_PX)
    assert not sideways(page)


def test_pieces_are_drawn_apart_along_their_own_draws(open_page: Opening, shop: Shop) -> None:
    """A place on each piece is marked at 20 mm; to 60 mm it goes 40 mm along the draw that the plan tells."""
    page = seen(open_page, shop)
    press(page, "Front")
    press(page, "Measure")
    slide(page, "Draw apart", 20.0)
    for n, right_mm in enumerate((45.0, -45.0), start=1):
        press_at(page, right_mm)
        expect(page.locator(".mark-of-place:visible")).to_have_count(n)
    before = marked_mm(page)
    slide(page, "Draw apart", 60.0)
    np.testing.assert_allclose(marked_mm(page) - before, [(40 * draw[0], 40 * draw[2]) for draw in DRAWS], atol=1.0)


def marked_mm(page: Page) -> np.ndarray:
    """Both marked places, right and up from the middle."""
    scale, (x, y) = mm_per_px(page), middle(page)
    boxes = [mark.bounding_box() or {} for mark in page.locator(".mark-of-place").all()]
    centers = [(box["x"] + box["width"] / 2 - x, y - box["y"] - box["height"] / 2) for box in boxes]
    return np.array(centers) * scale


def test_a_place_that_is_pressed_is_read(open_page: Opening, shop: Shop) -> None:
    """The middle as seen from the front and 0.05 rad from above: 41 mm up and a little, on the seam's upright plane."""
    page = seen(open_page, shop)
    press(page, "Front")
    press(page, "Packed")
    press_at(page)
    told = read(page, "This place")
    edge_mm = 2 * math.pi * RUBBER_MM / 96
    assert told["On"] == "Packed"
    assert number(told["Over the board"]) == pytest.approx(41.0 + RUBBER_MM * math.sin(0.05), abs=edge_mm)
    assert number(told["Rubber here"]) == pytest.approx(math.hypot(RUBBER_MM, 1.0) - ORIGINAL_MM, abs=0.2)
    assert number(told["To the nearest seam"]) == pytest.approx(0.0, abs=edge_mm)
    x, y = middle(page)
    page.mouse.click(x, y - 0.45 * (canvas(page).bounding_box() or {"height": 0})["height"])
    expect(page.locator(".readings")).to_have_text("Press a place to read it.")


def test_two_places_are_measured_and_told_in_the_reader_s_units(open_page: Opening, shop: Shop) -> None:
    """20 mm to either side of the axis: 40 mm apart, level; corners lie 2.9 mm from each other."""
    page = seen(open_page, shop)
    press(page, "Front")
    press(page, "Packed")
    press(page, "Measure")
    press_at(page, -20.0)
    read(page, "This place")
    press_at(page, 20.0)
    told = read(page, "Between both places")
    assert number(told["Straight"]) == pytest.approx(40.0, abs=3.0)
    assert number(told["Upright"]) == pytest.approx(0.0, abs=3.0)
    expect(page.locator(".mark-of-place:visible")).to_have_count(2)
    us = seen(open_page, shop, units="us")
    press(us, "Seam")
    expect(us.locator(".leaves svg")).to_have_attribute("aria-label", re.compile(r"\d in:"))
    expect(us.locator(".bar-of-scale")).to_have_attribute("data-told", re.compile(r" in$"))


@pytest.mark.slow
def test_the_keyboard_is_enough(open_page: Opening, shop: Shop) -> None:
    page = seen(open_page, shop)
    for _ in range(60):
        page.keyboard.press("Tab")
        if page.evaluate("document.activeElement.tagName") == "CANVAS":
            break
    expect(page.locator(".mark-of-middle")).to_be_visible()
    pictures = [picture(page)]
    for key in ("ArrowLeft", "ArrowUp", "Shift+ArrowRight", "+"):
        page.keyboard.press(key)
        pictures.append(picture(page))
    assert all((one != other).any() for one, other in pairwise(pictures))
    page.keyboard.press("Tab")
    expect(page.get_by_role("slider", name="Draw apart")).to_be_focused()
    before = page.locator(".rule .reads").first.inner_text()
    page.keyboard.press("ArrowRight")
    expect(page.locator(".rule .reads").first).not_to_have_text(before)
    page.keyboard.press("Home")
    expect(page.locator(".rule .reads").first).to_have_text("closed")
    page.keyboard.press("Tab")
    page.keyboard.press("PageUp")
    expect(page.locator(".rule .reads").last).not_to_have_text("whole")
    page.keyboard.press("Home")
    measure = page.get_by_role("button", name="Measure")
    for _ in range(20):
        page.keyboard.press("Tab")
        if measure.evaluate("(it) => it === document.activeElement"):
            break
    page.keyboard.press("Space")
    expect(measure).to_have_attribute("aria-pressed", "true")
    for _ in range(20):
        page.keyboard.press("Shift+Tab")
        if page.evaluate("document.activeElement.tagName") == "CANVAS":
            break
    page.keyboard.press("Enter")
    read(page, "This place")
    page.keyboard.press("ArrowLeft")
    page.keyboard.press("Enter")
    assert number(read(page, "Between both places")["Straight"]) > 0.0


def test_the_cut_is_as_large_as_the_section(open_page: Opening, shop: Shop) -> None:
    """Each part's pixels in the cut, by the bar, against trimesh's sections of the same solids, and circles."""
    page = seen(open_page, shop)
    press(page, "Front")
    slide(page, "Draw apart", 0)
    cut_mm = 80.0
    slide(page, "Cut open", cut_mm)
    behind_mm = cut_mm - math.hypot(2 * SHELL_MM, 2 * SHELL_MM) / 2
    scale, shot = mm_per_px(page), picture(page)
    names = ("ground", "original", "coat1", "plaster")
    colors = np.array([token(page, "sheet" if name == "ground" else name) for name in names])
    nearest = ((shot[:, :, None, :] - colors) ** 2).sum(axis=3).argmin(axis=2)
    seen_mm2 = {name: float((nearest == n).sum()) * scale**2 for n, name in enumerate(names)}
    sections = {part.id: section_mm2(part.vertices, part.faces, behind_mm) for part in shop.made.mold.parts}
    circles = {r: math.pi * (r**2 - behind_mm**2) for r in (ORIGINAL_MM, RUBBER_MM, SHELL_MM)}
    shell = sections["shell-1"] + sections["shell-2"]
    assert sections["original"] == pytest.approx(circles[ORIGINAL_MM], rel=0.01)
    assert shell == pytest.approx(circles[SHELL_MM] - circles[RUBBER_MM], rel=0.01)
    assert seen_mm2["original"] == pytest.approx(sections["original"], rel=0.015)
    assert seen_mm2["coat1"] == pytest.approx(sections["rubber"] - sections["original"], rel=0.06)
    assert seen_mm2["plaster"] == pytest.approx(shell, rel=0.04)


def token(page: Page, name: str) -> tuple[int, int, int]:
    told: str = page.evaluate(f"getComputedStyle(document.documentElement).getPropertyValue('--{name}').trim()")
    return int(told[1:3], 16), int(told[3:5], 16), int(told[5:7], 16)


def test_a_color_that_is_chosen_again_is_not_sent_to_be_drawn_again(open_page: Opening, shop: Shop) -> None:
    page = seen(open_page, shop, before=COUNT_SENT)
    press(page, "Thickness")
    first = picture(page)
    for name in ("Seam", "Coats"):
        press(page, name)
        assert (picture(page) != first).any()
    sent = page.evaluate("window.sent")
    assert sent > 0
    press(page, "Thickness")
    assert (picture(page) == first).all()
    press(page, "Seam")
    settled(page)
    assert page.evaluate("window.sent") == sent


@pytest.mark.slow
def test_patterns_tell_leaves_apart_and_stay_on_the_surface(open_page: Opening, shop: Shop) -> None:
    """Moved by whole pixels, the picture moves whole with its patterns: they are drawn on the solid, not the glass."""
    page = seen(open_page, shop)
    press(page, "Packed")
    press(page, "Seam")
    bare = picture(page)
    press(page, "Patterns")
    patterned = picture(page)
    assert (np.abs(bare - patterned).max(axis=2) > 40).mean() > 0.005
    expect(page.locator(".leaves svg pattern")).to_have_count(7)
    canvas(page).focus()
    page.keyboard.press("Shift+ArrowRight")
    moved = picture(page)
    assert (moved != patterned).any()
    steps = [np.abs(np.roll(patterned, by, axis=1) - moved)[20:-20, 40:-40].max(axis=2) for by in range(-16, 17)]
    assert min(float((step > 24).mean()) for step in steps) < 0.001


def test_on_a_phone_choices_fold_under_what_is_chosen(open_page: Opening, shop: Shop) -> None:
    page = seen(open_page, shop, PHONE)
    folded = page.locator("details.fold").first
    expect(page.get_by_role("button", name="Thickness")).to_be_hidden()
    folded.locator("summary").click()
    press(page, "Thickness")
    expect(folded.locator("summary")).to_contain_text("Thickness")
    expect(page.get_by_role("button", name="Thickness")).to_be_hidden()
    expect(folded.locator("summary")).to_be_focused()
    page.set_viewport_size({"width": DESKTOP.wide_px, "height": DESKTOP.tall_px})
    expect(page.get_by_role("button", name="Thickness")).to_be_visible()


def test_where_nothing_can_be_drawn_pictures_and_tables_stand(browser_type: BrowserType, shop: Shop) -> None:
    browser = browser_type.launch(**{**LAUNCH, "args": NO_3D})
    try:
        page = browser.new_page(**PHONE.context())
        page.goto(shop.desk.address + shop.path("mold"))
        assert page.evaluate("document.createElement('canvas').getContext('webgl2')") is None
        expect(page.locator("mw-mold").get_by_role("status")).to_contain_text("This browser draws no solids.")
        expect(page.locator(".stage")).to_have_count(0)
        expect(page.get_by_role("table", name="Rubber")).to_be_visible()
        expect(page.get_by_role("table", name="Thickness")).to_be_visible()
        for shown in page.locator(".stand-in img").all():
            assert shown.evaluate("(it) => it.decode().then(() => it.naturalWidth)") > 0
        assert page.locator(".stand-in img").count() == 2
        assert not barriers_in_both_looks(page)
        assert not sideways(page)
    finally:
        browser.close()


def test_differences_come_first_where_two_plans_stand_beside_each_other(open_page: Opening, shop: Shop) -> None:
    page = open_page(DESKTOP, shop.desk, shop.path("compare"))
    page.locator("summary", has_text="All figures").click()
    changes, every = page.get_by_role("table").all()
    expect(changes.locator("tbody tr")).to_have_text([re.compile("25 °C")])
    expect(every.locator("tr", has_text="changed")).to_have_count(1)
    one, other = changes.bounding_box(), every.bounding_box()
    assert one
    assert other
    assert one["x"] < other["x"]


def test_what_is_tried_says_what_changes_and_is_put_back(open_page: Opening, shop: Shop) -> None:
    page = open_page(PHONE, shop.desk, shop.path("what-if"))
    changes = page.get_by_role("table", name="What changes")
    expect(changes.locator("tbody tr")).to_have_count(1)
    expect(changes).to_contain_text("25 °C")
    page.locator("summary", has_text="All figures").click()
    expect(page.get_by_role("region", name="All figures").locator("tr", has_text="changed")).to_have_count(1)
    press(page, "Put it back")
    expect(changes).to_have_count(0)
    expect(page.get_by_label("Temperature in the shop")).to_have_value("22 °C")


MANY = 284
"""Corners around each sphere of a mold of 202,776 triangles."""


@pytest.mark.slow
def test_the_first_useful_view_of_a_large_mold_is_told(
    open_page: Opening, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """From the press to the solids on the canvas; nothing hangs on the machine but that it comes at all."""
    desk = DeskProcess(tmp_path)
    made = mold_scene(desk, MANY)
    for running in started(desk):
        for visit in ("first", "again"):
            page = open_page(DESKTOP, running, "/shelf")
            start = time.monotonic()
            page.goto(f"/pieces/{made.piece}/mold", wait_until="commit")
            page.wait_for_selector(".bar-of-scale[data-told]", state="attached", timeout=120_000)
            settled(page)
            with capsys.disabled():
                triangles = sum(len(part.faces) for part in made.mold.parts)
                print(f"\nfirst useful view of {triangles} triangles, {visit}: {time.monotonic() - start:.2f} s")
            assert picture(page).std() > 10.0
