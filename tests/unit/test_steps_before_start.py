"""What can ruin this job is named before it begins, with its remedy; what every job has stands on its step alone.

Which pairs ruin a mold: the trade's common practice, no source. Sulfur stops an addition cure, silicone bonds to
silicone, a tin-cured original does both, urethane foams on damp ground.
"""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest
from made_up_job import commission, job_of
from sheets_fixture import plan as sample
from told import NO_SHAPE, done

from moldwright.commission.orders import CastOrder, MoldOrder
from moldwright.desk.summary import summary
from moldwright.photos.ask import Ask, AskKind, AskName
from moldwright.plan.cautions import Severity
from moldwright.plan.plan import Plan
from moldwright.steps.before_start import before_you_start
from moldwright.steps.shape_cautions import ShapeFindings


def planned(material: str, shape: ShapeFindings = NO_SHAPE, **orders: MoldOrder | CastOrder) -> Plan:
    """The made-up plan with the work of an order in it."""
    job = job_of(commission(material, **orders))  # type: ignore[arg-type]
    made = done(job, shape=shape)
    return replace(sample(), name="piece", steps=made.steps, cautions=made.cautions, mixes=job.mixes)


RUINED = [
    ("sulfur clay", MoldOrder(sealer="none"), "Sulfur poisons", "condensation-cure rubber"),
    ("silicone", MoldOrder(release="none"), "Silicone bonds to silicone for good", "A release made for silicone"),
    ("tin silicone", MoldOrder(), "Tin catalyst", "copy in plaster or resin"),
    ("plaster", MoldOrder(rubber="urethane-a30", release="none"), "Urethane foams on damp", "Dry the original"),
]


@pytest.mark.parametrize(("material", "mold", "why", "remedy"), RUINED)
def test_the_summary_names_what_ruins_this_job_with_its_remedy(
    material: str, mold: MoldOrder, why: str, remedy: str
) -> None:
    plan = planned(material, mold=mold)
    said = summary(plan, Path("out"))
    assert why in said
    assert remedy in said
    told = [each for each in before_you_start(plan) if each.caution.severity is Severity.STOP]
    assert told
    assert f"step {told[0].number}, " in said
    assert plan.steps[told[0].number - 1] is told[0].step
    assert told[0].caution.id in told[0].step.cautions


def test_an_ordinary_job_has_no_stop_of_its_own() -> None:
    """A rigid plastic under addition-cure silicone, urethane and bronze in it: the stops are those of every job."""
    plan = planned("plastic")
    assert [each for each in plan.cautions if each.severity is Severity.STOP]
    assert not [each for each in before_you_start(plan) if each.caution.severity is Severity.STOP]
    rules = {each.caution.rule.partition(".")[0] for each in before_you_start(plan)}
    assert not {"tin-residue", "latex-gloves", "isopropanol-isocyanate", "gloves-latex", "lift"} & rules


def test_stops_come_first_and_then_what_to_heed_in_the_order_of_the_work() -> None:
    shape = ShapeFindings(0.0, asks=(Ask(AskName.A, AskKind.BOWL, (0.0, 0.0, 140.0), 60.0, 300.0),))
    told = before_you_start(planned("sulfur clay", shape, mold=MoldOrder(sealer="none")))
    assert "open-bowl" in {each.caution.rule for each in told}
    assert [(-each.caution.severity.rank, each.number) for each in told] == sorted(
        (-each.caution.severity.rank, each.number) for each in told
    )
    assert told[0].caution.severity is Severity.STOP


def test_a_bowl_that_nobody_answered_for_is_told_before_the_start_with_the_largest() -> None:
    places = (
        Ask(AskName.A, AskKind.BOWL, (0.0, 0.0, 140.0), 60.0, 300.0),
        Ask(AskName.B, AskKind.BOWL, (30.0, 0.0, 90.0), 25.0, 30.0),
    )
    told = before_you_start(planned("plastic", ShapeFindings(0.0, asks=places)))
    (open_bowl,) = [each.caution for each in told if each.caution.rule == "open-bowl"]
    assert {quantity.name: quantity.value for quantity in open_bowl.quantities} == {
        "bowl.count": 2, "bowl.up": 140.0, "bowl.across": 60.0, "bowl.most": 300.0
    }  # fmt: skip
    assert "open-bowl" not in {each.caution.rule for each in before_you_start(planned("plastic"))}


def test_what_belongs_to_every_job_is_not_particular() -> None:
    for caution in planned("sulfur clay", mold=MoldOrder(sealer="none")).cautions:
        if caution.particular:
            assert caution.between or caution.lines[0].say.startswith(("job.", "shape.")), caution.id
