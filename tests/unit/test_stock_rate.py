"""How fast a material goes and how long it lasts: sums by hand, Student's t of SciPy, and draws that are counted."""

from __future__ import annotations

from math import sqrt

import numpy as np
import pytest
from scipy.stats import t as student_t

from moldwright.records.stock.rate import Lasts, WeeklyUse, lasting, student, use_of, used_in


@pytest.mark.parametrize("freedom", [3, 5, 12, 51])
def test_the_quantile_is_that_of_the_library(freedom: int) -> None:
    assert student(freedom) == pytest.approx(student_t.ppf(0.95, freedom), rel=0.02)


def test_a_rate_by_hand() -> None:
    """0, 200, 0, 200 g: mean 100 g, squares of the differences 4 x 10,000 over 3: deviation 115.47 g."""
    use = use_of([0.0, 200.0, 0.0, 200.0])
    assert use is not None
    assert (use.weeks, use.mean, use.of_late) == (4, 100.0, None)
    assert use.deviation == pytest.approx(115.470, abs=1e-3)
    assert use_of([100.0] * 3) is None


def test_what_weeks_to_come_use_by_hand() -> None:
    """Mean 100, deviation 50 of 4 weeks; two weeks: 200 g; 50 x sqrt(2 + 4 / 4) = 86.6, times t(3) = 2.353: 203.8 g."""
    found = used_in(WeeklyUse(4, 100.0, 50.0), 2.0)
    assert found.likely == 200.0
    assert found.low == 0.0
    assert found.high == pytest.approx(200.0 + 2.353 * 50.0 * sqrt(3.0), rel=0.01)


def test_a_stock_is_used_up_when_what_is_used_reaches_it() -> None:
    """The times are those at which the bounds of what is used meet the stock."""
    use = WeeklyUse(52, 120.0, 90.0)
    found = lasting(use, 2400.0)
    assert found is not None
    assert found.likely == 20.0
    assert used_in(use, found.low).high == pytest.approx(2400.0)
    assert found.high is not None
    assert used_in(use, found.high).low == pytest.approx(2400.0)


def test_what_is_used_seldom_may_last_for_ever_and_what_is_never_used_is_not_told() -> None:
    found = lasting(WeeklyUse(10, 5.0, 40.0), 100.0)
    assert found is not None
    assert found.high is None
    assert 0.0 < found.low < 20.0 == found.likely
    assert lasting(WeeklyUse(52, 0.0, 0.0), 100.0) is None
    assert lasting(WeeklyUse(52, 10.0, 1.0), 0.0) == Lasts(0.0, 0.0, 0.0)


def test_a_shop_that_works_faster_of_late_is_forecast_by_its_last_quarter() -> None:
    """39 weeks of 90 and 110 g, then 13 weeks of 290 and 310 g: the mean of these is 13 weeks of 300 - 10 / 13."""
    early = [90.0 if week % 2 else 110.0 for week in range(39)]
    late = [290.0 if week % 2 == 0 else 310.0 for week in range(13)]
    use = use_of([*early, *late])
    assert use is not None
    assert use.changed
    assert use.mean == use.of_late == pytest.approx(300.0 - 10.0 / 13)
    steady = use_of([*early, *early[:13]])
    assert steady is not None
    assert not steady.changed
    assert steady.weeks == 52


@pytest.mark.parametrize(("runs_a_week", "weeks", "ahead"), [(0.5, 52, 6), (1.0, 26, 4), (3.0, 12, 8), (8.0, 52, 2)])
def test_nine_of_ten_shops_use_what_was_foretold(runs_a_week: float, weeks: int, ahead: int) -> None:
    """Runs come by chance (Poisson), each takes a gamma of mass: of 1500 shops 85 to 95 % are within the bounds."""
    draw = np.random.default_rng(9)
    within = []
    for _ in range(1500):
        uses = [draw.gamma(2.0, 50.0, count).sum() for count in draw.poisson(runs_a_week, weeks + ahead)]
        use = use_of(uses[:weeks])
        assert use is not None
        foretold = used_in(use, ahead)
        within.append(foretold.low <= sum(uses[weeks:]) <= foretold.high)
    assert 0.85 <= np.mean(within) <= 0.95
