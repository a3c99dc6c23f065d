"""The bench by the keyboard alone, by a knuckle on a phone, and for who does not see or hears it read.

Sources: WCAG 2.2 (W3C) by axe-core; 2.1.1 (all by the keyboard); 60 ms and one finger are the design's own.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import Any

import pytest
from playwright.sync_api import Page, expect
from tests.bench_plans import SKIN_CUP, A, B, bench_plan
from tests.browser.axe import barriers, barriers_in_both_looks
from tests.browser.bench_runs import (
    COAT,
    HOUR,
    MINUTE,
    SECOND,
    Then,
    at_coat,
    begin,
    coat_met,
    done,
    events_of,
    until,
)
from tests.browser.conftest import Opening, started
from tests.browser.desk_process import DeskProcess
from tests.browser.measures import sideways, too_small
from tests.browser.screens import DESKTOP, PHONE, TABLET

from moldwright.log.event import Body
from moldwright.log.ids import RunId
from moldwright.log.run_events import CupRef, Done, Poured, Weighed
from moldwright.plan.cautions import Severity, caution
from moldwright.plan.ids import StepId
from moldwright.plan.lines import Line
from moldwright.plan.mixes import PartKind
from moldwright.plan.plan import Plan

LEAST_PX = 64
BEFORE_SKIN = ("receive", "release", "coat-1-mix", "coat-1", "coat-1-look", "hold", "cure")


@pytest.fixture(scope="module")
def own_desk(can_run: None, tmp_path_factory: pytest.TempPathFactory) -> Iterator[DeskProcess]:
    """A desk for the tests here; each has a run of its own."""
    yield from started(DeskProcess(tmp_path_factory.mktemp("hands-desk")))


def at_bench(open_page: Opening, desk: DeskProcess, run: RunId, screen: Any = TABLET) -> Page:
    page = open_page(screen, desk, f"/bench/{run}")
    expect(page.locator("mw-bench[data-screen]")).to_be_visible()
    until(page, "document.documentElement.dataset.time === 'measured'")
    return page


def screen_is(page: Page, name: str) -> None:
    expect(page.locator("mw-bench")).to_have_attribute("data-screen", name)


def bodies(desk: DeskProcess, run: RunId) -> list[Any]:
    return [body for _, body in events_of(desk, run)]


def logged(page: Page, desk: DeskProcess, run: RunId, body: Body) -> None:
    """It stands in the desk's log, soon."""
    for _ in range(600):
        if body in bodies(desk, run):
            return
        page.wait_for_timeout(50)
    raise AssertionError(f"not in the log: {body}")


def reach(page: Page, key: str) -> None:
    """Walk there by Tab."""
    for _ in range(40):
        page.keyboard.press("Tab")
        if page.evaluate("document.activeElement?.dataset.key ?? ''") == key:
            return
    raise AssertionError(f"Tab does not come to {key}")


def test_one_weighing_and_one_coat_by_the_keyboard_alone(own_desk: DeskProcess, open_page: Opening) -> None:
    """By Tab and Enter, digits typed for a reading, Escape out of a sheet, Space as a pedal; the coat's own act is done
    last."""
    run = begin(own_desk, at_coat())
    page = at_bench(open_page, own_desk, run, DESKTOP)
    reach(page, "more")
    page.keyboard.press("Enter")
    screen_is(page, "more")
    page.keyboard.press("Escape")
    screen_is(page, "weigh")
    reach(page, "short")
    page.keyboard.press("Enter")
    page.keyboard.type("60")
    reach(page, "take")
    page.keyboard.press("Enter")
    screen_is(page, "weigh")
    reach(page, "right")
    page.keyboard.press("Enter")
    expect(page.locator("h1")).to_contain_text("a trace on a clean stick")
    page.mouse.click(5, 5)
    for screen in ("weigh", "weigh"):
        screen_is(page, screen)
        page.keyboard.press("Space")
        page.wait_for_timeout(100)
    screen_is(page, "done")
    page.keyboard.press("Space")
    expect(page.locator("main .more")).to_contain_text("is on the work")
    page.keyboard.press("Space")
    logged(page, own_desk, run, Done(StepId("coat-1")))
    weighed = [(each.part, each.mass_g) for each in bodies(own_desk, run) if isinstance(each, Weighed)]
    assert weighed == [(B, 60.0), (B, 40.0), (PartKind.PIGMENT, 0.2), (A, 100.0)]
    assert Poured(COAT) in bodies(own_desk, run)


def touch(page: Page, key: str, held_ms: int) -> None:
    """A finger on an act, let go after so long: as a screen tells the browser, so that its own click follows."""
    box = page.locator(f"[data-key={key}]").bounding_box()
    assert box is not None
    x, y = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2
    wire = page.context.new_cdp_session(page)
    wire.send("Input.dispatchTouchEvent", {"type": "touchStart", "touchPoints": [{"x": x, "y": y}]})
    page.wait_for_timeout(held_ms)
    wire.send("Input.dispatchTouchEvent", {"type": "touchEnd", "touchPoints": []})
    page.wait_for_timeout(150)


def test_a_knuckle_presses_and_a_drop_or_a_palm_does_not(own_desk: DeskProcess, open_page: Opening) -> None:
    run = begin(own_desk, at_coat())
    page = at_bench(open_page, own_desk, run, PHONE)
    page.evaluate(DROPS)
    assert page.evaluate("window.pressed('right', 20, 1)") == 0
    assert page.evaluate("window.pressed('right', 80, 2)") == 0
    assert not [each for each in bodies(own_desk, run) if isinstance(each, Weighed)]
    touch(page, "right", 120)
    expect(page.locator("h1")).to_contain_text("a trace on a clean stick")


DROPS = """() => {
  // A drop's short touch and a palm's two points, then the click that a browser makes of them: how many get through.
  window.pressed = async (key, held_ms, fingers) => {
    const act = document.querySelector(`[data-key=${key}]`);
    let through = 0;
    const count = () => { through += 1; };
    act.addEventListener('click', count);
    const told = (type, id) => new PointerEvent(type, {bubbles: true, pointerId: id, pointerType: 'touch'});
    for (let id = 1; id <= fingers; id += 1) act.dispatchEvent(told('pointerdown', id));
    await new Promise((over) => setTimeout(over, held_ms));
    for (let id = 1; id <= fingers; id += 1) act.dispatchEvent(told('pointerup', id));
    act.dispatchEvent(new MouseEvent('click', {bubbles: true, cancelable: true, detail: 1}));
    act.removeEventListener('click', count);
    return through;
  };
}"""


def skin_met(ago_ms: int) -> list[Then]:
    """The skin's cup of the first cast, its parts met so long ago."""
    cup = CupRef(SKIN_CUP, 1)
    masses = [(A, 50.0), (PartKind.POWDER, 150.0), (B, 50.0)]
    before = [*done(30 * HOUR, *BEFORE_SKIN), *done(28 * HOUR, "powder-dry"), *done(26 * HOUR, "wash", "seat", turn=1)]
    return before + [(ago_ms + 20 - n, Weighed(cup, kind, mass, mass)) for n, (kind, mass) in enumerate(masses, 18)]


def hazard_plan() -> Plan:
    """The small plan with a hazard before its first cup, and what is done first of skin and eyes."""
    plan, step = bench_plan(1), StepId("coat-1-mix")
    told = {"solvent": "It burns.", "skin-eyes": "In an eye: rinse, see a doctor."}
    made = [caution(step, rule, Severity.STOP, (Line("", said),), "", hazard=True) for rule, said in told.items()]
    ids = tuple(each.id for each in made)
    steps = tuple(replace(each, cautions=ids) if each.id == step else each for each in plan.steps)
    return replace(plan, cautions=tuple(made), steps=steps)


def test_a_hazard_stands_before_its_step_and_on_it(own_desk: DeskProcess, open_page: Opening) -> None:
    """With its sign in words, what is done first, and whom to ask for the safety data sheet that the shop has not."""
    page = at_bench(open_page, own_desk, begin(own_desk, at_coat(), plan=hazard_plan()), PHONE)
    screen_is(page, "caution")
    for said in ("It burns.", "In an eye: rinse, see a doctor.", "Ask the supplier for it"):
        expect(page.locator("main")).to_contain_text(said)
    expect(page.locator(".sign figcaption")).to_contain_text(["Burns"])
    assert not barriers_in_both_looks(page)
    page.locator("[data-key=read]").click()
    screen_is(page, "weigh")
    expect(page.locator(".heedful .sign figcaption")).to_contain_text(["Burns"])
    expect(page.locator(".heedful")).to_contain_text("In an eye: rinse, see a doctor.")
    assert not barriers_in_both_looks(page)
    assert not sideways(page)


def test_what_is_done_by_a_cup_is_read_beside_what_is_heeded(own_desk: DeskProcess, open_page: Opening) -> None:
    """On a phone, however much is to be heeded: the sentence is not covered, and of what is done two lines are seen."""
    plan = hazard_plan()
    long = tuple(replace(each, lines=(Line("", "It burns, and is hot. " * 16),)) for each in plan.cautions)
    does = tuple(Line("", f"{n}. Lay it on by hand, pressed in, wet through.") for n in range(1, 9))
    mixed = {"coat-1-mix": {"coat": None, "do": does}}
    steps = tuple(replace(each, **mixed.get(each.id, {})) for each in plan.steps)
    run = begin(own_desk, coat_met(2 * MINUTE), plan=replace(plan, cautions=long, steps=steps))
    page = at_bench(open_page, own_desk, run, PHONE)
    screen_is(page, "lay")
    title, lines, heeded = (page.locator(f"main > {name}").bounding_box() for name in ("h1", ".lines", ".heedful"))
    assert title
    assert lines
    assert heeded
    assert title["y"] + title["height"] <= lines["y"] < heeded["y"]
    assert min(lines["y"] + lines["height"], heeded["y"]) - lines["y"] > 2 * 27
    assert not barriers_in_both_looks(page)


SCENES: dict[str, list[Then]] = {
    "done": [],
    "weigh": at_coat(),
    "lay": coat_met(2 * MINUTE),
    "pour": skin_met(30 * SECOND),
    "wait": done(HOUR, "receive") + done(SECOND, "release"),
}


@pytest.mark.parametrize("name", SCENES)
def test_nobody_is_barred_from_a_screen_of_the_run(own_desk: DeskProcess, open_page: Opening, name: str) -> None:
    page = at_bench(open_page, own_desk, begin(own_desk, SCENES[name]), PHONE)
    assert not barriers_in_both_looks(page)
    assert not too_small(page, LEAST_PX)
    assert not sideways(page)


def test_nobody_is_barred_from_what_lies_over_the_work(own_desk: DeskProcess, open_page: Opening) -> None:
    page = at_bench(open_page, own_desk, begin(own_desk, at_coat()), PHONE)
    for way in (
        ["more"],
        ["more", "sheets"],
        ["more", "log"],
        ["more", "others"],
        ["more", "aside-problem-2"],
        ["over"],
    ):
        for key in way:
            if page.locator(f"[data-key={key}]").count():
                page.locator(f"[data-key={key}]").click()
        assert barriers(page) == [], way
        assert not too_small(page, LEAST_PX), way
        page.keyboard.press("Escape")
    page.locator("[data-key=over]").click()
    page.keyboard.type("101.2")
    page.locator("[data-key=take]").click()
    screen_is(page, "put-right")
    assert not barriers_in_both_looks(page)
    assert not too_small(page, LEAST_PX)
