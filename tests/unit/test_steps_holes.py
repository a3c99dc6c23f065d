"""What is done with each through-hole: told by its letter and width, opened before anything is rolled.

A hole of 1.8 mm under a glove of 4 mm: the rubber of its two sides, 8 mm together, would meet in it, so no divider
stands in it. The rest is common practice, no source.
"""

from __future__ import annotations

from dataclasses import replace

import pytest
from made_up_job import holes
from steps_context import context, measures
from told import Told, told
from told import done as work_of

from moldwright.commission.orders import MoldOrder, ShopOrder, UnitSystem
from moldwright.plan.original import HoleTreat, treat_of
from moldwright.plan.peel import PeelFound, PeelPlan, PeelShape, PeelWay
from moldwright.quantities.quantities import Quantities

WIDE, NARROW = 30.0, 1.8


def job(*widths_mm: float, release: str = "", shop: ShopOrder | None = None) -> Quantities:
    slides = PeelFound(PeelPlan(PeelWay.SLIDE, 3.0, PeelShape(1.0, 210.0, (), 13.0, 0.1)))
    volumes = replace(measures(piece__holes=holes(*widths_mm)), peel=slides)
    return context(mold=MoldOrder(release=release), shop=shop, volumes=volumes)


def lines(done: Told, step: str) -> list[str]:
    return list(done.step(step).do)


def place(done: Told, step: str, words: str) -> int:
    return next(n for n, line in enumerate(lines(done, step)) if words in line)


@pytest.mark.parametrize(
    ("width", "glove", "treat"),
    [
        (1.8, 4.0, HoleTreat.STOP),
        (7.9, 4.0, HoleTreat.STOP),
        (8.1, 4.0, HoleTreat.DIVIDER),
        (7.9, 3.0, HoleTreat.DIVIDER),
    ],
)
def test_a_hole_narrower_than_two_coats_is_stopped(width: float, glove: float, treat: HoleTreat) -> None:
    assert treat_of(width, glove) is treat


def test_each_divider_has_the_size_of_its_sheet_and_a_stopped_hole_has_none() -> None:
    """A hole of 45 by 30 mm and 5 mm to trim on each side; in inches to the next sixteenth: 2 3/16 by 1 9/16."""
    said = next(line for line in lines(told(job(NARROW, WIDE)), "handles") if line.startswith("Cut the sheet"))
    assert "B (55 mm × 40 mm)" in said
    assert "A (" not in said
    us = lines(told(job(WIDE, shop=ShopOrder(units=UnitSystem.US))), "handles")
    assert any("A (2 3/16 in × 1 9/16 in)" in line for line in us)


def test_each_hole_is_told_by_its_letter_with_its_width() -> None:
    done = told(job(NARROW, WIDE))
    said = lines(done, "handles")
    divider = next(line for line in said if line.startswith("Divider in"))
    stop = next(line for line in said if line.startswith("Stop "))
    assert "B (30 mm)" in divider
    assert "A (" not in divider
    assert "A (" in stop
    assert "clay or wax" in stop
    assert "B (" not in stop


def test_a_narrow_hole_is_told_to_take_no_divider() -> None:
    done = told(job(NARROW))
    said = " ".join((*done.step("handles").texts, *done.step("peel").texts, *done.step("demold").texts))
    assert "divider in" not in said.casefold()
    assert "thin sheet" not in said
    assert "cut the web" not in said


def test_what_is_stopped_is_told_as_lost_detail_of_this_job() -> None:
    made = work_of(job(NARROW))
    lost = [each for each in made.cautions if each.rule == "lost-detail"]
    assert len(lost) == 1
    assert lost[0].particular
    assert lost[0].ruins
    assert lost[0].step == "handles"
    assert "lost detail" in told(job(NARROW)).on("handles")
    assert "Stopped in the mold: A (" in " ".join(lines(told(job(NARROW)), "flash"))
    assert not [each for each in work_of(job(WIDE)).cautions if each.rule == "lost-detail"]


def test_the_web_is_opened_before_the_glove_is_moved() -> None:
    done = told(job(WIDE))
    assert place(done, "peel", "cut the web") < place(done, "peel", "like a sock")
    assert place(done, "demold", "Open the cut in A (30 mm)") < place(done, "demold", "Slide the glove off")


@pytest.mark.parametrize("release", ["none", "petroleum-jelly"])
def test_dividers_are_released_with_the_whole_or_not_at_all(release: str) -> None:
    done = told(job(WIDE, release=release))
    step = done.step("handles")
    assert not any("release" in text.casefold() for text in (*step.needs, *step.do, *step.before))
    ids = [each.id for each in done.steps]
    assert ("release" in ids) is (release != "none")
    if "release" in ids:
        assert ids.index("gaps") < ids.index("handles") < ids.index("release")
        assert any("each divider" in line for line in lines(done, "release"))


def test_widths_are_in_the_readers_units() -> None:
    done = told(job(WIDE, shop=ShopOrder(units=UnitSystem.US)))
    assert "mm" not in " ".join(done.step("handles").texts)


def test_no_hole_no_step() -> None:
    done = told(job())
    assert "handles" not in [step.id for step in done.steps]
    assert "hole" not in " ".join((*done.step("peel").texts, *done.step("demold").texts)).replace("whole", "")


def test_a_divider_is_sealed_on_both_sides_and_proven_with_a_lamp() -> None:
    said = " ".join(lines(told(job(WIDE)), "handles"))
    assert "on both sides" in said
    assert "no light" in said
    assert "clay" not in " ".join(line for line in lines(told(job(WIDE)), "handles") if "web" in line)


def test_what_a_divider_parts_needs_no_clay_wall() -> None:
    """A wall as high as the flange is wide has no room in a hole: there the divider parts the shell."""
    parted, whole = told(job(WIDE)), told(job())
    assert any("No clay in A (30 mm)" in line for line in lines(parted, "clay-wall"))
    assert any("A (30 mm)" in line and "length leaves it out" in line for line in lines(parted, "mark-seam"))
    for laid in ("shell-2", "shell-1"):
        assert any("A (30 mm)" in line and "no farther" in line for line in lines(parted, laid))
    for step in ("clay-wall", "mark-seam", "shell-2", "shell-1"):
        assert "divider" not in " ".join(lines(whole, step))
        assert "A (" not in " ".join(lines(told(job(NARROW)), step))


def test_clamps_are_told_by_their_number_in_both_units() -> None:
    """634 mm of the flange's edge and 520 mm of seam, one every 100 mm: 7 and 6; common practice, no source."""
    for units in UnitSystem:
        needs = told(job(shop=ShopOrder(units=units))).step("close-shell").needs
        assert any(need.startswith("13 clamps") for need in needs), needs
