"""Every box that an event tells is a box of the sheets, and says what that event is about."""

from __future__ import annotations

import pytest

from moldwright.bench.boxes import BOXES, BoxOf, box_of
from moldwright.plan.lines import Line, own_line
from moldwright.steps.sheet import step_sheets

WRITTEN = {line.key: line.text for sheet in step_sheets() for line in sheet.write}
SAYS = {
    BoxOf.AIR: "Shop temperature",
    BoxOf.DATE: "Date",
    BoxOf.THICKNESS: "Thickness, least and most",
    BoxOf.POURED: "Poured at",
    BoxOf.CAST_MASS: "Cast weighs",
    BoxOf.CAST_HEIGHT: "Height",
    BoxOf.NUMBER: "Number",
}


@pytest.mark.parametrize("key", sorted(WRITTEN))
def test_a_box_is_told_by_the_event_of_what_it_says(key: str) -> None:
    told = box_of(Line(key))
    assert SAYS.get(told, WRITTEN[key]) == WRITTEN[key]
    assert (told is BoxOf.WRITTEN) == (WRITTEN[key] not in SAYS.values())


def test_every_key_is_a_box_and_the_makers_own_is_written_as_it_stands() -> None:
    assert set(BOXES) <= set(WRITTEN)
    assert box_of(own_line("Date")) is BoxOf.WRITTEN
