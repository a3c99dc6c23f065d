"""mm, g, ml, s, degC -> what people read; everything printed here reads back through `quantities`."""

from __future__ import annotations

import math
from dataclasses import dataclass

from moldwright.errors import InputRefused
from moldwright.ranges import Range
from moldwright.text.shown import short
from moldwright.units.constants import INCH_MM
from moldwright.units.system import UnitSystem
from moldwright.units.tables import factor_of

RangeParts = tuple[str, str, str, str]
"""Low, likely and high as printed, and their unit."""


@dataclass(frozen=True, slots=True)
class _Shown:
    """A unit to print in, its size in house units and the decimals to keep."""

    unit: str
    factor: float
    decimals: int


def show_mass(mass_g: float, system: str = "metric", step_g: float | None = None) -> str:
    """A mass with the decimals of the scale's step: "434 g", "15.3 oz", "3 lb 4.0 oz".

    Parameters
    ----------
    mass_g : mass [g].
    system : "metric" or "us".
    step_g : the scale's step [g]; left out, three figures or so are kept.

    >>> show_mass(434.2), show_mass(82.84, step_g=0.1), show_mass(1474.18, "us")
    ('434 g', '82.8 g', '3 lb 4.0 oz')
    """
    if _us(system) and abs(mass_g) >= factor_of("mass", "lb"):
        return _pair(mass_g, "mass", "lb", "oz", 1 if step_g is None else _decimals(step_g / factor_of("mass", "oz")))
    return _one(mass_g, _mass(mass_g, system, step_g))


def show_volume(volume_ml: float, system: str = "metric", step_ml: float | None = None) -> str:
    """A volume: "394 ml", "12.4 l", "13.3 fl oz", "1 qt 3.2 fl oz".

    Parameters
    ----------
    volume_ml : volume [ml].
    system : "metric" or "us" (US liquid measure).
    step_ml : the step to round to [ml]; left out, three figures or so are kept.

    >>> show_volume(394.3), show_volume(12400), show_volume(354.88, "us")
    ('394 ml', '12.40 l', '12.0 fl oz')
    """
    if _us(system) and abs(volume_ml) >= factor_of("volume", "qt"):
        decimals = 1 if step_ml is None else _decimals(step_ml / factor_of("volume", "fl oz"))
        return _pair(volume_ml, "volume", "qt", "fl oz", decimals)
    return _one(volume_ml, _volume(volume_ml, system, step_ml))


def show_length(length_mm: float, system: str = "metric", step_mm: float | None = None) -> str:
    """A length: "160 mm", "12.5 mm", "0.16 in", "6 5/16 in" (sixteenths from one inch up; below, an exact 1/32 too).

    Parameters
    ----------
    length_mm : length [mm].
    system : "metric" or "us".
    step_mm : the step to round to [mm]; left out, 0.1 mm under 100 mm, else 1 mm.

    >>> show_length(4.0), show_length(160.0, "us"), show_length(4.0, "us"), show_length(3.175, "us")
    ('4 mm', '6 5/16 in', '0.16 in', '1/8 in')
    """
    if _us(system) and abs(length_mm) >= INCH_MM * (1 - 1 / 32) and step_mm is None:
        return f"{_sixteenths(length_mm / INCH_MM)} in"
    if _us(system) and step_mm is None and (exact := _thirty_second(abs(length_mm) / INCH_MM)):
        return f"{'−' if length_mm < 0 else ''}{exact} in"
    shown = _length(length_mm, system, step_mm)
    number = _number(length_mm / shown.factor, shown.decimals)
    return f"{_trimmed(number) if step_mm is None else number} {shown.unit}"


def show_temperature(temperature_c: float, system: str = "metric") -> str:
    """A temperature to a tenth of a degree: "22 °C", "71.6 °F".

    Parameters
    ----------
    temperature_c : temperature [degC].
    system : "metric" or "us".

    >>> show_temperature(22.0), show_temperature(22.0, "us")
    ('22 °C', '71.6 °F')
    """
    value, unit = (temperature_c * 1.8 + 32, "°F") if _us(system) else (temperature_c, "°C")
    return f"{_trimmed(_number(value, 1))} {unit}"


def show_duration(duration_s: float) -> str:
    """A time: minutes and seconds under an hour, hours and minutes above, days from two days up.

    Parameters
    ----------
    duration_s : time [s].

    >>> show_duration(250), show_duration(7500), show_duration(259200)
    ('4:10', '2 h 05', '3 d')
    """
    sign, seconds = ("−" if duration_s <= -0.5 else ""), round(abs(duration_s))
    if seconds < 3600:
        return f"{sign}{seconds // 60}:{seconds % 60:02d}"
    minutes = round(abs(duration_s) / 60)
    if minutes >= 2880 and minutes % 1440 == 0:
        return f"{sign}{minutes // 1440} d"
    return f"{sign}{minutes // 60} h {minutes % 60:02d}"


def show_share(fraction: float, decimals: int = 1) -> str:
    """A fraction of one in percent: "8 %".

    Parameters
    ----------
    fraction : 0.08 for eight percent.
    decimals : the decimals to keep, trailing zeros dropped.

    >>> show_share(0.08), show_share(0.1459)
    ('8 %', '14.6 %')
    """
    return f"{_trimmed(_number(fraction * 100, decimals))} %"


def show_range(value: Range, dimension: str, system: str = "metric", step: float | None = None) -> str:
    """A range with its likely value first, all three in one unit: "434 g (408–471)".

    Parameters
    ----------
    value : the range in house units.
    dimension : "mass", "volume", "length", "duration" or "temperature".
    system : "metric" or "us".
    step : the step to round to, in house units.

    >>> show_range(Range(408.0, 434.0, 471.0), "mass")
    '434 g (408–471)'
    """
    if dimension == "duration":
        return f"{show_duration(value.likely)} ({show_duration(value.low)}–{show_duration(value.high)})"
    if dimension == "temperature":
        low, likely, high = (show_temperature(v, system) for v in (value.low, value.likely, value.high))
        return f"{likely} ({low.split()[0]}–{high.split()[0]})"
    low, likely, high, unit = range_parts(value, dimension, system, step)
    return f"{likely} {unit} ({low}–{high})"


def range_parts(value: Range, dimension: str, system: str = "metric", step: float | None = None) -> RangeParts:
    """The numbers of a range as they are printed, all three in one unit, and that unit.

    Parameters
    ----------
    value : the range in house units.
    dimension : "mass", "volume" or "length".
    system : "metric" or "us".
    step : the step to round to, in house units.

    >>> range_parts(Range(408.0, 434.0, 471.0), "mass")
    ('408', '434', '471', 'g')
    """
    shown = {"mass": _mass, "volume": _volume, "length": _length}[dimension](value.likely, system, step)
    low, likely, high = (_number(v / shown.factor, shown.decimals) for v in (value.low, value.likely, value.high))
    return low, likely, high, shown.unit


def _us(system: str) -> bool:
    if system not in list(UnitSystem):
        remedy = 'Write units = "metric" or units = "us".'
        raise InputRefused("unknown-choice", short(system), " or ".join(UnitSystem), "", remedy)
    return system == UnitSystem.US


def _mass(mass_g: float, system: str, step_g: float | None) -> _Shown:
    if _us(system):
        return _fitted("oz", factor_of("mass", "oz"), mass_g, step_g, least=1)
    if abs(mass_g) >= 10_000 and step_g is None:
        return _Shown("kg", 1000.0, 2)
    return _fitted("g", 1.0, mass_g, step_g)


def _volume(volume_ml: float, system: str, step_ml: float | None) -> _Shown:
    if _us(system):
        return _fitted("fl oz", factor_of("volume", "fl oz"), volume_ml, step_ml, least=1)
    if abs(volume_ml) >= 10_000 and step_ml is None:
        return _Shown("l", 1000.0, 2)
    return _fitted("ml", 1.0, volume_ml, step_ml)


def _length(length_mm: float, system: str, step_mm: float | None) -> _Shown:
    if _us(system):
        return _Shown(
            "in",
            INCH_MM,
            (3 if abs(length_mm) < INCH_MM / 10 else 2) if step_mm is None else _decimals(step_mm / INCH_MM),
        )
    return _Shown("mm", 1.0, (1 if abs(length_mm) < 100 else 0) if step_mm is None else _decimals(step_mm))


def _fitted(unit: str, factor: float, value: float, step: float | None, least: int = 0) -> _Shown:
    if step is not None:
        return _Shown(unit, factor, _decimals(step / factor))
    size = abs(value) / factor
    return _Shown(unit, factor, max(least, 2 if size < 10 else 1 if size < 100 else 0))


def _decimals(step: float) -> int:
    """Decimals that tell multiples of a step apart: 0.1 -> 1, 1 -> 0, 0.5 -> 1, 0.05 -> 2."""
    return max(0, min(6, math.ceil(-math.log10(step) - 1e-9))) if step > 0 else 0


def _number(value: float, decimals: int) -> str:
    text = f"{value:.{decimals}f}"
    if float(text) == 0:
        text = text.lstrip("-")
    return text.replace("-", "−")


def _trimmed(number: str) -> str:
    return number.rstrip("0").rstrip(".") if "." in number else number


def _one(value: float, shown: _Shown) -> str:
    return f"{_number(value / shown.factor, shown.decimals)} {shown.unit}"


def _pair(value: float, dimension: str, big: str, small: str, decimals: int) -> str:
    factor, per = factor_of(dimension, small), round(factor_of(dimension, big) / factor_of(dimension, small))
    total = round(abs(value) / factor, decimals)
    whole = int(total // per)
    return f"{'−' if value < 0 else ''}{whole} {big} {abs(total - whole * per):.{decimals}f} {small}"


def _thirty_second(inches: float) -> str:
    """A fraction of an inch as someone gave it, "" where it is no whole 1/32."""
    parts = round(inches * 32)
    if not 0 < parts < 32 or abs(inches * 32 - parts) > 0.01:
        return ""
    common = math.gcd(parts, 32)
    return f"{parts // common}/{32 // common}"


def _sixteenths(inches: float) -> str:
    parts = round(abs(inches) * 16)
    whole, rest = divmod(parts, 16)
    common = math.gcd(rest, 16)
    fraction = f" {rest // common}/{16 // common}" if rest else ""
    return f"{'−' if inches < 0 else ''}{whole}{fraction}"
