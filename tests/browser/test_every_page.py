"""Every page of the desk, at every size: nobody is barred, nothing is too small for a knuckle, none scrolls sideways.

Source: WCAG 2.2 (W3C) by axe-core; 1.4.4 (text to 200 %) and 1.4.10 (no scrolling sideways); 48 px is the design's own,
above 2.5.5's 44.
"""

from __future__ import annotations

import pytest
from tests.browser.axe import barriers_in_both_looks
from tests.browser.conftest import Opening
from tests.browser.desk_process import DeskProcess
from tests.browser.measures import double_text, sideways, too_small
from tests.browser.screens import DESKTOP, FROM_PHONE, PHONE, Screen
from tests.browser.walk import plain_paths

LEAST_PX = 48
HALF = Screen("desktop at 200 %", DESKTOP.wide_px // 2, DESKTOP.tall_px // 2, False)
"""A browser's zoom of 200 % halves what it shows."""


@pytest.mark.parametrize("screen", FROM_PHONE)
@pytest.mark.parametrize("path", plain_paths())
def test_nobody_is_barred_in_light_or_dark(
    open_page: Opening, shared_desk: DeskProcess, path: str, screen: Screen
) -> None:
    assert not barriers_in_both_looks(open_page(screen, shared_desk, path))


@pytest.mark.parametrize("screen", FROM_PHONE)
@pytest.mark.parametrize("path", plain_paths())
def test_what_is_pressed_is_large_and_no_page_scrolls_sideways(
    open_page: Opening, shared_desk: DeskProcess, path: str, screen: Screen
) -> None:
    page = open_page(screen, shared_desk, path)
    assert not too_small(page, LEAST_PX)
    assert not sideways(page)


@pytest.mark.slow
@pytest.mark.parametrize("path", plain_paths())
def test_twice_the_size_fits(open_page: Opening, shared_desk: DeskProcess, path: str) -> None:
    assert not sideways(open_page(HALF, shared_desk, path))
    page = open_page(PHONE, shared_desk, path)
    double_text(page)
    assert not sideways(page)


def test_pages_are_found() -> None:
    assert "/" in plain_paths()


def test_the_measures_can_fail(open_page: Opening, shared_desk: DeskProcess) -> None:
    page = open_page(PHONE, shared_desk)
    page.evaluate("document.body.insertAdjacentHTML('beforeend', '<button id=tiny></button><pre id=wide>wide</pre>')")
    page.evaluate("document.getElementById('tiny').style.cssText = 'min-height: 0; height: 20px'")
    page.evaluate("document.getElementById('wide').style.cssText = 'width: 900px'")
    assert any("20 px" in one for one in too_small(page, LEAST_PX))
    assert sideways(page)
    assert any("button-name" in one for one in barriers_in_both_looks(page))


def test_a_reader_s_choice_of_look_wins_over_the_system_s(open_page: Opening, shared_desk: DeskProcess) -> None:
    page = open_page(PHONE, shared_desk, look="dark")
    ground = "getComputedStyle(document.documentElement).backgroundColor"
    assert page.evaluate(ground) == "rgb(11, 19, 17)"
    page.context.add_cookies([{"name": "look", "value": "contrast", "url": shared_desk.address}])
    page.reload()
    assert page.evaluate(ground) == "rgb(0, 0, 0)"


def test_a_desk_that_was_killed_answers_again_at_its_address(open_page: Opening, desk: DeskProcess) -> None:
    page = open_page(PHONE, desk)
    before = desk.address
    desk.kill()
    desk.start()
    assert desk.address == before
    answer = page.reload()
    assert answer is not None
    assert answer.ok
