"""A material that the maker leaves out has no step; what guards the original stands on the step before it."""

from __future__ import annotations

import pytest
from steps_context import context, work_steps
from told import ToldStep, told

from moldwright.commission.orders import CastOrder, MoldOrder
from moldwright.materials import library
from moldwright.quantities.quantities import Quantities
from moldwright.ranges import Range
from moldwright.steps.coat_quoted import job_numbers
from moldwright.steps.flags import Flag, flags_of

BONDS = ("silicone-bonds", "latex-grips", "urethane-bonds")


def steps_of(job: Quantities) -> dict[str, ToldStep]:
    return {step.id: step for step in work_steps(job)}


def rules_on(job: Quantities, step: str) -> set[str]:
    return {caution.rule for caution in told(job).cautions if caution.step == step}


@pytest.mark.parametrize(
    ("rubber", "rule"),
    [("addition-cure-a10-slow", BONDS[0]), ("latex", BONDS[1]), ("urethane-a30", BONDS[2])],
)
def test_without_a_release_the_stop_stands_where_the_gaps_are_closed(rubber: str, rule: str) -> None:
    bare = context(mold=MoldOrder(rubber=rubber, release="none"))
    assert "release" not in steps_of(bare)
    assert rules_on(bare, "gaps") & set(BONDS) == {rule}
    assert not [text for text in steps_of(bare)["coat-1-mix"].before if "release" in text]
    usual = context(mold=MoldOrder(rubber=rubber))
    assert rules_on(usual, "release") & set(BONDS) == {rule}
    assert not rules_on(usual, "gaps") & set(BONDS)


def test_without_a_sealer_the_drop_of_water_is_tried_while_cleaning() -> None:
    bare = context(mold=MoldOrder(sealer="none"))
    assert "seal" not in steps_of(bare)
    assert "porous-unsealed" in rules_on(bare, "clean")
    assert any("drop of water" in line for line in steps_of(bare)["clean"].do)
    sealed = context(mold=MoldOrder(sealer="acrylic"))
    assert "porous-unsealed" in rules_on(sealed, "seal")
    assert "porous-unsealed" not in rules_on(sealed, "clean")
    assert any("drop of water" in line for line in steps_of(sealed)["seal"].do)
    assert not any("drop of water" in line for line in steps_of(sealed)["clean"].do)


def test_a_resin_that_no_cup_holds_is_not_warned_of() -> None:
    """A back-fill of another class than the skin, in a cast that stays hollow."""
    with_fill = context(cast=CastOrder(resin="polyester", backfill="urethane-standard"))
    assert "hazards.backfill" in rules_on(with_fill, "back-fill")
    hollow = context(cast=CastOrder(resin="polyester", backfill="none"))
    assert not [c for c in told(hollow).cautions if c.rule == "hazards.backfill"]


def test_labor_counts_the_minutes_of_the_resins_own_sheet() -> None:
    """The clock of a cup of resin is its sheet's (and two minutes of sifting in a slow one), not that of rubber."""
    for resin, sifting_s in (("urethane-standard", 0.0), ("urethane-clear", 120.0)):
        job = context(cast=CastOrder(resin=resin, backfill="none"))
        cups, sheet = len(job.cast.mixes), job.basis.chosen.resin
        assert job_numbers(job)["skin.mix_min"] == pytest.approx(cups * (sheet.mix_s.likely + sifting_s) / 60.0)
        assert job_numbers(job)["backfill.mix_min"] == 0.0


def test_an_unfilled_slow_resin_may_be_deaired() -> None:
    """Whether powder is wetted out first and whether there is time to de-air are two questions."""
    slow, fast = (flags_of(context(cast=CastOrder(resin=id_))) for id_ in ("urethane-clear", "urethane-standard"))
    assert {Flag.WET_FIRST, Flag.TIME_TO_DEAIR} & slow == {Flag.TIME_TO_DEAIR}
    assert {Flag.WET_FIRST, Flag.TIME_TO_DEAIR} & fast == {Flag.WET_FIRST}
    assert Flag.TIME_TO_DEAIR in flags_of(context(cast=CastOrder(resin="urethane-clear", powder="none")))


def test_wax_hazes_as_its_sheet_tells() -> None:
    """3 h of the shop's own paste wax, an hour of its dark wax."""
    own = library({"own.toml": '[wax.paste-wax]\ndry = "3 h"\n[wax.dark-wax]\ndry = "1 h"'})
    waits = {step.id: step.wait_min for step in told(context(known=own), "", own).steps}
    assert waits["wax-rubber"] == Range.exactly(180.0)
    assert waits["dark-wax"] == Range.exactly(60.0)


def test_the_shops_own_thickener_is_in_the_cup() -> None:
    """A denser agent takes less of the cup: grams stay, milliliters follow the sheet's density."""
    text = "[thixotrope.silicone-thixotrope]\ndensity_g_ml = 2.0"
    cups = [context(known=known).rubber.mixes[-1].parts[-1] for known in (library(), library({"own.toml": text}))]
    assert cups[0].mass_g == pytest.approx(cups[1].mass_g, abs=2 * 0.01)  # a mark of the syringe is 0.01 ml
    assert cups[0].volume_ml == pytest.approx(2.0 * cups[1].volume_ml, abs=2 * 0.01)
