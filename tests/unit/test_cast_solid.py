"""When a cast is solid, and what its sheets say then: one mix, no back-fill anywhere, its heat in words."""

from __future__ import annotations

import pytest
from made_up_job import commission, job_of, volumes
from told import Told, done, told

from moldwright.cast.piece import solid_why
from moldwright.commission.orders import CastOrder
from moldwright.commission.reading import commission_from_toml
from moldwright.errors import InputRefused
from moldwright.plan.cast import CastWay, SolidWhy
from moldwright.plan.mixes import BACK_FILL, SKIN
from moldwright.plan.steps import Phase
from moldwright.quantities.quantities import Quantities
from moldwright.steps.flags import Flag, flags_of
from moldwright.steps.waits import Wait, wait_s

ORDERED = job_of(commission(cast=CastOrder(solid=True)))
SMALL = job_of(commission(), measures=volumes(skin__whole_ml=615.0, skin__core_kept_ml=5.0))
HOLLOW = job_of(commission(cast=CastOrder(backfill="none")))
FILLED = job_of(commission())

# Densities of the sheets: A 1.05, B 1.10, bronze 3.0 loose and 8.78 true; 8 % waste.
SKIN_G_ML = (1.05 + 1.10 + 3.0) / (2 + 3.0 / 8.78)


@pytest.mark.parametrize(
    ("core_ml", "kept_ml", "why"),
    [
        (470.0, 424.0, None),
        (0.0, 0.0, SolidWhy.NO_CORE),
        (5.0, 5.0, SolidWhy.SMALL_CORE),
        (12.0, 12.0, SolidWhy.SMALL_CORE),
        (13.0, 12.5, None),
        (60.0, 2.0, SolidWhy.IN_PLINTH),
    ],
)
def test_a_core_that_is_not_worth_a_cup(core_ml: float, kept_ml: float, why: SolidWhy | None) -> None:
    """Of a cavity of 620 ml 2 % are 12.4 ml; under 10 ml nobody mixes a cup: common practice, no source."""
    assert solid_why(620.0, core_ml, kept_ml, False) is why
    assert solid_why(620.0, core_ml, kept_ml, True) is SolidWhy.ORDERED
    assert solid_why(30.0, 9.9, 9.9, False) is SolidWhy.SMALL_CORE
    assert solid_why(30.0, 10.0, 10.0, False) is None


@pytest.mark.parametrize("job", [ORDERED, SMALL])
def test_a_solid_cast_is_one_mix(job: Quantities) -> None:
    """All 620 ml in the skin's mix with 8 % of waste; the piece of 560 ml weighs its volume, and no hand varies it."""
    assert job.cast.cast.way is CastWay.SOLID
    assert not job.mixes_for(BACK_FILL)
    assert sum(mix.mass_g for mix in job.mixes_for(SKIN)) == pytest.approx(620 * SKIN_G_ML * 1.08, rel=0.005)
    assert job.cast.cast.mass_g.likely == pytest.approx(560 * SKIN_G_ML, rel=1e-3)
    assert (job.cast.cast.backfill_ml, job.cast.cast.skin.volume_ml) == (0.0, 620.0)
    assert "urethane-standard" not in {need.id for need in job.needs}


def test_a_solid_cast_is_poured_not_swirled() -> None:
    """The same resin in the same cups: what is not swirled may be poured for all of its time, so cups are fewer."""
    skin_ml, solid_ml = 150.0, 620.0
    a_cup = [max(mix.mass_g for mix in job.mixes_for(SKIN)) for job in (FILLED, ORDERED)]
    assert a_cup[1] > a_cup[0] or len(ORDERED.mixes_for(SKIN)) < solid_ml / skin_ml * len(FILLED.mixes_for(SKIN))
    assert not any(task.kind == "swirl" for mix in ORDERED.mixes_for(SKIN) for task in mix.tasks)


def all_of(made: Told) -> str:
    return " ".join(text for step in made.steps for text in step.texts)


@pytest.mark.parametrize(("job", "why"), [(ORDERED, "as ordered"), (SMALL, "is not worth a cup")])
def test_the_step_says_solid_why_and_what_heat(job: Quantities, why: str) -> None:
    made = told(job)
    step = made.step("skin")
    assert step.title == "Cast it solid"
    assert Flag.SOLID in flags_of(job)
    assert "back-fill" not in {each.id for each in made.steps}
    said = " ".join(step.do)
    assert "in lifts" in said
    assert "runs no more" not in said
    cautions = made.on("skin")
    assert all(
        words in cautions for words in (why, "620 ml", "runs cooler than the bare resin", "Pour in lifts".lower())
    )
    assert next(each for each in done(job).cautions if each.rule == "solid").particular
    lifts, planned = len(step.mixes) - 1, next(each for each in done(job).steps if each.id == "skin")
    if not lifts:
        assert step.wait_min is None, "nothing goes on what is tacky"
        return
    assert planned.waits_within
    assert step.wait_min is not None
    assert step.wait_min.likely == pytest.approx(lifts * wait_s(Wait.RESIN_TACK, job).likely / 60.0, abs=0.1)


def test_nothing_of_a_skin_is_told_of_a_solid_cast() -> None:
    text = all_of(told(ORDERED)).lower()
    assert "cast the skin" not in text
    assert "back-fill is laid out" not in text
    assert "till it is tacky" not in text


@pytest.mark.parametrize("job", [ORDERED, HOLLOW, FILLED])
def test_setting_is_no_back_fill(job: Quantities) -> None:
    assert next(step for step in done(job).steps if step.id == "exotherm").phase is Phase.SETTING


def test_a_hollow_cast_keeps_its_skin_and_its_hollow() -> None:
    """What of the hollow is not reached is skin: 150 ml as measured, no back-fill, 470 ml of air."""
    assert HOLLOW.cast.cast.way is CastWay.HOLLOW
    assert HOLLOW.cast.cast.skin.volume_ml == pytest.approx(150.0)
    assert told(HOLLOW).step("skin").title.startswith("Cast the skin")
    assert any("stays hollow" in text for text in told(HOLLOW).step("skin").do)
    closed = volumes(skin__closed_ml=30.0)
    said = told(job_of(commission(cast=CastOrder(backfill="none")), measures=closed)).on("skin")
    assert "30 ml lies deeper than the skin behind necks" in said.replace("30.0", "30")


def test_a_cast_that_is_solid_by_itself_is_assumed_so() -> None:
    assert "cast.solid" in {each.key for each in SMALL.assumed}
    assert "cast.solid" not in {each.key for each in FILLED.assumed}


def test_the_order_is_read() -> None:
    text = '[original]\nfile = "a.stl"\nheight = "60 mm"\n[cast]\nsolid = '
    assert commission_from_toml(text + "true").cast.solid is True
    assert commission_from_toml(text + "false").cast.solid is False
    with pytest.raises(InputRefused, match="true or false"):
        commission_from_toml(text + '"yes"')
