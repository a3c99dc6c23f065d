"""Quantities as people write them: each bound from both sides. Factors: NIST SP 811, appendix B (from memory)."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from exact_factors import FLUID_OUNCE_ML, GALLON_ML, INCH_MM, POUND_G

from moldwright.errors import InputRefused
from moldwright.ranges import Range
from moldwright.units import duration_s, length_mm, mass_g, range_of, share, tables, temperature_c, volume_ml


def read_or_refused(read: Callable[[str], float], text: str, wanted: float | None) -> None:
    """It is read as that; where none is wanted it is refused."""
    if wanted is not None:
        assert read(text) == wanted
        return
    with pytest.raises(InputRefused):
        read(text)


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
    texts = ("8 %", "12.5%", "7,5 percent", "100 %", "0.5 %", "57 %", "-3 %")
    assert [share(text) for text in texts] == [0.08, 0.125, 0.075, 1.0, 0.005, 0.57, -0.03]


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


@pytest.mark.parametrize(
    ("text", "seconds"),
    [("0:00", 0.0), ("4:59.5", 299.5), ("100:05", 6005.0), ("60:00", 3600.0), ("1:59:59", 7199.0),
     ("10:00:00", 36_000.0), ("1 hr 59", 7140.0), ("0 h 00", 0.0),
     ("-4:10", None), ("4:60", None), ("1:60:00", None), ("2 h 60", None)],
)  # fmt: skip
def test_clocks(text: str, seconds: float | None) -> None:
    read_or_refused(duration_s, text, seconds)


@pytest.mark.parametrize(
    ("text", "mm"),
    [("1 ft 11 in", 23 * INCH_MM), ("1 ft 12 in", None), ("1 yd 2 ft 11 in", 71 * INCH_MM), ("1 yd 3 ft", None),
     ("1 m 99 cm 9 mm", 1999.0), ("1 cm 10 mm", None), ("1 cm 1 cm", None), ("1 in 1 mm", None), ("1 mm 1 cm", None),
     ("1 m 5 in", None), ("-1 ft 6 in", -18 * INCH_MM), ("+2 mm", 2.0), ("0 mm", 0.0), ("-0", 0.0),
     ("1.5 m 2 cm", None), ("3/4 in", 0.75 * INCH_MM), ("1 3/0 in", None), ("2 3/4 ft 1 in", None),
     ("1 ft, 2 in", 14 * INCH_MM)],
)  # fmt: skip
def test_terms_in_their_order(text: str, mm: float | None) -> None:
    read_or_refused(length_mm, text, None if mm is None else pytest.approx(mm, rel=1e-12))


@pytest.mark.parametrize(
    ("text", "grams"),
    [("1,500 g", None), ("0,125 g", 0.125), ("1,50 g", 1.5), ("12,345 g", None), ("123,456 g", None),
     ("1234,567 g", 1234.567), ("1.234.567 g", None), ("01,500 g", 1.5), ("12.345 g", 12.345), ("1,5000 g", 1.5)],
)  # fmt: skip
def test_decimals_that_could_be_thousands(text: str, grams: float | None) -> None:
    read_or_refused(mass_g, text, grams)


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


def test_ranges_read_back() -> None:
    assert range_of("434 g (408–471)", "mass") == Range(408.0, 434.0, 471.0)
    assert range_of("2 h 05 (1 h 50–2 h 30)", "duration") == Range(6600.0, 7500.0, 9000.0)
    assert range_of("22 °C (−3–24)", "temperature") == Range(-3.0, 22.0, 24.0)
    assert range_of("250 g", "mass") == Range.exactly(250.0)
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
    with pytest.raises(InputRefused, match="of another kind: mass; asked for is: length"):
        length_mm("3 kg")
