"""Where the glove is thinner than ordered the steps say so, with the place and the remedy."""

from __future__ import annotations

import pytest
from steps_context import context, measures
from told import Told, told

from moldwright.plan.cautions import Severity
from moldwright.plan.thickness import FootPlan, LengthAt, ThicknessPlan

PLACE = (10.0, -4.0, 69.0)


def thickness(least_mm: float = 3.95, reach_mm: float | None = None) -> ThicknessPlan:
    foot = None if reach_mm is None else FootPlan(reach_mm, (-20.0, 30.0, 1.2), 400.0)
    return ThicknessPlan(4.0, 0.125, LengthAt(least_mm, PLACE), LengthAt(9.0, PLACE), foot)


def work_of(its: ThicknessPlan | None) -> Told:
    return told(context(volumes=measures(glove__thickness=its)))


@pytest.mark.parametrize("its", [None, thickness(), thickness(3.6), thickness(reach_mm=3.9)])
def test_as_thick_as_a_brush_lays_it_nothing_is_told(its: ThicknessPlan | None) -> None:
    """From nine tenths of 4 mm on, and a foot thin for less than the wall's own thickness."""
    assert not [each for each in work_of(its).cautions if each.rule.startswith("thin-")]


def test_a_thin_place_is_told_at_the_laying_out_with_where_it_is() -> None:
    """Places count from the frame's front left corner."""
    frame = measures().flange.frame
    (found,) = [each for each in work_of(thickness(3.5)).cautions if each.rule == "thin-glove"]
    right, back = PLACE[0] - frame.left_mm, PLACE[1] - frame.front_mm
    assert (found.step, found.severity) == ("lay-out", Severity.HEED)
    assert f"only 3.5 mm thick {right:.3g} mm right, {back:.3g} mm back, 69 mm up, where 4 mm" in found.text
    assert "by the gauge" in found.text


def test_a_foot_that_runs_out_is_told_where_its_joint_is_filled() -> None:
    (found,) = [each for each in work_of(thickness(reach_mm=7.2)).cautions if each.rule == "thin-foot"]
    assert (found.step, found.severity) == ("gaps", Severity.HEED)
    assert "up to 7.2 mm in from its edge" in found.text
    assert found.text.endswith("Fill that groove with clay, cut square to the board.")
