"""Every page of the desk, filled: nobody is barred, nothing is too small for a knuckle, none scrolls sideways.

At every run on a phone, in light; the other sizes and looks in `make test-all`. Source: WCAG 2.2 (W3C) by axe-core;
1.4.4 (text to 200 % without loss) and 1.4.10 (no scrolling sideways); 48 px is the design's own, above 2.5.5's 44.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

import pytest
from conftest import Job
from playwright.sync_api import Page, expect
from tests.browser.axe import barriers
from tests.browser.conftest import Opening, started
from tests.browser.desk_process import DeskProcess
from tests.browser.filled_shop import NO_PAGES, fill
from tests.browser.keys import walked
from tests.browser.measures import cut_off, double_text, sideways, spilt, too_small
from tests.browser.screens import DESKTOP, PHONE, TABLET, Screen
from tests.browser.walk import PARAMETER, routes

LEAST_PX = 48
HALF = Screen("desktop at 200 %", DESKTOP.wide_px // 2, DESKTOP.tall_px // 2, False)
"""A browser's zoom of 200 % halves what it shows."""
LOOKS = ("light", "dark", "contrast")
EACH = [
    pytest.param(screen, look, id=f"{screen.name}-{look}", marks=() if (screen, look) == (PHONE, "light") else slow)
    for slow in (pytest.mark.slow,)
    for screen in (PHONE, TABLET, DESKTOP)
    for look in LOOKS
]
ROUTES = sorted({route.path for route in routes()} - set(NO_PAGES))


@dataclass(frozen=True, slots=True)
class Filled:
    """A desk with one of everything in it."""

    desk: DeskProcess
    addresses: dict[str, str]

    def path(self, route: str) -> str:
        """An address of a page."""
        return self.addresses.get(route, route)


@pytest.fixture(scope="module")
def filled(can_run: None, tmp_path_factory: pytest.TempPathFactory, small_job: Job) -> Iterator[Filled]:
    desk = DeskProcess(tmp_path_factory.mktemp("filled"))
    addresses = dict(fill(desk.home, small_job))
    for running in started(desk):
        yield Filled(running, addresses)


def shown(open_page: Opening, filled: Filled, route: str, screen: Screen, look: str = "light") -> Page:
    """The page; it is this one and no refusal."""
    page = open_page(screen, filled.desk, "/door/trust", "light" if look == "light" else "dark")
    page.context.add_cookies([{"name": "look", "value": look, "url": filled.desk.address}])
    answer = page.goto(filled.path(route))
    assert answer is not None
    assert answer.status == 200
    assert page.evaluate("document.documentElement.dataset.look") == look
    return page


def test_what_is_typed_after_a_sheet_of_paper_was_sent_is_not_lost(open_page: Opening, filled: Filled) -> None:
    page = shown(open_page, filled, "/pieces/{id_}/paper/{run}", PHONE)
    box = page.locator("mw-paper .box input").first
    page.route("**/paper", lambda route: (box.fill("14:05"), route.fulfill(json={"new": 0, "known": 1, "struck": 0})))
    page.get_by_role("button", name="Write this sheet down").tap()
    expect(page.locator("mw-paper output")).to_be_visible()
    page.clock.run_for(60_000)
    expect(box).to_have_value("14:05")
    page.get_by_role("button", name="To the next sheet").tap()
    expect(page).to_have_url(re.compile("sheet=2$"))


@pytest.mark.parametrize(("screen", "look"), EACH)
@pytest.mark.parametrize("route", ROUTES)
def test_nobody_is_barred_and_all_is_large_enough(
    open_page: Opening, filled: Filled, route: str, screen: Screen, look: str
) -> None:
    page = shown(open_page, filled, route, screen, look)
    found: dict[str, Any] = {"barred": barriers(page)}
    found |= {"small": too_small(page, LEAST_PX), "sideways": sideways(page), "spilt": spilt(page)}
    if screen is PHONE:
        double_text(page)
        found |= {"at 200 %": sideways(page), "cut off at 200 %": cut_off(page), "spilt at 200 %": spilt(page)}
    assert {name: each for name, each in found.items() if each} == {}


@pytest.mark.slow
@pytest.mark.parametrize("route", ROUTES)
def test_a_zoom_of_twice_the_size_fits(open_page: Opening, filled: Filled, route: str) -> None:
    assert not sideways(shown(open_page, filled, route, HALF))


@pytest.mark.slow
@pytest.mark.parametrize("screen", [PHONE, DESKTOP], ids=lambda screen: screen.name)
@pytest.mark.parametrize("route", ROUTES)
def test_a_keyboard_alone_reaches_all_of_it(open_page: Opening, filled: Filled, route: str, screen: Screen) -> None:
    assert walked(shown(open_page, filled, route, screen)) == {}


def test_no_page_is_left_out(filled: Filled) -> None:
    """A page that is registered has an address here: its own, or one that `filled_shop` gives."""
    assert set(filled.addresses) <= set(ROUTES)
    assert [route for route in ROUTES if PARAMETER.search(filled.path(route))] == []


def test_the_measures_can_fail(open_page: Opening, shared_desk: DeskProcess) -> None:
    page = open_page(PHONE, shared_desk)
    page.evaluate("document.body.insertAdjacentHTML('beforeend', '<button id=tiny></button><pre id=wide>wide</pre>')")
    page.evaluate("document.getElementById('tiny').style.cssText = 'min-height: 0; height: 20px'")
    page.evaluate("document.getElementById('wide').style.cssText = 'width: 900px'")
    page.evaluate("document.body.insertAdjacentHTML('beforeend', '<p id=cut>two<br>lines</p>')")
    page.evaluate("document.getElementById('cut').style.cssText = 'height: 1rem; overflow: hidden'")
    assert any("lines" in one for one in cut_off(page))
    page.evaluate("document.getElementById('cut').style.cssText = 'width: 1rem; white-space: nowrap'")
    assert any("lines" in one for one in spilt(page))
    assert any("20 px" in one for one in too_small(page, LEAST_PX))
    assert sideways(page)
    assert any("button-name" in one for one in barriers(page))
    page.evaluate("document.getElementById('tiny').style.outline = 'none'")
    page.evaluate("document.getElementById('wide').innerHTML = '<button id=trap>on</button>'")
    page.evaluate("document.getElementById('trap').addEventListener('keydown', (event) => event.preventDefault())")
    two = "'<p id=two><button>first</button><button>second</button></p>'"
    page.evaluate(f"document.getElementById('tiny').insertAdjacentHTML('beforebegin', {two})")
    page.evaluate("document.getElementById('two').style.cssText = 'display: flex; flex-direction: column-reverse'")
    wrong = walked(page)
    assert wrong["unmarked"]
    assert "second" in "".join(wrong["against the page"])
    assert wrong["never left"]


UNCHOSEN = "() => { delete document.documentElement.dataset.look }"
GROUNDS = {"light": "rgb(228, 235, 230)", "dark": "rgb(11, 19, 17)", "contrast": "rgb(0, 0, 0)"}
"""Of the shared design's tokens."""
ASKED: list[tuple[dict[str, Any], str]] = [
    ({"color_scheme": "light", "contrast": "no-preference"}, "light"),
    ({"color_scheme": "dark", "contrast": "no-preference"}, "dark"),
    ({"color_scheme": "light", "contrast": "more"}, "contrast"),
    ({"color_scheme": "dark", "contrast": "more"}, "contrast"),
]


def test_a_reader_s_choice_of_look_wins_over_the_system_s(open_page: Opening, shared_desk: DeskProcess) -> None:
    page = open_page(PHONE, shared_desk)
    ground = "getComputedStyle(document.documentElement).backgroundColor"
    for chosen in ("", *LOOKS):
        page.evaluate("look => { document.documentElement.dataset.look = look }" if chosen else UNCHOSEN, chosen)
        for asked, by_system in ASKED:
            page.emulate_media(**asked)
            assert page.evaluate(ground) == GROUNDS[chosen or by_system], (chosen, asked)
    page.context.add_cookies([{"name": "look", "value": "contrast", "url": shared_desk.address}])
    page.reload()
    assert page.evaluate(ground) == GROUNDS["contrast"]


def test_paper_is_light_in_every_look(open_page: Opening, shared_desk: DeskProcess) -> None:
    page = open_page(PHONE, shared_desk, look="dark")
    page.emulate_media(media="print")
    ink = "getComputedStyle(document.documentElement).getPropertyValue('--ink').trim()"
    for chosen in ("", *LOOKS):
        page.evaluate("look => { document.documentElement.dataset.look = look }" if chosen else UNCHOSEN, chosen)
        assert page.evaluate(ink) == "#10201c", chosen


def test_a_desk_that_was_killed_answers_again_at_its_address(open_page: Opening, desk: DeskProcess) -> None:
    page = open_page(PHONE, desk)
    before = desk.address
    desk.kill()
    desk.start()
    assert desk.address == before
    answer = page.reload()
    assert answer is not None
    assert answer.ok
