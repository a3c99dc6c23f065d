"""Quantities as people write them. Factors: NIST SP 811 appendix B (exact definitions; from memory)."""

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
    temperature_c,
    volume_ml,
)

INCH_MM, POUND_G, GALLON_ML = 25.4, 453.59237, 231 * 2.54**3


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("8 in", 8 * INCH_MM),
        ("8in", 8 * INCH_MM),
        ("1/2 in", INCH_MM / 2),
        ("7 1/2 in", 7.5 * INCH_MM),
        ("7-1/2 in", 7.5 * INCH_MM),
        ("7½ in", 7.5 * INCH_MM),
        ("7 ½″", 7.5 * INCH_MM),
        ("5' 3 1/2\"", 63.5 * INCH_MM),
        ("5′ 3½″", 63.5 * INCH_MM),
        ("5'-3 1/2\"", 63.5 * INCH_MM),
        ("5 ft 3 in", 63 * INCH_MM),
        ("2 ft", 24 * INCH_MM),
        ("1 yd", 36 * INCH_MM),
        ("160 mm", 160.0),
        ("16,5 cm", 165.0),
        ("0,125 m", 125.0),
        ("1 m 20 cm", 1200.0),
        ("160\u202fmm", 160.0),
        ("\u221212.5\u00a0mm", -12.5),
        (".5 in", INCH_MM / 2),
        ("0", 0.0),
        (0, 0.0),
    ],
)
def test_lengths(text: str | float, expected: float) -> None:
    assert length_mm(text) == pytest.approx(expected, rel=1e-12)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("250 g", 250.0),
        ("1.5 kg", 1500.0),
        ("1.500 kg", 1500.0),
        ("1,5 kg", 1500.0),
        ("3 lb 4 oz", 3.25 * POUND_G),
        ("3 lbs, 4 oz", 3.25 * POUND_G),
        ("8 OZ", POUND_G / 2),
        ("1 kg 200 g", 1200.0),
        ("50 mg", 0.05),
    ],
)
def test_masses(text: str, expected: float) -> None:
    assert mass_g(text) == pytest.approx(expected, rel=1e-12)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("500 ml", 500.0),
        ("500 mL", 500.0),
        ("1.2 L", 1200.0),
        ("12 fl oz", 12 * GALLON_ML / 128),
        ("12 fl. oz.", 12 * GALLON_ML / 128),
        ("1 pt", GALLON_ML / 8),
        ("2 qt", GALLON_ML / 2),
        ("1 qt 8 fl oz", GALLON_ML * 40 / 128),
        ("1 gal", GALLON_ML),
        ("30 cc", 30.0),
        ("2 cu in", 2 * 2.54**3),
    ],
)
def test_volumes(text: str, expected: float) -> None:
    assert volume_ml(text) == pytest.approx(expected, rel=1e-12)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("7½ min", 450.0),
        ("1 h 30 min", 5400.0),
        ("1.5 h", 5400.0),
        ("90 s", 90.0),
        ("2 min 30 s", 150.0),
        ("4:10", 250.0),
        ("59:59", 3599.0),
        ("1:02:03", 3723.0),
        ("2 h 05", 7500.0),
        ("3 d", 259200.0),
        ("1 day 6 h", 108000.0),
        ("1 week", 7 * 86400.0),
        ("2 wk", 14 * 86400.0),
        ("1 week 2 days", 9 * 86400.0),
    ],
)
def test_durations(text: str, expected: float) -> None:
    assert duration_s(text) == pytest.approx(expected, rel=1e-12)


# Fixed points: ice 32 °F = 0 °C, steam 212 °F = 100 °C, -40 on both scales, 0 °C = 273.15 K (SI brochure).
@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("32 °F", 0.0),
        ("212F", 100.0),
        ("-40 degF", -40.0),
        ("−40 ℉", -40.0),
        ("273.15 K", 0.0),
        ("22 °C", 22.0),
        ("22º C", 22.0),
        ("22 degC", 22.0),
        ("22,5 deg C", 22.5),
        ("68 degrees Fahrenheit", 20.0),
    ],
)
def test_temperatures(text: str, expected: float) -> None:
    assert temperature_c(text) == pytest.approx(expected, abs=1e-12)


def test_shares() -> None:
    assert share("8 %") == 0.08
    assert share("12.5%") == 0.125
    assert share("7,5 percent") == 0.075


@pytest.mark.parametrize("text", ["4", 4, 4.0, "", "mm", "4 x", "4 g", "1,500 mm", "1.234,5 mm", "1 500 mm", "4 mm 3",
                                  "3 in 5 mm", "1/0 in", "5' 14\"", "1.5 ft 3 in", "4 mil", "nan mm", "1e3 mm", True,
                                  "9" * 400 + " mm", "4 mm; drop", "3 in 2 ft"])  # fmt: skip
def test_what_could_mean_two_things_is_refused(text: str | float) -> None:
    with pytest.raises(InputRefused) as refused:
        length_mm(text, "mold.thickness")
    assert refused.value.code == "quantity-unclear"
    assert "mold.thickness" in str(refused.value.actual)
    assert '"4 mm"' in refused.value.remedy


def test_the_remedy_says_why() -> None:
    with pytest.raises(InputRefused, match="kitchen measure"):
        volume_ml("2 cups")
    with pytest.raises(InputRefused, match="fl oz"):
        volume_ml("12 oz")
    with pytest.raises(InputRefused, match="Fluid ounces are a volume"):
        mass_g("12 fl oz".upper())
    with pytest.raises(InputRefused, match="°C or °F"):
        temperature_c("72°")
    with pytest.raises(InputRefused, match="could be 1500 or"):
        mass_g("1,500 g")
    with pytest.raises(InputRefused, match="unit is missing"):
        temperature_c(0)
    with pytest.raises(InputRefused, match="No such"):
        temperature_c("-300 °C")
    with pytest.raises(InputRefused, match="minutes or months"):
        duration_s("5 m")


def test_printing_as_the_trade_reads_it() -> None:
    assert show_mass(434.2) == "434 g"
    assert show_mass(82.84, step_g=0.1) == "82.8 g"
    assert show_mass(12_345.0) == "12.35 kg"
    assert show_mass(POUND_G - 0.001, "us") == "16.0 oz"
    assert show_mass(POUND_G * 2 - 0.001, "us") == "2 lb 0.0 oz"
    assert show_volume(GALLON_ML, "us") == "4 qt 0.0 fl oz"
    assert show_length(7.5 * INCH_MM, "us") == "7 1/2 in"
    assert show_length(12.5) == "12.5 mm"
    assert show_temperature(-4.0) == "−4 °C"
    assert show_duration(250) == "4:10"
    assert show_duration(3599.7) == "1 h 00"
    assert show_duration(7500) == "2 h 05"
    assert show_range(Range(408.0, 434.0, 471.0), "mass") == "434 g (408–471)"


def test_three_figures_are_kept() -> None:
    """Rounded by hand to a relative 0.5 %: two decimals below ten, one below a hundred, none above; two in kg and l."""
    assert [show_mass(g) for g in (4.2372, 42.372, 423.72, 42_372.0)] == ["4.24 g", "42.4 g", "424 g", "42.37 kg"]
    assert [show_volume(ml) for ml in (3.456, 34.56, 345.6, 34_567.0)] == ["3.46 ml", "34.6 ml", "346 ml", "34.57 l"]
    assert show_mass(2.344 * POUND_G / 16, "us") == "2.34 oz"
    assert show_volume(2.344 * GALLON_ML / 128, "us") == "2.34 fl oz"
    assert show_length(42.34) == "42.3 mm"
    assert show_temperature(22.26) == "22.3 °C"
    assert show_share(0.12345) == "12.3 %"
    assert show_share(0.12345, 2) == "12.35 %"  # 12.345 lies above the half in binary
    assert show_range(Range(4.081, 4.342, 4.713), "mass") == "4.34 g (4.08–4.71)"


def test_the_scales_step_keeps_its_digits() -> None:
    """A scale that steps by 0.05 g shows two decimals, by 0.5 g one, by 1 g none."""
    assert [show_mass(82.846, step_g=step) for step in (0.01, 0.05, 0.1, 0.5, 1.0)] == [
        *("82.85 g", "82.85 g", "82.8 g", "82.8 g", "83 g"),
    ]
    assert show_volume(82.846, step_ml=0.1) == "82.8 ml"
    assert show_length(82.846, step_mm=0.01) == "82.85 mm"


def test_printed_ranges_read_back() -> None:
    assert range_of("434 g (408–471)", "mass") == Range(408.0, 434.0, 471.0)
    assert range_of("2 h 05 (1 h 50–2 h 30)", "duration") == Range(6600.0, 7500.0, 9000.0)
    assert range_of("22 °C (−3–24)", "temperature") == Range(-3.0, 22.0, 24.0)
    assert range_of("250 g", "mass") == Range.exactly(250.0)


def test_small_inches_as_they_were_given() -> None:
    """A 1/8 in coat is marked 1/8 in, not 0.12 in; what is no whole 1/32 keeps its decimals, three below 0.1 in."""
    assert [show_length(part * 25.4, "us") for part in (1 / 32, 1 / 8, 3 / 16)] == ["1/32 in", "1/8 in", "3/16 in"]
    assert [show_length(mm, "us") for mm in (4.0, 0.6)] == ["0.16 in", "0.024 in"]
