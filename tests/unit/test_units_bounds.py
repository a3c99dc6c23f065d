"""Where one way of printing or reading gives way to the next: each bound from both sides. Factors exact by definition
(NIST SP 811, appendix B; from memory)."""

from __future__ import annotations

import pytest

from moldwright.errors import InputRefused
from moldwright.ranges import Range
from moldwright.units import (
    duration_s,
    length_mm,
    mass_g,
    range_of,
    share,
    show_duration,
    show_length,
    show_mass,
    show_range,
    show_share,
    show_temperature,
    show_volume,
    tables,
    temperature_c,
    volume_ml,
)

INCH_MM, OUNCE_G, FLUID_OUNCE_ML = 25.4, 28.349523125, 29.5735295625


@pytest.mark.parametrize(
    ("grams", "said"),
    [(9.994, "9.99 g"), (9.996, "10.00 g"), (10.0, "10.0 g"), (99.94, "99.9 g"), (100.0, "100 g"), (9999.4, "9999 g"),
     (10_000.0, "10.00 kg"), (-10_000.0, "−10.00 kg"), (-4.237, "−4.24 g"), (0.0, "0.00 g"), (-0.001, "0.00 g")],
)  # fmt: skip
def test_masses(grams: float, said: str) -> None:
    assert show_mass(grams) == said


@pytest.mark.parametrize(
    ("grams", "step_g", "said"),
    [(12_345.0, 1.0, "12345 g"), (82.84, 0.05, "82.84 g"), (82.84, 10.0, "83 g"), (82.84, 0.0, "83 g"),
     (1.0, 1e-9, "1.000000 g"), (82.84, 0.1, "82.8 g")],
)  # fmt: skip
def test_masses_by_the_scales_step(grams: float, step_g: float, said: str) -> None:
    assert show_mass(grams, step_g=step_g) == said


@pytest.mark.parametrize(
    ("ounces", "step_oz", "said"),
    [(15.96, None, "16.0 oz"), (16.0, None, "1 lb 0.0 oz"), (-16.0, None, "−1 lb 0.0 oz"), (9.99, None, "9.99 oz"),
     (10.0, None, "10.0 oz"), (20.26, None, "1 lb 4.3 oz"), (20.26, 1.0, "1 lb 4 oz"), (20.268, 0.01, "1 lb 4.27 oz"),
     (3.26, 1.0, "3 oz"), (3.26, 0.1, "3.3 oz")],
)  # fmt: skip
def test_masses_in_pounds_and_ounces(ounces: float, step_oz: float | None, said: str) -> None:
    assert show_mass(ounces * OUNCE_G, "us", None if step_oz is None else step_oz * OUNCE_G) == said


@pytest.mark.parametrize(
    ("ml", "said"),
    [(9.994, "9.99 ml"), (10.0, "10.0 ml"), (100.0, "100 ml"), (9999.4, "9999 ml"), (10_000.0, "10.00 l"),
     (-10_000.0, "−10.00 l")],
)  # fmt: skip
def test_volumes(ml: float, said: str) -> None:
    assert show_volume(ml) == said
    assert show_volume(ml, step_ml=1.0).endswith(" ml")


@pytest.mark.parametrize(
    ("ounces", "step_oz", "said"),
    [(31.94, None, "31.9 fl oz"), (32.0, None, "1 qt 0.0 fl oz"), (-35.26, None, "−1 qt 3.3 fl oz"),
     (35.26, 1.0, "1 qt 3 fl oz"), (35.268, 0.01, "1 qt 3.27 fl oz"), (3.26, 1.0, "3 fl oz")],
)  # fmt: skip
def test_volumes_in_quarts(ounces: float, step_oz: float | None, said: str) -> None:
    assert show_volume(ounces * FLUID_OUNCE_ML, "us", None if step_oz is None else step_oz * FLUID_OUNCE_ML) == said


@pytest.mark.parametrize(
    ("mm", "said"),
    [
        (99.94, "99.9 mm"),
        (100.4, "100 mm"),
        (-99.94, "−99.9 mm"),
        (-100.6, "−101 mm"),
        (4.0, "4 mm"),
        (120.0, "120 mm"),
    ],
)
def test_lengths(mm: float, said: str) -> None:
    assert show_length(mm) == said


@pytest.mark.parametrize(
    ("inches", "said"),
    [(1.0, "1 in"), (31 / 32 + 1e-6, "1 in"), (30.9 / 32, "0.97 in"), (29 / 32, "29/32 in"), (2 / 32, "1/16 in"),
     (16 / 32, "1/2 in"), (-1 / 8, "−1/8 in"), (-1.0, "−1 in"), (-1.5, "−1 1/2 in"), (1 / 32 + 2e-4, "1/32 in"),
     (1 / 32 + 4e-4, "0.032 in"), (0.099, "0.099 in"), (0.104, "0.10 in"), (0.134, "0.13 in"), (0.0, "0 in"),
     (1.97, "2 in"), (2 + 3 / 16, "2 3/16 in"), (2 + 6 / 16, "2 3/8 in")],
)  # fmt: skip
def test_lengths_in_inches(inches: float, said: str) -> None:
    shown = show_length(inches * INCH_MM, "us")
    assert shown == (said.replace("0.10 in", "0.1 in"))


def test_lengths_by_a_step() -> None:
    """No fraction where decimals are asked for, and its zeros are kept."""
    assert show_length(2 * INCH_MM, "us", 0.01 * INCH_MM) == "2.00 in"
    assert show_length(INCH_MM / 8, "us", 0.1 * INCH_MM) == "0.1 in"
    assert show_length(4.0, step_mm=0.1) == "4.0 mm"


@pytest.mark.parametrize(
    ("seconds", "said"),
    [(0.0, "0:00"), (0.4, "0:00"), (-0.4, "0:00"), (-0.6, "−0:01"), (-65.0, "−1:05"), (59.6, "1:00"), (3599.4, "59:59"),
     (3599.6, "1 h 00"), (3629.0, "1 h 00"), (3631.0, "1 h 01"), (86_400.0, "24 h 00"), (172_740.0, "47 h 59"),
     (172_800.0, "2 d"), (172_860.0, "48 h 01"), (-259_200.0, "−3 d"), (262_800.0, "73 h 00"), (176_400.0, "49 h 00")],
)  # fmt: skip
def test_durations(seconds: float, said: str) -> None:
    assert show_duration(seconds) == said


def test_temperatures_and_shares() -> None:
    assert [show_temperature(c, "us") for c in (0.0, 100.0, -40.0, 37.0)] == ["32 °F", "212 °F", "−40 °F", "98.6 °F"]
    assert [show_share(part, places) for part, places in ((1.0, 1), (0.105, 1), (0.0005, 1), (0.12, 0))] == [
        *("100 %", "10.5 %", "0.1 %", "12 %"),
    ]


def test_ranges() -> None:
    """All three as the likely value is, in its unit and with its decimals."""
    assert show_range(Range(8.0, 10.4, 120.0), "mass") == "10.4 g (8.0–120.0)"
    assert show_range(Range(1.0, 2.0, 3.0), "length") == "2.0 mm (1.0–3.0)"
    assert show_range(Range(1.0, 2.0, 3.0), "mass", step=1.0) == "2 g (1–3)"
    assert show_range(Range(60.0, 90.0, 7200.0), "duration") == "1:30 (1:00–2 h 00)"
    assert show_range(Range(-3.0, 22.0, 24.5), "temperature") == "22 °C (−3–24.5)"
    assert show_range(Range(0.0, 10.0, 20.0), "temperature", "us") == "50 °F (32–68)"
    assert show_range(Range(0.5, 1.0, 2.0) * OUNCE_G, "mass", "us") == "1.00 oz (0.50–2.00)"


def test_an_unknown_system_is_refused() -> None:
    with pytest.raises(InputRefused) as refused:
        show_mass(1.0, "imperial")
    assert (refused.value.code, refused.value.actual, refused.value.limit) == (
        "unknown-choice", "imperial", "metric or us",
    )  # fmt: skip


@pytest.mark.parametrize(
    ("text", "seconds"),
    [("0:00", 0.0), ("4:59.5", 299.5), ("100:05", 6005.0), ("60:00", 3600.0), ("1:59:59", 7199.0),
     ("10:00:00", 36_000.0), ("1 hr 59", 7140.0), ("0 h 00", 0.0),
     ("-4:10", None), ("4:60", None), ("1:60:00", None), ("2 h 60", None)],
)  # fmt: skip
def test_clocks(text: str, seconds: float | None) -> None:
    if seconds is not None:
        assert duration_s(text) == seconds
        return
    with pytest.raises(InputRefused):
        duration_s(text)


@pytest.mark.parametrize(
    ("text", "mm"),
    [("1 ft 11 in", 23 * INCH_MM), ("1 ft 12 in", None), ("1 yd 2 ft 11 in", 71 * INCH_MM), ("1 yd 3 ft", None),
     ("1 m 99 cm 9 mm", 1999.0), ("1 cm 10 mm", None), ("1 cm 1 cm", None), ("1 in 1 mm", None), ("1 mm 1 cm", None),
     ("1 m 5 in", None), ("-1 ft 6 in", -18 * INCH_MM), ("+2 mm", 2.0), ("0 mm", 0.0), ("-0", 0.0),
     ("1.5 m 2 cm", None), ("3/4 in", 0.75 * INCH_MM), ("1 3/0 in", None), ("2 3/4 ft 1 in", None),
     ("1 ft, 2 in", 14 * INCH_MM)],
)  # fmt: skip
def test_terms_in_their_order(text: str, mm: float | None) -> None:
    if mm is not None:
        assert length_mm(text) == pytest.approx(mm)
        return
    with pytest.raises(InputRefused):
        length_mm(text)


@pytest.mark.parametrize(
    ("text", "grams"),
    [("1,500 g", None), ("0,125 g", 0.125), ("1,50 g", 1.5), ("12,345 g", None), ("123,456 g", None),
     ("1234,567 g", 1234.567), ("1.234.567 g", None), ("01,500 g", 1.5), ("12.345 g", 12.345), ("1,5000 g", 1.5)],
)  # fmt: skip
def test_decimals_that_could_be_thousands(text: str, grams: float | None) -> None:
    if grams is not None:
        assert mass_g(text) == grams
        return
    with pytest.raises(InputRefused):
        mass_g(text)


def test_how_long_a_quantity_may_be_written() -> None:
    """200 characters, far more than anyone writes."""
    assert length_mm("1" + " " * 197 + "mm") == 1.0
    with pytest.raises(InputRefused, match="too long"):
        length_mm("1" + " " * 198 + "mm")


def test_absolute_zero() -> None:
    """0 K = -273.15 degC (SI brochure)."""
    assert temperature_c("-273.15 °C") == -273.15
    assert temperature_c("0 K") == pytest.approx(-273.15)
    assert temperature_c("-459.67 °F") == pytest.approx(-273.15)
    assert temperature_c("0 °C") == 0.0
    for text in ("-273.2 °C", "-1 K", "20 °C 5 °C", "0", "22"):
        with pytest.raises(InputRefused):
            temperature_c(text)


def test_bare_zero_only() -> None:
    assert (length_mm(0), mass_g(0.0), volume_ml("0"), duration_s(0), share("0")) == (0.0,) * 5
    for bare in (1, -1, 0.5, False):
        with pytest.raises(InputRefused):
            mass_g(bare)


def test_percent() -> None:
    assert [share(text) for text in ("100 %", "0.5 %", "57 %", "-3 %")] == [1.0, 0.005, 0.57, -0.03]


def test_ranges_read_back() -> None:
    assert range_of("−4 °C (−8–−1)", "temperature") == Range(-8.0, -4.0, -1.0)
    assert range_of("1:30 (1:00–2 h 00)", "duration") == Range(60.0, 90.0, 7200.0)
    assert range_of("2.34 fl oz (1.00–3.50)", "volume").high == pytest.approx(3.5 * FLUID_OUNCE_ML)


def test_every_spelling_belongs_to_one_dimension() -> None:
    dimensions = list(tables.HOUSE_UNIT)
    assert [tables.dimension_of(word) for word in ("inches", "lbs", "gal", "weeks", "percent", "parsec")] == [
        *("length", "mass", "volume", "duration", "share", ""),
    ]
    spellings = [word for dimension in dimensions for word in tables.units_of(dimension)]
    assert len(spellings) == len(set(spellings))


def test_a_near_spelling_is_offered() -> None:
    with pytest.raises(InputRefused, match=r"inches\?"):
        length_mm("3 inchs")
    with pytest.raises(InputRefused, match="is a mass, and a length"):
        length_mm("3 kg")
