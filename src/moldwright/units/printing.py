"""mm, g, ml, degC -> what people read; everything printed here reads back through `quantities`."""

from __future__ import annotations

import math
from dataclasses import dataclass

from moldwright.errors import InputRefused
from moldwright.ranges import Amount, Range
from moldwright.text.shown import short
from moldwright.units.clock import show_durations
from moldwright.units.constants import INCH_MM
from moldwright.units.digits import FIGURES, FINEST_PLACES, number, places, range_places, step_places, trimmed
from moldwright.units.system import UnitSystem
from moldwright.units.tables import factor_of
from moldwright.words.speaker import with_mark

RangeParts = tuple[str, str, str, str]
"""Low, likely and high as printed, and their unit."""
TAPE_FROM_MM, WHOLE_FROM_MM = 10.0, 100.0
"""From here on a length is told as a rule shows it, in half millimeters, and as a tape does, in whole ones."""
GAUGE_MM = {UnitSystem.METRIC: 0.1, UnitSystem.US: 0.01 * INCH_MM}
"""What a gauge or caliper tells: no length with bounds is told finer."""
FAR = 10.0
"""So many times the likely value is far from it: our own."""
STEP_FIGURES = 2
"""Figures of a scale's step: our own."""
FRACTION_OFF = 0.1
"""A fraction of an inch that is farther off than this share is no figure: then thousandths, as a gauge tells them."""


@dataclass(frozen=True, slots=True)
class _Unit:
    """A unit to print in and its size in house units."""

    name: str
    factor: float


@dataclass(frozen=True, slots=True)
class _Ladder:
    """A small unit and the larger one that takes over from `large.factor` up; `per` small ones in it, 0: decimals."""

    small: _Unit
    large: _Unit
    per: int = 0

    def unit_of(self, value: float) -> _Unit:
        """The unit in which three figures of a value are best read."""
        shown = abs(float(f"{value / self.small.factor:.{FIGURES - 1}e}")) * self.small.factor
        return self.large if shown >= self.large.factor * (1 - 1e-9) else self.small


def _ladder(dimension: str, small: str, large: str, per: int = 0) -> _Ladder:
    return _Ladder(_Unit(small, factor_of(dimension, small)), _Unit(large, factor_of(dimension, large)), per)


LADDERS = {
    ("mass", UnitSystem.METRIC): _ladder("mass", "g", "kg"),
    ("mass", UnitSystem.US): _ladder("mass", "oz", "lb", 16),
    ("volume", UnitSystem.METRIC): _ladder("volume", "ml", "l"),
    ("volume", UnitSystem.US): _ladder("volume", "fl oz", "qt", 32),
}


def show_mass(mass_g: float, system: str = "metric", step_g: float | None = None, finest_g: float | None = None) -> str:
    """A mass to three figures, kilograms from one up; or as a scale shows it: "434 g", "1.40 kg", "3 lb 4.0 oz".

    Parameters
    ----------
    mass_g : mass [g].
    system : "metric" or "us".
    step_g : the step of the scale that it is read from [g]: grams with the step's decimals, whatever the size.
    finest_g : what it is never told finer than [g].

    >>> show_mass(434.2), show_mass(1395.0), show_mass(82.84, step_g=0.1), show_mass(4.237, finest_g=0.1)
    ('434 g', '1.40 kg', '82.8 g', '4.2 g')
    >>> show_mass(1474.18, "us")
    '3 lb 4.0 oz'
    """
    return _amount(mass_g, "mass", system, step_g, finest_g)


def show_scale_step(step_g: float, system: str = "metric") -> str:
    """What a scale reads to, with figures enough that it is that step and no other: "0.1 g", "0.005 oz", "0.0035 oz".

    Parameters
    ----------
    step_g : the step [g], > 0.
    system : "metric" or "us".

    >>> show_scale_step(0.1), show_scale_step(0.1, "us"), show_scale_step(2.8349523125, "us")
    ('0.1 g', '0.0035 oz', '0.1 oz')
    """
    small = LADDERS["mass", _system(system)].small
    step = step_g / small.factor
    return f"{trimmed(number(step, max(0, places(step, STEP_FIGURES))))} {small.name}"


def show_volume(
    volume_ml: float, system: str = "metric", step_ml: float | None = None, finest_ml: float | None = None
) -> str:
    """A volume to three figures, liters from one up; or as a marked cup shows it: "394 ml", "1.03 l", "12.0 fl oz".

    Parameters
    ----------
    volume_ml : volume [ml].
    system : "metric" or "us" (US liquid measure).
    step_ml : the step of the marks that it is read from [ml]: milliliters, whatever the size.
    finest_ml : what it is never told finer than [ml].

    >>> show_volume(394.3), show_volume(12400), show_volume(354.88, "us")
    ('394 ml', '12.4 l', '12.0 fl oz')
    """
    return _amount(volume_ml, "volume", system, step_ml, finest_ml)


def show_length(length_mm: float, system: str = "metric", step_mm: float | None = None) -> str:
    """A length as a rule shows it: "4 mm", "12.5 mm", "160 mm"; "5/32 in", "6 5/16 in".

    Tenths of a millimeter under 10 mm (hundredths under 1 mm), halves under 100 mm, then whole ones; thirty-seconds of
    an inch under one inch, sixty-fourths where no thirty-second is within a tenth of it, then sixteenths; thousandths
    for what is so thin that no sixty-fourth is near enough either.

    Parameters
    ----------
    length_mm : length [mm].
    system : "metric" or "us".
    step_mm : the step to round to [mm], where no rule measures it.

    >>> show_length(4.0), show_length(42.3), show_length(160.0, "us"), show_length(2.0, "us"), show_length(0.6, "us")
    ('4 mm', '42.5 mm', '6 5/16 in', '5/64 in', '0.024 in')
    """
    if step_mm is not None:
        unit = _Unit("in", INCH_MM) if _us(system) else _Unit("mm", 1.0)
        return f"{number(length_mm / unit.factor, step_places(step_mm / unit.factor))} {unit.name}"
    if _us(system):
        sign = "−" if round(length_mm / INCH_MM, 3) < 0 else ""
        return f"{sign}{_inches(abs(length_mm) / INCH_MM)} in"
    return f"{trimmed(_millimeters(length_mm))} mm"


def show_temperature(temperature_c: float, system: str = "metric") -> str:
    """A temperature as a thermometer shows it: "22 °C", "72 °F".

    Parameters
    ----------
    temperature_c : temperature [degC].
    system : "metric" or "us".

    >>> show_temperature(22.0), show_temperature(22.0, "us")
    ('22 °C', '72 °F')
    """
    if _us(system):
        return f"{number(temperature_c * 1.8 + 32, 0)} °F"
    return f"{trimmed(number(temperature_c, 1))} °C"


def show_share(fraction: float, decimals: int = 1) -> str:
    """A fraction of one in percent: "8 %".

    Parameters
    ----------
    fraction : 0.08 for eight percent.
    decimals : the decimals to keep, trailing zeros dropped.

    >>> show_share(0.08), show_share(0.1459)
    ('8 %', '14.6 %')
    """
    return f"{trimmed(number(fraction * 100, decimals))} %"


def show_range(value: Range, dimension: str, system: str = "metric", finest: float | None = None) -> str:
    """A range with its likely value first, all three in one unit: "434 g (408–471)", "11 kg (8.5–13.7)".

    Parameters
    ----------
    value : the range in house units.
    dimension : "mass", "volume", "length", "duration" or "temperature".
    system : "metric" or "us".
    finest : what it is never told finer than, in house units.

    >>> show_range(Range(408.0, 434.0, 471.0), "mass"), show_range(Range(8500.0, 11200.0, 13700.0), "mass")
    ('434 g (408–471)', '11 kg (8.5–13.7)')
    """
    if dimension == "duration":
        return show_durations(value)
    if dimension == "temperature":
        low, likely, high = (show_temperature(v, system) for v in (value.low, value.likely, value.high))
        return f"{likely} ({low.split()[0]}–{high.split()[0]})"
    low, likely, high, unit = range_parts(value, dimension, system, finest)
    return f"{likely} {unit}" if low == high == likely else f"{likely} {unit} ({low}–{high})"


def show_volume_amount(amount: Amount, system: str = "metric") -> str:
    """A volume that is known, or one in doubt with its bounds.

    Parameters
    ----------
    amount : [ml].
    system : "metric" or "us".

    >>> show_volume_amount(434.0), show_volume_amount(Range(408.0, 434.0, 471.0))
    ('434 ml', '434 ml (408–471)')
    """
    return show_range(amount, "volume", system) if isinstance(amount, Range) else show_volume(amount, system)


def range_parts(value: Range, dimension: str, system: str = "metric", finest: float | None = None) -> RangeParts:
    """The numbers of a range as they are printed, all three in one unit, and that unit.

    Parameters
    ----------
    value : the range in house units.
    dimension : "mass", "volume" or "length".
    system : "metric" or "us".
    finest : what it is never told finer than, in house units.

    A high bound far from the likely value has three figures, however fine that is.

    >>> range_parts(Range(408.0, 434.0, 471.0), "mass"), range_parts(Range(0.0, 0.73, 181.5), "volume")
    (('408', '434', '471', 'g'), ('0', '0.73', '182', 'ml'))
    """
    unit = _range_unit(value.likely, dimension, system)
    finest = GAUGE_MM[_system(system)] if finest is None and dimension == "length" else finest
    shown = value * (1.0 / unit.factor)
    likely, bounds = range_places(shown, None if finest is None else step_places(finest / unit.factor))
    high = min(bounds, max(places(shown.high, FIGURES), 0)) if shown.high >= FAR * abs(shown.likely) else bounds
    return number(shown.low, bounds), number(shown.likely, likely), number(shown.high, high), unit.name


def _range_unit(likely: float, dimension: str, system: str) -> _Unit:
    if dimension == "length":
        return _Unit("in", INCH_MM) if _us(system) else _Unit("mm", 1.0)
    return LADDERS[dimension, _system(system)].unit_of(likely)


def _us(system: str) -> bool:
    return _system(system) is UnitSystem.US


def _system(system: str) -> UnitSystem:
    if system not in list(UnitSystem):
        remedy = 'Write units = "metric" or units = "us".'
        raise InputRefused("unknown-choice", short(system), " or ".join(UnitSystem), "", remedy)
    return UnitSystem(system)


def _amount(value: float, dimension: str, system: str, step: float | None, finest: float | None) -> str:
    ladder = LADDERS[dimension, _system(system)]
    small = ladder.small.factor
    if ladder.per and abs(value) >= ladder.large.factor * (1 - 1e-9):
        return _pair(value, ladder, None if step is None else step_places(step / small))
    if step is not None:
        return f"{number(value / small, step_places(step / small))} {ladder.small.name}"
    unit = ladder.small if ladder.per else ladder.unit_of(value)
    shown = value / unit.factor
    most = FINEST_PLACES if finest is None else step_places(finest / unit.factor)
    return f"{number(shown, min(max(places(shown, FIGURES), 0), most))} {unit.name}"


def _pair(value: float, ladder: _Ladder, decimals: int | None) -> str:
    """Pounds with ounces, quarts with fluid ounces; tenths of the small one, from ten large ones up whole ones."""
    kept = decimals if decimals is not None else 1 if abs(value) < 10 * ladder.large.factor else 0
    total = round(abs(value) / ladder.small.factor, kept)
    whole = int(total // ladder.per)
    rest = with_mark(f"{abs(total - whole * ladder.per):.{kept}f}")
    return f"{'−' if value < 0 and total else ''}{whole} {ladder.large.name} {rest} {ladder.small.name}"


def _millimeters(length_mm: float) -> str:
    size = abs(length_mm)
    if size >= WHOLE_FROM_MM - 0.25:
        return number(length_mm, 0)
    if size >= TAPE_FROM_MM - 0.05:
        return number(round(length_mm * 2) / 2, 1)
    return number(length_mm, 1 if size >= 1.0 - 0.005 else 2)


def _inches(inches: float) -> str:
    """Sixteenths from one inch up, thirty-seconds below, or sixty-fourths; thousandths where all are too far off."""
    if inches >= 1 - 1 / 64:
        return _fraction(round(inches * 16), 16)
    for of in (32, 64):
        parts = round(inches * of)
        if abs(parts / of - inches) <= FRACTION_OFF * inches:
            return _fraction(parts, of)
    return trimmed(number(inches, 3))


def _fraction(parts: int, of: int) -> str:
    whole, rest = divmod(parts, of)
    common = math.gcd(rest, of)
    fraction = f"{rest // common}/{of // common}" if rest else ""
    return " ".join(filter(None, (f"{whole}" if whole else "", fraction))) or "0"
