"""How hard a glove is to peel, from a sheet's stretch, the rubber's limit and the pull."""

from __future__ import annotations

import pytest

from moldwright.mold.strained import Strained, StrainSpot
from moldwright.plan.cautions import Severity
from moldwright.plan.strain import PeelEffort, StrainPlan
from moldwright.quantities.peel_effort import pull_n, strain_plan
from moldwright.ranges import Range
from moldwright.steps.strain_cautions import strain_cautions

SOFT = Range(10.0, 10.0, 10.0)


def told(
    most: float, force_mm: float | None = None, off: bool = True, shore_a: Range = SOFT, loops: float = 1.0
) -> StrainPlan:
    spots, caught = (StrainSpot((1.0, 2.0, 88.04), most),), None if off else (3.0, 4.0, 145.04)
    return strain_plan(Strained(off, caught, most, most, spots, (), force_mm, 2000), loops, 3.0, shore_a, 4.0)


@pytest.mark.parametrize(
    ("strain", "effort"),
    [
        (told(1.9), PeelEffort.EASY),
        (told(2.1), PeelEffort.FIRM),
        (told(3.1), PeelEffort.SLIT),
        (told(1.2, off=False), PeelEffort.SLIT),
        (told(1.9, loops=2.1), PeelEffort.FIRM),
        (told(1.9, 200.0), PeelEffort.EASY),
        (told(1.9, 200.0, shore_a=Range(40.0, 40.0, 40.0)), PeelEffort.FIRM),
    ],
)
def test_effort(strain: StrainPlan, effort: PeelEffort) -> None:
    """Of 200 % that are allowed half is easy; 200 mm of a sheet 4 mm thick pull 110 N at 10 Shore A, 451 N at 40: more
    than the 145 N that two hands pull. A limb too thin for the sheet counts by its loop."""
    assert strain.effort is effort


def test_a_pull_is_told_where_its_modulus_is_known() -> None:
    """0.7319 MPa by Gent at 20 Shore A: 30 mm x 4 mm x 0.7319 / 3 = 29.28 N; at 3 Shore A his formula does not hold."""
    pull = pull_n(30.0, Range(20.0, 20.0, 20.0), 4.0)
    assert pull is not None
    assert pull.likely == pytest.approx(29.28, rel=1e-3)
    assert pull_n(30.0, Range(3.0, 5.0, 7.0), 4.0) is None
    assert pull_n(None, SOFT, 4.0) is None


def test_a_place_is_told_by_its_elongation() -> None:
    strain = told(1.25)
    assert strain.most_99_pct == pytest.approx(25.0)
    assert strain.places[0].elongation_pct == pytest.approx(25.0)
    assert strain.places[0].at == (1.0, 2.0, 88.0)


def test_the_caution_is_as_grave_as_the_effort() -> None:
    easy, firm, slit = (next(iter(strain_cautions(told(most, 30.0)))) for most in (1.2, 2.5, 3.5))
    assert [each.severity for each in (easy, firm, slit)] == [Severity.NOTE, Severity.HEED, Severity.HEED]
    assert [each.ruins for each in (easy, firm, slit)] == [False, False, True]
    assert {each.step for each in (easy, firm, slit)} == {"peel"}
    assert len(easy.lines) == 3


def test_where_the_sheet_hung_is_told_instead_of_how_hard_it_is() -> None:
    """Loop by loop it comes off; drawn straight up it does not: nobody knows how hard it pulls."""
    (hung,) = strain_cautions(told(1.2, off=False))
    assert [line.say for line in hung.lines] == ["shape.strain-caught", "shape.strain-free"]
    assert [each.value for each in hung.quantities] == [145.0]
    assert hung.ruins


def test_a_slit_glove_has_none() -> None:
    assert [*strain_cautions(None)] == []
