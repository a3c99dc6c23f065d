"""The error of a weighed mix ratio, against JCGM 100:2008 (GUM), F.2.2.1: a reading of resolution d has the standard
uncertainty d / sqrt(12). A part is the difference of two readings, so 20 g and 2 g, each tared, at d = 0.1 g and k = 2:
2 sqrt((0.0408/20)^2 + (0.0408/2)^2) = 4.10 %; as a running total the middle reading serves both: 4.30 %. Worked by hand
from that clause to the digits given, so the tolerance is half of the last digit."""

import pytest

from moldwright.mixing.weighing import ratio_tolerance, smallest_batch_g

SOURCE = ("JCGM 100:2008, Guide to the expression of uncertainty in measurement, 5.2.2 and F.2.2.1 (from memory)",)


@pytest.mark.parametrize(
    ("a_g", "b_g", "running", "percent"),
    [(20, 2, False, 4.10), (100, 10, False, 0.82), (20, 2, True, 4.30)],
)
def test_ratio_error_of_a_tenth_gram_scale(a_g: float, b_g: float, running: bool, percent: float) -> None:
    assert 100 * ratio_tolerance(0.1, a_g, b_g, running) == pytest.approx(percent, abs=0.005)


def test_least_batch_for_ten_to_one_within_two_percent() -> None:
    apart = smallest_batch_g(0.1, (10, 1), 0.02, running=False)
    assert apart == pytest.approx(45.1, abs=0.05)
    assert apart / 11 == pytest.approx(4.10, abs=0.005)  # the minor part
    assert smallest_batch_g(0.1, (10, 1), 0.02) == pytest.approx(47.3, abs=0.05)
