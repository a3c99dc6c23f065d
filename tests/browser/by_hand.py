"""A job from the scan to the numbered cast, each part of it as a person does it at the desk's pages.

Time passes here as it does for who works from paper: what waits was done earlier, and that is typed in from the sheets.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import date, timedelta
from pathlib import Path

from playwright.sync_api import Locator, Page, expect
from tests.browser.hands import PATIENT_MS, Hands, choose, write, write_day

NAME = "Otter on a river stone"
BEGAN_AGO_DAYS, SHEET_DAYS = 120, 4
"""The first sheet was written so long ago, each next one so many days later: longer than most waits."""
FIGURES = {"g": "50", "mm": "2", "°C": "22"}
"""What is typed in a box, by its unit: invented."""
LOOK_MS, GIVEN_UP_MS, MOST_LOST = 50, 10_000, 4
"""Nobody waits longer for something to come of a press; so many are let pass on a busy machine."""


def place_of(page: Page, words: str) -> Locator:
    """A place in the bar; on a phone some are behind More."""
    nav = page.get_by_role("navigation", name="Places")
    return nav.get_by_role("link", name=words, exact=True).locator("visible=true")


def go(hands: Hands, words: str) -> None:
    """To a place of the shop."""
    if not place_of(hands.page, words).count():
        hands.press(hands.page.get_by_role("navigation", name="Places").locator("summary"))
    hands.press(place_of(hands.page, words).first)
    expect(hands.page.get_by_role("heading", level=1)).to_be_visible(timeout=PATIENT_MS)


@dataclass(frozen=True, slots=True)
class Asked:
    """What is asked for when the piece is taken in."""

    count: str
    due: str
    more: tuple[tuple[str, str], ...] = ()


def take_in(hands: Hands, scan: Path, asked: Asked) -> None:
    """The scan is brought, its doubts are settled, what it shall be is told, and it is taken in."""
    page = hands.page
    go(hands, "Take in")
    hands.give(page.locator("[data-drop='scan']"), scan)
    settle(hands)
    write(hands, page.get_by_label("What is it called"), NAME)
    choose(hands, page.get_by_label("What is it made of"), "plastic")
    write(hands, page.get_by_label("How many casts"), asked.count)
    unfold(hands, page.get_by_label("By when"))
    write_day(hands, page.get_by_label("By when"), asked.due)
    for label, words in asked.more:
        fill(hands, page.get_by_label(label), words)
    expect(page.locator(".rubber")).to_be_visible(timeout=PATIENT_MS)
    hands.press(page.get_by_role("button", name="Take it in"))
    expect(page.get_by_role("heading", level=1)).to_have_text(NAME, timeout=PATIENT_MS)


def fill(hands: Hands, field: Locator, words: str) -> None:
    """An answer, typed or chosen."""
    unfold(hands, field)
    if field.evaluate("it => it.tagName") == "SELECT":
        choose(hands, field, words)
    else:
        write(hands, field, words)


def unfold(hands: Hands, field: Locator) -> None:
    """What a field is folded in is pressed open."""
    folded = field.locator("xpath=ancestor::details[not(@open)]")
    if folded.count():
        hands.press(folded.first.locator("summary").first)


def settle(hands: Hands) -> None:
    """The doubts of a look, each by pressing its answer."""
    page = hands.page
    found, size = page.locator(".looked-at"), page.get_by_role("button", name="(mm)")
    up = page.get_by_role("button", name=re.compile("This way: .*z"))
    for _ in range(2):
        expect(found.or_(size).or_(up).first).to_be_visible(timeout=PATIENT_MS)
        if found.is_visible():
            return
        asks = size if size.is_visible() else up
        hands.press(asks.first)
        expect(page.locator("mw-work").or_(found).first).to_be_visible(timeout=PATIENT_MS)
    expect(found).to_be_visible(timeout=PATIENT_MS)


def planned(hands: Hands) -> None:
    """Long work goes on by itself, and its page says when it is there."""
    expect(hands.page.get_by_role("heading", name="At the bench")).to_be_visible(timeout=PATIENT_MS)


def see_mold(hands: Hands) -> None:
    """The mold in 3-D, from another side, and a place of it read."""
    page = hands.page
    hands.press(page.get_by_role("navigation", name="Of this piece").get_by_role("link", name="Mold", exact=True))
    canvas = page.locator("mw-mold canvas")
    expect(canvas).to_be_visible(timeout=PATIENT_MS)
    folded = page.locator("mw-mold summary").filter(has_text="Look from")
    if folded.is_visible():
        hands.press(folded)
    hands.press(page.locator("mw-mold").get_by_text("Left", exact=True))
    hands.press(canvas)
    expect(page.locator("mw-mold")).to_contain_text("This place", timeout=PATIENT_MS)


def open_edition(hands: Hands, size: str) -> None:
    """An edition whose numbers the casts get."""
    page = hands.page
    go(hands, "Editions")
    write(hands, page.get_by_label("Called"), NAME)
    write(hands, page.get_by_label("Numbers"), size)
    hands.press(page.get_by_role("button", name="Open it"))
    expect(page.locator(".edition-row")).to_contain_text(NAME, timeout=PATIENT_MS)


def to_piece(hands: Hands) -> None:
    """From anywhere to the piece's page."""
    go(hands, "Today")
    hands.press(hands.page.locator("main").get_by_role("link", name=NAME, exact=True))
    expect(hands.page.get_by_role("heading", name="At the bench")).to_be_visible(timeout=PATIENT_MS)


def begin_run(hands: Hands, casts: str, opens: str = "") -> None:
    """To the bench with the first run of the piece; its edition of so many numbers is opened there, or was before."""
    page = hands.page
    to_piece(hands)
    write(hands, page.get_by_label("Casts of this run"), casts)
    if opens:
        choose(hands, page.get_by_label("Whose numbers"), "of a new edition")
        write(hands, page.get_by_label("Called"), NAME)
        write(hands, page.get_by_label("Numbers", exact=True), opens)
    else:
        choose(hands, page.get_by_label("Whose numbers"), NAME)
    hands.press(page.get_by_role("button", name="To the bench"))
    expect(page.locator("mw-bench[data-screen]")).to_be_visible(timeout=PATIENT_MS)


class AtBench:
    """Presses at the bench, one after the other, each what the screen asks for."""

    def __init__(self, hands: Hands) -> None:
        self.hands = hands
        self.page = hands.page
        self.kinds: dict[str, int] = {}
        self.lost: list[str] = []

    @property
    def bench(self) -> Locator:
        """The whole screen."""
        return self.page.locator("mw-bench")

    def screen(self) -> str:
        """Which sort of screen it is."""
        return self.bench.get_attribute("data-screen") or ""

    def state(self) -> str:
        """What is on it, clocks aside."""
        return self.bench.evaluate(STATE)

    def go_on(self) -> str:
        """Press on until all must wait or the run is over: which it is, is told."""
        while (screen := self.screen()) not in ("wait", "ended"):
            self.kinds[screen] = self.kinds.get(screen, 0) + 1
            if screen == "beyond":
                self.page.wait_for_timeout(LOOK_MS)
            elif screen == "ask":
                self.answer()
            else:
                self.pressed(self.bench.locator("button.do:not([disabled])").first)
        return screen

    def answer(self) -> None:
        """What a box asks is typed: on the pad, or in words."""
        asked = self.bench.locator(".asking")
        words = asked.locator("textarea")
        if words.count():
            write(self.hands, words, "as agreed")
        else:
            unit = (asked.locator(".typed").text_content() or "").split()[-1]
            for digit in FIGURES.get(unit, "1"):
                self.hands.press(asked.locator(f"[data-key='digit-{digit}']"))
        self.pressed(asked.locator("[data-key='take']"))

    def pressed(self, place: Locator) -> None:
        """Pressed, and looked whether something came of it; a press that was lost is seen, and made again."""
        before = self.state()
        self.hands.press(place)
        for _ in range(GIVEN_UP_MS // LOOK_MS):
            if self.state() != before:
                return
            self.page.wait_for_timeout(LOOK_MS)
        self.lost.append(before)
        assert len(self.lost) < MOST_LOST, self.lost

    def leave(self) -> None:
        """Away from the bench."""
        self.hands.press(self.bench.locator("[data-key='leave']"))
        expect(self.page.get_by_role("heading", level=1, name="Bench")).to_be_visible(timeout=PATIENT_MS)

    def back(self) -> None:
        """To the bench again."""
        go(self.hands, "Today")
        self.hands.press(self.page.get_by_role("link", name="To the bench").first)
        expect(self.page.locator("mw-bench[data-screen]")).to_be_visible(timeout=PATIENT_MS)

    def register_mold(self) -> bool:
        """The mold into the register, where it is made; whether it was."""
        self.more()
        mold = self.bench.locator("[data-key='mold']")
        made = mold.count() > 0
        self.hands.press(mold if made else self.bench.locator("[data-key='close']"))
        expect(self.bench.locator(".laid-over")).to_have_count(0, timeout=PATIENT_MS)
        return made

    def more(self) -> None:
        """What is not asked for now."""
        while self.screen() != "more":
            self.pressed(self.bench.locator("[data-key='more']"))
        expect(self.bench.locator(".laid-over")).to_be_visible(timeout=PATIENT_MS)

    def silence(self) -> None:
        """The sound is switched off."""
        self.more()
        sound = self.bench.locator("[data-key='sound']")
        self.hands.press(sound)
        expect(sound).to_have_attribute("aria-pressed", "false", timeout=PATIENT_MS)
        self.hands.press(self.bench.locator("[data-key='close']"))
        expect(self.bench.locator(".laid-over")).to_have_count(0, timeout=PATIENT_MS)


STATE = """bench => {
  const copy = bench.cloneNode(true);
  const moving = '.bench-top, .waits, .far-clock, [role=timer], [role=status]';
  for (const each of copy.querySelectorAll(moving)) each.remove();
  return bench.dataset.screen + '|' + copy.textContent;
}"""


class Paper:
    """Sheets that were written on earlier days, typed in sheet by sheet."""

    def __init__(self, hands: Hands, bench: AtBench) -> None:
        self.hands = hands
        self.bench = bench
        self.page = hands.page
        self.at = 1
        self.first = date.today() - timedelta(days=BEGAN_AGO_DAYS)

    def open(self) -> None:
        """From the bench to the sheets of its run."""
        self.bench.leave()
        to_piece(self.hands)
        self.hands.press(self.page.get_by_role("navigation", name="Of this piece").get_by_role("link", name="Log"))
        self.hands.press(self.page.get_by_role("link", name="Type in from paper"))
        expect(self.page.locator("mw-paper")).to_be_visible(timeout=PATIENT_MS)
        self.page.wait_for_load_state()

    def turn(self, sheet: int) -> None:
        """To a sheet by its number."""
        field = self.page.get_by_label("Which sheet")
        if field.input_value() == str(sheet):
            return
        field.select_option(str(sheet))
        self.hands.press(self.page.get_by_role("button", name="To that sheet"))
        self.at_sheet(sheet)

    def sheets(self) -> int:
        """How many there are."""
        return self.page.get_by_label("Which sheet").locator("option").count()

    def earlier(self) -> None:
        """What was pressed at the bench was done on earlier days: so stands on the sheets, and what waited goes on."""
        self.open()
        for sheet in range(self.at, self.sheets() + 1):
            self.turn(sheet)
            self.at = sheet
            there = self.page.locator(".box.tick:has(.there)")
            if not there.count():
                break
            whole = there.count() == self.page.locator(".box.tick").count()
            for row in range(there.count()):
                write(self.hands, there.nth(row).locator("input"), f"08:{row:02}")
            self.write_down(sheet)
            if not whole:
                break
        self.bench.back()

    def ticked(self, last: str) -> None:
        """Whole sheets, all their steps ticked, up to the one that holds a row like `last`."""
        self.open()
        for sheet in range(self.at, self.sheets() + 1):
            self.turn(sheet)
            self.at = sheet
            ends = self.page.locator(".box", has_text=last).count() > 0
            self.hands.press(self.page.get_by_role("button", name="Tick all steps of it"))
            self.write_down(sheet)
            if ends:
                break
        self.bench.back()

    def write_down(self, sheet: int) -> None:
        """The sheet's day, and in with it."""
        day = self.first + timedelta(days=SHEET_DAYS * sheet)
        write_day(self.hands, self.page.get_by_label("Date of this sheet"), day.isoformat())
        self.hands.press(self.page.get_by_role("button", name="Write this sheet down"))
        expect(self.page.locator("mw-paper output")).to_be_visible(timeout=PATIENT_MS)
        if sheet < self.sheets():
            self.at_sheet(sheet + 1)

    def at_sheet(self, sheet: int) -> None:
        """The page shows it."""
        expect(self.page).to_have_url(re.compile(f"sheet={sheet}$"), timeout=PATIENT_MS)
        expect(self.page.get_by_label("Which sheet")).to_have_value(str(sheet), timeout=PATIENT_MS)
        self.page.wait_for_load_state()


def numbered(hands: Hands) -> None:
    """The cast with its number on the edition's page."""
    page = hands.page
    go(hands, "Editions")
    hands.press(page.locator(".edition-row"))
    hands.press(page.get_by_role("link", name=re.compile("^1: ")))
    expect(page.locator("#chosen h2")).to_contain_text("1/2", timeout=PATIENT_MS)
    expect(page.locator("#chosen")).to_contain_text(re.compile("cast [0-9A-F-]+/1"))
