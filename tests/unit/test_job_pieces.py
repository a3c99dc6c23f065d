"""How many pieces are recommended: by hands, material and what rolls; the figures are made up, the sums by hand."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest
from made_up_job import VOLUMES
from sheets_fixture import plan

from moldwright.job.costs import Cost
from moldwright.job.pieces import as_built, recommended, tried_rows
from moldwright.job.searched import Searched, Tried
from moldwright.mold.measures import MoldMeasures
from moldwright.ranges import Range

HOUR = Decimal("30.00")
COATS_ML = 200.0


def searched(pieces: int, used: int, stiff_ml: float) -> Searched:
    """A row by its stiff rubber; its number of pieces is told in the measures."""
    glove = replace(VOLUMES.glove, coat_ml=(COATS_ML,))
    shell = replace(VOLUMES.shell, shares=(1.0 / used,) * used)
    measures = replace(VOLUMES, glove=glove, shell=shell)
    return Searched(pieces, used, Range.exactly(10.0), stiff_ml, 500.0, 20.0, False, measures)


def chosen(stiff_ml: tuple[float, ...], costs: dict[int, Cost], hour: Decimal = HOUR) -> int:
    tried = Tried(tuple(searched(n, n, stiff) for n, stiff in enumerate(stiff_ml, start=1)))

    def cost(measures: MoldMeasures) -> Cost:
        return costs[measures.shell.pieces]

    return recommended(tried_rows(tried, cost), hour)


CHEAP_ONE = {1: Cost(600.0, Decimal("80.00")), 2: Cost(720.0, Decimal("60.00")), 3: Cost(900.0, Decimal("50.00"))}
"""At 30 an hour 380, 420 and 500; with hands for nothing 80, 60 and 50."""


def test_what_costs_least_in_hands_and_material() -> None:
    assert chosen((0.0, 0.0, 0.0), CHEAP_ONE) == 1
    assert chosen((0.0, 0.0, 0.0), CHEAP_ONE, Decimal(0)) == 3


def test_a_glove_that_does_not_roll_is_not_recommended_however_cheap() -> None:
    """A twentieth of 200 ml is 10 ml."""
    assert chosen((10.0, 0.0, 0.0), CHEAP_ONE) == 1
    assert chosen((10.1, 0.0, 0.0), CHEAP_ONE) == 2


@pytest.mark.parametrize(("stiff_ml", "best"), [((90.0, 50.0, 40.0), 2), ((90.0, 61.0, 40.0), 3)])
def test_where_none_rolls_those_near_the_best_remain(stiff_ml: tuple[float, ...], best: int) -> None:
    """One and a half of 40 ml is 60."""
    assert chosen(stiff_ml, CHEAP_ONE) == best


def test_of_equals_the_fewest() -> None:
    same = {n: Cost(60.0, Decimal("10.00")) for n in (1, 2, 3)}
    assert chosen((0.0, 0.0, 0.0), same) == 1


def test_a_number_that_gains_nothing_is_costed_as_what_it_uses() -> None:
    tried = Tried((searched(1, 1, 0.0), searched(2, 2, 0.0), searched(3, 2, 0.0)))
    rows = tried_rows(tried, lambda measures: CHEAP_ONE[measures.shell.pieces])
    assert (rows[1].labor_min, rows[1].material) == (rows[2].labor_min, rows[2].material) == (720.0, Decimal("60.00"))


def test_what_building_showed_is_taken_to_be_the_same_with_any_number() -> None:
    """The glove as planned takes 60 min and 12.50 more than its two pieces were searched with: so do all others."""
    its = plan()
    rows = tried_rows(
        Tried(tuple(searched(n, n, 0.0) for n in (1, 2, 3))), lambda measures: CHEAP_ONE[measures.shell.pieces]
    )
    glove = Cost(780.0, Decimal("72.50"))
    assert len(its.shell.pieces) == 2
    built = as_built(rows, its.shell, glove)
    assert [(row.labor_min, row.material) for row in built] == [
        (660.0, Decimal("92.50")),
        (780.0, Decimal("72.50")),
        (960.0, Decimal("62.50")),
    ]
    assert recommended(built, HOUR) == recommended(rows, HOUR)
    assert built[1].seam_mm == its.shell.seam_mm
    alone = replace(its.shell, pieces=its.shell.pieces * 2)
    assert as_built(rows, alone, glove) == rows
