"""Every printed quantity reads back as itself, within half of its last printed figure.

Three figures are kept, two decimals at most: rounding is off by at most 0.5 % (1.00 to 1.01), or by half a hundredth.
Of a range that is known badly two figures are kept: 5 %.
"""

from __future__ import annotations

from exact_factors import FLUID_OUNCE_ML, INCH_MM, OUNCE_G
from hypothesis import given
from hypothesis import strategies as st

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

SYSTEM = st.sampled_from(["metric", "us"])
AMOUNT = st.floats(0, 1e6)
SMALL_OR_LARGE = st.one_of(AMOUNT, st.floats(0, 1000), st.floats(0, 20))
UNIT = {("mass", "us"): OUNCE_G, ("volume", "us"): FLUID_OUNCE_ML}


def rounding(value: float, dimension: str, system: str) -> float:
    """The most that printing may round away; ounces stand to a tenth beside pounds, whole from ten pounds up."""
    unit = UNIT.get((dimension, system), 1.0)
    return max(0.005 * unit, 0.005 * value, 0.05 * unit if value >= 16 * unit else 0.0) * 1.001


@given(SMALL_OR_LARGE, SYSTEM)
def test_masses(value: float, system: str) -> None:
    assert abs(mass_g(show_mass(value, system)) - value) <= rounding(value, "mass", system)


@given(AMOUNT, st.sampled_from([0.01, 0.1, 0.5, 1.0, 5.0]), SYSTEM)
def test_masses_by_the_scales_step(value: float, step_g: float, system: str) -> None:
    assert abs(mass_g(show_mass(value, system, step_g)) - value) <= step_g / 2 * 1.001 + 1e-6


@given(SMALL_OR_LARGE, SYSTEM)
def test_volumes(value: float, system: str) -> None:
    assert abs(volume_ml(show_volume(value, system)) - value) <= rounding(value, "volume", system)


@given(st.one_of(st.floats(-1e4, 1e4), st.floats(-120, 120), st.floats(-1.2, 1.2)), SYSTEM)
def test_lengths(value: float, system: str) -> None:
    """As a rule shows it: tenths, halves, whole millimeters; thirty-seconds and sixteenths of an inch."""
    size = abs(value)
    if system == "us":
        half = INCH_MM / 32 if size >= INCH_MM * 63 / 64 else INCH_MM / 64
    else:
        half = 0.5 if size >= 99 else 0.25 if size >= 9.9 else 0.05 if size >= 0.99 else 0.005
    assert abs(length_mm(show_length(value, system)) - value) <= half * 1.001


@given(st.floats(-100, 1000), SYSTEM)
def test_temperatures(value: float, system: str) -> None:
    """A tenth of a degree Celsius, a whole degree Fahrenheit."""
    half = 0.5 / 1.8 if system == "us" else 0.05
    assert abs(temperature_c(show_temperature(value, system)) - value) <= half + 1e-3


@given(st.floats(0, 1e7))
def test_durations(value: float) -> None:
    """Seconds, five seconds from 2 min, minutes from 10 min, five from 2 h, hours from 10 h, days from two."""
    steps = ((171_000, 86_400.0), (35_850, 3600.0), (7170, 300.0), (597, 60.0), (119, 5.0), (0, 1.0))
    step = next(step for least, step in steps if value >= least)
    assert abs(duration_s(show_duration(value)) - value) <= step / 2 + 1e-6


@given(st.floats(0, 1))
def test_shares(value: float) -> None:
    assert abs(share(show_share(value)) - value) <= 0.000501


@given(st.tuples(SMALL_OR_LARGE, SMALL_OR_LARGE, SMALL_OR_LARGE), st.sampled_from(["mass", "volume"]), SYSTEM)
def test_ranges(values: tuple[float, float, float], dimension: str, system: str) -> None:
    low, likely, high = sorted(values)
    printed = show_range(Range(low, likely, high), dimension, system)
    back = range_of(printed, dimension)
    coarse = 1.001 * max(0.05 * likely, rounding(high if likely == 0 else 0.0, dimension, system))
    assert abs(back.likely - likely) <= coarse
    for end, was in ((back.low, low), (back.high, high)):
        assert abs(end - was) <= max(coarse, 0.05 * was)


@given(st.integers(0, 400), st.integers(0, 15), st.sampled_from([2, 4, 8, 16, 32]))
def test_tape_readings(whole: int, top: int, bottom: int) -> None:
    expected = (whole + top / bottom) * INCH_MM
    assert abs(length_mm(f"{whole} {top}/{bottom} in") - expected) < 1e-9


def read_or_refused(text: str) -> set[str]:
    """The codes with which the text was refused; any other exception comes through."""
    codes = set()
    for read in (length_mm, mass_g, volume_ml, duration_s, temperature_c, share):
        try:
            assert isinstance(read(text), float)
        except InputRefused as refused:
            codes.add(refused.code)
    return codes


@given(st.text(max_size=40))
def test_any_text_is_read_or_refused(text: str) -> None:
    assert read_or_refused(text) <= {"quantity-unclear"}


@given(st.text(alphabet="0123456789 ./,'\"-–½°FCcmgkinlbozh:%", max_size=20))
def test_any_likely_text_is_read_or_refused(text: str) -> None:
    assert read_or_refused(text) <= {"quantity-unclear"}
