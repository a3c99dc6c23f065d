"""Hands that do what a person does at a page and nothing else: with mouse and keys, or with a single knuckle."""

from __future__ import annotations

import math
from pathlib import Path
from random import Random
from typing import Protocol

import pytest
from playwright.sync_api import Locator, Page, expect

PATIENT_MS = 900_000
KNUCKLE_MS, MOST_TYPED = 60, 3
MISSES_BY_PX = 12.0
FINGER_PX = 11.0


class Hands(Protocol):
    """What a test does at a page, by whichever hand."""

    page: Page

    def press(self, place: Locator) -> None:
        """Press what stands there."""

    def give(self, place: Locator, file: Path) -> None:
        """Bring a file to the place that takes one (`data-drop`)."""


def write(hands: Hands, field: Locator, text: str) -> None:
    """Type into a field, in place of what stood there; what is not there as typed is seen, and typed again.

    Keys typed within 10 ms of a tap are lost now and then, before the browser has put its caret.
    """
    for _ in range(MOST_TYPED):
        hands.press(field)
        expect(field).to_be_focused(timeout=PATIENT_MS)
        if field.input_value():
            field.page.keyboard.press("ControlOrMeta+a")
        field.page.keyboard.type(text)
        if field.input_value() == text:
            return
    pytest.fail(f"{field.input_value()} stands where {text} was typed {MOST_TYPED} times")


def write_day(hands: Hands, field: Locator, day: str) -> None:
    """A date, as the browser's own field takes it.

    Parameters
    ----------
    hands : whose.
    field : of the date.
    day : ISO 8601.
    """
    hands.press(field)
    field.fill(day)


def choose(hands: Hands, field: Locator, words: str) -> None:
    """One of a list: pressed open, then what the device's own list offers."""
    hands.press(field)
    field.page.keyboard.press("Escape")
    told = [each for each in field.locator("option").all_inner_texts() if words in each]
    assert told, f"none of the list says {words}"
    field.select_option(label=told[0])


class DryHands:
    """Mouse and keyboard; files are dropped from outside the browser."""

    def __init__(self, page: Page) -> None:
        self.page = page

    def press(self, place: Locator) -> None:
        """A click in its middle."""
        place.click(timeout=PATIENT_MS)

    def give(self, place: Locator, file: Path) -> None:
        """Dragged over the place and let go, as the system's own file window does it."""
        place.scroll_into_view_if_needed()
        box = place.bounding_box()
        assert box is not None
        at = {"x": box["x"] + box["width"] / 2, "y": box["y"] + box["height"] / 2}
        carried = {"items": [], "files": [str(file)], "dragOperationsMask": 1}
        session = self.page.context.new_cdp_session(self.page)
        for kind in ("dragEnter", "dragOver", "drop"):
            session.send("Input.dispatchDragEvent", {"type": kind, **at, "data": carried})
        session.detach()


class Knuckle:
    """One gloved knuckle on a touch screen: one tap at a time, 60 ms long, up to 12 px off the middle of what is meant.

    `struck` tells what took each tap in place of what was meant.
    """

    def __init__(self, page: Page, seed: int = 10) -> None:
        self.page = page
        self.taps = 0
        self.struck: list[str] = []
        self._chance = Random(seed)
        self._session = page.context.new_cdp_session(page)

    def press(self, place: Locator) -> None:
        """A tap."""
        expect(place).to_be_enabled(timeout=PATIENT_MS)
        off, way = MISSES_BY_PX * math.sqrt(self._chance.random()), 2.0 * math.pi * self._chance.random()
        while (aimed := place.evaluate(AIM, [off * math.cos(way), off * math.sin(way)])) is None:
            self.page.wait_for_timeout(KNUCKLE_MS)
        x, y, hit = aimed
        if hit:
            self.struck.append(hit)
        point = {"x": x, "y": y, "radiusX": FINGER_PX, "radiusY": FINGER_PX}
        self._session.send("Input.dispatchTouchEvent", {"type": "touchStart", "touchPoints": [point]})
        self.page.wait_for_timeout(KNUCKLE_MS)
        self._session.send("Input.dispatchTouchEvent", {"type": "touchEnd", "touchPoints": []})
        self.taps += 1

    def give(self, place: Locator, file: Path) -> None:
        """By the button and the device's own list of files."""
        with self.page.expect_file_chooser() as asked:
            self.press(place.locator("label.button"))
        asked.value.set_files(file)


AIM = """(meant, [dx, dy]) => {
  if (!meant.isConnected) return null;
  const whole = meant.closest('label') ?? meant;
  const meant_by = [whole, ...(meant.labels ?? [])];
  const owns = (there) => there !== null && meant_by.some((one) => one.contains(there));
  const middle = () => {
    const box = whole.getBoundingClientRect();
    return [box.x + box.width / 2, box.y + box.height / 2];
  };
  const free = (down) => owns(document.elementFromPoint(middle()[0], middle()[1] + down));
  if (![-15, 0, 15].every(free)) whole.scrollIntoView({ block: 'center', behavior: 'instant' });
  const [x, y] = [middle()[0] + dx, middle()[1] + dy];
  const there = document.elementFromPoint(x, y);
  const told = (one) => one?.outerHTML.slice(0, 120) ?? 'nothing';
  return [x, y, owns(there) ? '' : `${told(meant)} hit ${told(there)}`];
}"""
"""Brought into view where it, or its edge, is not; where the tap lands, and what lies there in place of what is meant.
None: it was drawn anew meanwhile."""
