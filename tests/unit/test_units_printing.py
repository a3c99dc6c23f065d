"""Quantities as a sheet prints them; where one way gives way to the next, each bound from both sides.

Rounded by hand: three figures, no finer than a hundredth of the unit; kilograms and liters from one up; a length as a
rule shows it, a time as a watch does; two figures of what is known to no better than a fifth.
Factors: NIST SP 811, appendix B (from memory).
"""

from __future__ import annotations

from fractions import Fraction

import pytest
from exact_factors import FLUID_OUNCE_ML, GALLON_ML, INCH_MM, OUNCE_G, POUND_G

from moldwright.errors import InputRefused
from moldwright.ranges import Range
from moldwright.units import (
    show_deadline,
    show_duration,
    show_length,
    show_mass,
    show_range,
    show_scale_step,
    show_share,
    show_temperature,
    show_volume,
)


@pytest.mark.parametrize(
    ("grams", "said"),
    [(9.994, "9.99 g"), (9.996, "10.0 g"), (10.0, "10.0 g"), (99.94, "99.9 g"), (99.96, "100 g"), (100.0, "100 g"),
     (999.4, "999 g"), (999.6, "1.00 kg"), (1395.0, "1.40 kg"), (9999.4, "10.0 kg"),
     (10_000.0, "10.0 kg"), (-10_000.0, "−10.0 kg"), (-4.237, "−4.24 g"), (0.0, "0 g"), (-0.001, "0 g"),
     (4.2372, "4.24 g"), (42.372, "42.4 g"), (423.72, "424 g"), (434.2, "434 g"), (12_345.0, "12.3 kg"),
     (42_372.0, "42.4 kg"), (123_456.0, "123 kg")],
)  # fmt: skip
def test_masses(grams: float, said: str) -> None:
    assert show_mass(grams) == said


@pytest.mark.parametrize(
    ("grams", "step_g", "said"),
    [(12_345.0, 1.0, "12345 g"), (82.84, 0.05, "82.84 g"), (82.84, 10.0, "83 g"), (82.84, 0.0, "83 g"),
     (1.0, 1e-9, "1.000000 g"), (82.84, 0.1, "82.8 g"), (82.846, 0.01, "82.85 g"), (82.846, 0.05, "82.85 g"),
     (82.846, 0.1, "82.8 g"), (82.846, 0.5, "82.8 g"), (82.846, 1.0, "83 g")],
)  # fmt: skip
def test_masses_by_the_scales_step(grams: float, step_g: float, said: str) -> None:
    """A scale that steps by 0.05 g shows two decimals, by 0.5 g one, by 1 g none."""
    assert show_mass(grams, step_g=step_g) == said


@pytest.mark.parametrize(
    ("ounces", "step_oz", "said"),
    [(15.96, None, "16.0 oz"), (16.0, None, "1 lb 0.0 oz"), (-16.0, None, "−1 lb 0.0 oz"), (9.99, None, "9.99 oz"),
     (10.0, None, "10.0 oz"), (20.26, None, "1 lb 4.3 oz"), (20.26, 1.0, "1 lb 4 oz"), (20.268, 0.01, "1 lb 4.27 oz"),
     (3.26, 1.0, "3 oz"), (3.26, 0.1, "3.3 oz"), (2.344, None, "2.34 oz"), (159.9, None, "9 lb 15.9 oz"),
     (163.4, None, "10 lb 3 oz")],
)  # fmt: skip
def test_masses_in_pounds_and_ounces(ounces: float, step_oz: float | None, said: str) -> None:
    assert show_mass(ounces * OUNCE_G, "us", None if step_oz is None else step_oz * OUNCE_G) == said


@pytest.mark.parametrize(("pounds", "said"), [(1, "16.0 oz"), (2, "2 lb 0.0 oz")])
def test_a_milligram_under_whole_pounds(pounds: int, said: str) -> None:
    assert show_mass(pounds * POUND_G - 0.001, "us") == said


@pytest.mark.parametrize(
    ("ml", "said"),
    [(9.994, "9.99 ml"), (10.0, "10.0 ml"), (100.0, "100 ml"),
     (999.6, "1.00 l"), (1030.0, "1.03 l"), (10_000.0, "10.0 l"),
     (-10_000.0, "−10.0 l"), (3.456, "3.46 ml"), (34.56, "34.6 ml"), (345.6, "346 ml"), (34_567.0, "34.6 l")],
)  # fmt: skip
def test_volumes(ml: float, said: str) -> None:
    assert show_volume(ml) == said
    assert show_volume(ml, step_ml=1.0).endswith(" ml")


@pytest.mark.parametrize(
    ("ounces", "step_oz", "said"),
    [(31.94, None, "31.9 fl oz"), (32.0, None, "1 qt 0.0 fl oz"), (-35.26, None, "−1 qt 3.3 fl oz"),
     (35.26, 1.0, "1 qt 3 fl oz"), (35.268, 0.01, "1 qt 3.27 fl oz"), (3.26, 1.0, "3 fl oz"),
     (2.344, None, "2.34 fl oz")],
)  # fmt: skip
def test_volumes_in_quarts(ounces: float, step_oz: float | None, said: str) -> None:
    assert show_volume(ounces * FLUID_OUNCE_ML, "us", None if step_oz is None else step_oz * FLUID_OUNCE_ML) == said


def test_other_volumes() -> None:
    assert show_volume(GALLON_ML, "us") == "4 qt 0.0 fl oz"
    assert show_volume(82.846, step_ml=0.1) == "82.8 ml"


@pytest.mark.parametrize(
    ("mm", "said"),
    [
        (99.7, "99.5 mm"),
        (99.76, "100 mm"),
        (100.4, "100 mm"),
        (-99.7, "−99.5 mm"),
        (9.94, "9.9 mm"),
        (9.96, "10 mm"),
        (0.254, "0.25 mm"),
        (0.996, "1 mm"),
        (-100.6, "−101 mm"),
        (4.0, "4 mm"),
        (12.5, "12.5 mm"),
        (42.34, "42.5 mm"),
        (120.0, "120 mm"),
    ],
)
def test_lengths(mm: float, said: str) -> None:
    assert show_length(mm) == said


@pytest.mark.parametrize(
    ("inches", "said"),
    [(1.0, "1 in"), (31.6 / 32, "1 in"), (31.4 / 32, "31/32 in"), (30.9 / 32, "31/32 in"), (29 / 32, "29/32 in"),
     (2 / 32, "1/16 in"), (16 / 32, "1/2 in"), (-1 / 8, "−1/8 in"), (-1.0, "−1 in"), (-1.5, "−1 1/2 in"),
     (1 / 32 + 4e-4, "1/32 in"), (1.9 / 64, "1/32 in"), (1.6 / 64, "0.025 in"), (1.4 / 64, "0.022 in"),
     (1.05 / 64, "1/64 in"),
     (0.7 / 64, "0.011 in"), (1.4 / INCH_MM, "0.055 in"), (2.0 / INCH_MM, "5/64 in"), (0.113, "7/64 in"),
     (0.099, "3/32 in"), (0.134, "1/8 in"), (0.0, "0 in"), (1.97, "2 in"), (2 + 3 / 16, "2 3/16 in"),
     (2 + 6 / 16, "2 3/8 in"), (7.5, "7 1/2 in"), (1 / 32, "1/32 in"), (1 / 8, "1/8 in"), (3 / 16, "3/16 in"),
     (7 / 32, "7/32 in"), (4.0 / INCH_MM, "5/32 in"), (0.6 / INCH_MM, "0.024 in"), (0.2 / INCH_MM, "0.008 in")],
)  # fmt: skip
def test_lengths_in_inches(inches: float, said: str) -> None:
    """The nearest line of an inch rule, sixteenths from an inch up, thirty-seconds below, or sixty-fourths of its fine
    edge, where it is within a tenth; else thousandths, as a wire gauge tells them."""
    assert show_length(inches * INCH_MM, "us") == said


@pytest.mark.parametrize("mm", [0.3, 0.6, 1.0, 1.4, 2.0, 2.7, 3.4, 4.0, 9.0, 30.0, 300.0])
def test_no_printed_length_is_more_than_a_tenth_off(mm: float) -> None:
    """0.6 mm was told as 1/32 in, a third more. Exact inches (1959), read back by fractions."""
    text = show_length(mm, "us").removesuffix(" in")
    assert float(sum(map(Fraction, text.split()))) * 25.4 == pytest.approx(mm, rel=0.1)


@pytest.mark.parametrize(
    ("step_g", "said"),
    [(0.1, "0.0035 oz"), (1.0, "0.035 oz"), (0.005 * 28.349523125, "0.005 oz"), (0.01 * 28.349523125, "0.01 oz"),
     (0.1 * 28.349523125, "0.1 oz"), (0.5 * 28.349523125, "0.5 oz"), (28.349523125, "1 oz"), (5.0, "0.18 oz")],
)  # fmt: skip
def test_a_scales_step_is_told_as_it_is(step_g: float, said: str) -> None:
    """A scale of 0.1 g was told to read to 0.004 oz, a seventh more. The pound's 453.59237 g are exact (1959)."""
    assert show_scale_step(step_g, "us") == said


def test_a_scales_step_in_grams() -> None:
    assert [show_scale_step(step) for step in (0.01, 0.1, 0.5, 1.0, 50.0)] == [
        "0.01 g",
        "0.1 g",
        "0.5 g",
        "1 g",
        "50 g",
    ]


def test_lengths_by_a_step() -> None:
    """No fraction where decimals are asked for, and its zeros are kept."""
    assert [show_length(-mm, "us") for mm in (0.002, 0.012, 4.0)] == ["0 in", "0 in", "−5/32 in"]
    assert show_length(2 * INCH_MM, "us", 0.01 * INCH_MM) == "2.00 in"
    assert show_length(INCH_MM / 8, "us", 0.1 * INCH_MM) == "0.1 in"
    assert show_length(4.0, step_mm=0.1) == "4.0 mm"
    assert show_length(82.846, step_mm=0.01) == "82.85 mm"


@pytest.mark.parametrize(
    ("seconds", "said"),
    [(0.0, "0:00"), (0.4, "0:00"), (-0.4, "0:00"), (-0.6, "−0:01"), (-65.0, "−1:05"), (59.6, "1:00"), (119.0, "1:59"),
     (122.0, "2:00"), (122.6, "2:05"), (250, "4:10"), (597.0, "9:55"), (597.6, "10 min"), (2234.0, "37 min"),
     (3599.6, "60 min"), (7169.0, "119 min"), (7171.0, "2 h 00"), (7500, "2 h 05"),
     (7649.0, "2 h 05"), (7651.0, "2 h 10"),
     (35_849.0, "9 h 55"), (35_851.0, "10 h"), (62_600.0, "17 h"), (86_400.0, "24 h"), (170_999.0, "47 h"),
     (171_001.0, "2 days"), (-259_200.0, "−3 days"), (263_000.0, "3 days"), (604_800.0, "7 days")],
)  # fmt: skip
def test_durations(seconds: float, said: str) -> None:
    assert show_duration(seconds) == said


@pytest.mark.parametrize(
    ("seconds", "said"),
    [(119.9, "1:59"), (254.9, "4:10"), (599.9, "9:55"), (2279.9, "37 min"), (7199.0, "119 min"), (7499.0, "2 h 00")],
)
def test_deadlines_are_never_later(seconds: float, said: str) -> None:
    assert show_deadline(seconds) == said


@pytest.mark.parametrize(
    ("low", "likely", "high", "said"),
    [(408.0, 434.0, 471.0, "434 g (408–471)"), (8500.0, 11_200.0, 13_700.0, "11 kg (8.5–13.7)"),
     (4.081, 4.342, 4.713, "4.34 g (4.08–4.71)"), (8.0, 10.4, 120.0, "10 g (8.0–120)"),
     (1284.0, 1395.0, 1522.0, "1.40 kg (1.28–1.52)"), (180.0, 253.0, 403.0, "250 g (180–400)"),
     (0.0, 41.2, 97.0, "41 g (0–97)"), (5.0, 5.0, 5.0, "5.00 g")],
)  # fmt: skip
def test_ranges_of_mass(low: float, likely: float, high: float, said: str) -> None:
    """Three figures where all is within a fifth, two where it is not; bounds to two figures of the lower."""
    assert show_range(Range(low, likely, high), "mass") == said


@pytest.mark.parametrize(
    ("low", "likely", "high", "said"),
    [(143.0, 197.0, 267.0, "3.3 min (2.4–4.5)"), (5898.0, 7800.0, 9780.0, "2 h 10 (1 h 40–2 h 45)"),
     (46_800.0, 62_600.0, 93_600.0, "17 h (13–26)"), (172_800.0, 259_200.0, 432_000.0, "3 days (2–5)"),
     (2940.0, 3900.0, 5880.0, "65 min (49–98)"), (60.0, 90.0, 150.0, "90 s (60–150)"),
     (43_200.0, 259_200.0, 432_000.0, "3 days (0.5–5)"), (1800.0, 1800.0, 1800.0, "30 min")],
)  # fmt: skip
def test_ranges_of_time(low: float, likely: float, high: float, said: str) -> None:
    assert show_range(Range(low, likely, high), "duration") == said


def test_temperatures_and_shares() -> None:
    assert [show_temperature(c, "us") for c in (0.0, 100.0, -40.0, 37.0)] == ["32 °F", "212 °F", "−40 °F", "99 °F"]
    assert [show_temperature(c) for c in (-4.0, 22.26)] == ["−4 °C", "22.3 °C"]
    assert [show_share(part, places) for part, places in ((1.0, 1), (0.105, 1), (0.0005, 1), (0.12, 0))] == [
        *("100 %", "10.5 %", "0.1 %", "12 %"),
    ]
    assert show_share(0.12345) == "12.3 %"
    assert show_share(0.12345, 2) == "12.35 %"  # 12.345 lies above the half in binary


def test_ranges() -> None:
    """No finer than a scale or a gauge; other quantities."""
    assert show_range(Range(1.0, 2.0, 3.0), "length") == "2.0 mm (1.0–3.0)"
    assert show_range(Range(0.52, 1.1, 1.83), "length") == "1.1 mm (0.5–1.8)"
    assert show_range(Range(0.5, 1.1, 1.8), "length", "us") == "0.04 in (0.02–0.07)"
    assert show_range(Range(1.0, 2.0, 3.0), "mass", finest=1.0) == "2 g (1–3)"
    assert show_range(Range(0.0, 0.73, 181.5), "volume") == "0.73 ml (0–182)"
    assert show_range(Range(5.1, 6.0, 201.3), "mass") == "6.0 g (5.1–201)"
    assert show_mass(4.237, finest_g=0.1) == "4.2 g"
    assert show_mass(1395.0, finest_g=50.0) == "1.40 kg"
    assert show_range(Range(-3.0, 22.0, 24.5), "temperature") == "22 °C (−3–24.5)"
    assert show_range(Range(0.0, 10.0, 20.0), "temperature", "us") == "50 °F (32–68)"
    assert show_range(Range(0.5, 1.0, 2.0) * OUNCE_G, "mass", "us") == "1.0 oz (0.50–2.00)"
    assert show_range(Range(19.0, 24.0, 30.0) * POUND_G, "mass", "us") == "24 lb (19–30)"


def test_an_unknown_system_is_refused() -> None:
    with pytest.raises(InputRefused) as refused:
        show_mass(1.0, "imperial")
    assert (refused.value.code, refused.value.actual, refused.value.limit) == (
        "unknown-choice", "imperial", "metric or us",
    )  # fmt: skip
