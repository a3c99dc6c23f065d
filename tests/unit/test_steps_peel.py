"""How the glove comes off, as it is told: it slides, is rolled over its tightest place, or is slit, which stands in
every step that it matters to. Common practice, no source."""

from __future__ import annotations

from dataclasses import replace

import pytest
from steps_context import context, measures
from told import Told, told

from moldwright.plan.cautions import Severity
from moldwright.plan.peel import NOT_PEELED, PeelFound, PeelWay, SlitPlan, TightPlace
from moldwright.plan.seam import SeamPlan

PLACE = TightPlace((0.0, 0.0, 88.0), 96.0, 150.0, 0.0, 270.0, 1.8)
CUT = SlitPlan(182.0, 164.0, 1.2, ((0.0, 20.0, 112.0),), SeamPlan((), (), 10.0, 40.0))


def job(way: PeelWay) -> Told:
    slit = CUT if way is PeelWay.SLIT else None
    places = () if way is PeelWay.SLIDE else (PLACE,)
    found = PeelFound(1.8 if places else 1.0, slit, replace(NOT_PEELED.plan, way=way, allowed=3.0, places=places))
    return told(context(volumes=replace(measures(), peel=found)))


def said(done: Told, step: str) -> str:
    return " ".join(done.step(step).texts)


def test_it_slides_where_nothing_is_wider() -> None:
    done = job(PeelWay.SLIDE)
    assert "like a sock" in said(done, "peel")
    assert "Roll it" not in said(done, "peel")
    assert "Slide the glove off" in said(done, "demold")


def test_it_is_rolled_over_its_tightest_place() -> None:
    done = job(PeelWay.ROLL)
    assert "Tightest 88 mm above the board: 150 mm of rubber round passes over 270 mm, stretched 1.8 times" in said(
        done, "peel"
    )
    assert "ask the owner" in said(done, "peel")
    assert "slit" not in {step.id for step in done.steps}


def test_a_slit_is_cut_before_it_is_peeled_and_closed_before_each_cast() -> None:
    done = job(PeelWay.SLIT)
    order = [step.id for step in done.steps]
    assert order.index("open-shell") < order.index("talc") < order.index("slit") < order.index("peel")
    assert "182 mm" in said(done, "slit")
    assert "112 mm above the board" in said(done, "slit")
    assert "the slit is shut" in said(done, "reseat")
    assert "Open the slit" in said(done, "demold")
    assert "164 mm" in said(done, "flash")
    assert "will not widen enough" not in said(done, "peel")


@pytest.mark.parametrize("words", ["strip of plastic", "small round hole"])
def test_how_it_is_cut(words: str) -> None:
    assert words in said(job(PeelWay.SLIT), "slit")


def test_the_blade_is_told_and_never_reaches_the_original() -> None:
    done = job(PeelWay.SLIT)
    told_there = {caution.rule: caution for caution in done.cautions if caution.step == "slit"}
    assert told_there["scored-original"].severity is Severity.STOP
    assert "cut away from hand and body" in " ".join(caution.text for caution in told_there.values())


def test_the_owner_is_asked_before_anything_is_mixed() -> None:
    """The line that a slit leaves stands on the first step, with its length on the cast."""
    first = [caution for caution in job(PeelWay.SLIT).cautions if caution.rule == "slit-line"]
    assert [caution.step for caution in first] == ["receive"]
    assert "164 mm" in first[0].text
    assert "Ask the owner" in first[0].text
    assert not [caution for caution in job(PeelWay.ROLL).cautions if caution.rule == "slit-line"]
