"""How the glove comes off, as it is told: it slides, is rolled over its tightest place, or is slit, which stands in
every step that it matters to. Common practice, no source."""

from __future__ import annotations

from dataclasses import replace

import pytest
from steps_context import context, measures
from told import Told, told

from moldwright.plan.cautions import Severity
from moldwright.plan.life import LifePlan, molds_for
from moldwright.plan.peel import NOT_PEELED, PeelFound, PeelPlan, PeelShape, PeelWay, SlitPlan, TightPlace
from moldwright.plan.seam import SeamPlan
from moldwright.ranges import Range
from moldwright.steps.shape_cautions import ShapeFindings, shape_cautions

PLACE = TightPlace((0.0, 0.0, 88.0), 96.0, 150.0, 0.0, 270.0, 1.8)
CUT = SlitPlan(182.0, 164.0, 1.2, ((0.0, 20.0, 112.0),), SeamPlan((), (), 10.0, 40.0))


def job(way: PeelWay) -> Told:
    slit = CUT if way is PeelWay.SLIT else None
    places = () if way is PeelWay.SLIDE else (PLACE,)
    found = PeelFound(PeelPlan(way, 3.0, PeelShape(1.8 if places else 1.0, 210.0, places, 13.0, 0.1)), slit)
    return told(context(volumes=replace(measures(), peel=found)))


def said(done: Told, step: str) -> str:
    return " ".join(done.step(step).texts)


def test_it_slides_where_nothing_is_wider() -> None:
    done = job(PeelWay.SLIDE)
    assert "like a sock" in said(done, "peel")
    assert "Roll it" not in said(done, "peel")
    assert "Slide the glove off" in said(done, "demold")


def test_a_glove_that_nobody_has_peeled_is_not_told_to_slide() -> None:
    done = told(context(volumes=replace(measures(), peel=NOT_PEELED)))
    assert NOT_PEELED.plan.way is PeelWay.UNKNOWN
    assert "sock" not in said(done, "peel")
    assert "Slide the glove off" not in said(done, "demold")


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


def test_a_slit_takes_its_minutes_of_every_cast() -> None:
    """182 mm: half a minute a decimeter to close it, a fifth to open it; 164 mm of line, a minute and a half each to
    dress: common practice, no source."""
    whole, slit = job(PeelWay.ROLL), job(PeelWay.SLIT)
    for step, minutes in (("reseat", 0.5 * 1.82), ("demold", 0.2 * 1.82), ("flash", 1.5 * 1.64)):
        assert slit.step(step).labor_min - whole.step(step).labor_min == pytest.approx(minutes, abs=0.051)
    assert slit.step("slit").labor_min == pytest.approx(15 + 5 * 1.82, abs=0.051)


def test_an_edition_that_outlives_one_glove_is_told_before_the_original_goes_back() -> None:
    """35 casts are likely; 24 asked for take one glove, 60 two."""
    casts = Range(15.0, 35.0, 80.0)
    for count, molds in ((24, 1), (60, 2)):
        life = LifePlan(casts, casts, "class", (), Range(40.0, 50.0, 60.0), molds_for(count, casts), 90)
        every = shape_cautions(ShapeFindings(0.0, life=life), measures().piece, None)
        found = [each for each in every if each.rule == "outlived"]
        assert [each.step for each in found] == (["return-original"] if molds > 1 else [])
        if found:
            assert [each.value for each in found[0].quantities] == [35, 2]
            assert found[0].severity is Severity.HEED
