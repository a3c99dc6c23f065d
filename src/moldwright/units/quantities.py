"""What people write -> mm, g, ml, s, degC; refused where it could mean two things."""

from __future__ import annotations

import difflib
import math
import re
from itertools import pairwise

from moldwright.errors import InputRefused
from moldwright.ranges import Range
from moldwright.text.shown import shown
from moldwright.units import tables
from moldwright.units.constants import ZERO_C_K
from moldwright.units.reading import Term, decimal, terms
from moldwright.units.text import plain
from moldwright.units.unclear import CALLED, EXAMPLE, WANTED, UnclearError
from moldwright.ways import stands
from moldwright.words.speaker import in_house_marks, say

Written = str | float | int
ABSOLUTE_ZERO_C = -ZERO_C_K
LONGEST = 200
"""Characters of a quantity; far more than anyone writes."""
_CLOCK = re.compile(r"(?:(?P<h>\d+):)?(?P<m>\d{1,3}):(?P<s>[0-5]\d(?:\.\d+)?)$")
_HOURS = re.compile(r"(?P<h>\d+) ?(?:h|hr|hrs) ?(?P<m>[0-5]\d)$")
_RANGE = re.compile(r"(?P<n>[-\d.,]+) ?(?P<unit>[^\d(]*) \((?P<low>-?[\d.,:]+) ?– ?(?P<high>-?[\d.,:]+)\)$")


def length_mm(text: Written, key: str = "") -> float:
    """A length: mm, cm, m, in, ft, yd, fractions, feet with inches [mm].

    Parameters
    ----------
    text : what was written; a bare number is refused, 0 excepted.
    key : the commission's key, named in the refusal.

    >>> length_mm("1/2 in"), round(length_mm("5' 3 1/2\\""), 1)
    (12.7, 1612.9)
    """
    return _reading(text, "length", key)


def mass_g(text: Written, key: str = "") -> float:
    """A mass: mg, g, kg, oz, lb (avoirdupois) [g].

    Parameters
    ----------
    text : what was written; a bare number is refused, 0 excepted.
    key : the commission's key, named in the refusal.

    >>> round(mass_g("3 lb 4 oz"), 2)
    1474.18
    """
    return _reading(text, "mass", key)


def volume_ml(text: Written, key: str = "") -> float:
    """A volume: ml, l, cc, cu in, and US liquid fl oz, pt, qt, gal [ml]. A cup is refused: it means two things.

    Parameters
    ----------
    text : what was written; a bare number is refused, 0 excepted.
    key : the commission's key, named in the refusal.

    >>> round(volume_ml("12 fl oz"), 2)
    354.88
    """
    return _reading(text, "volume", key)


def duration_s(text: Written, key: str = "") -> float:
    """A time: s, min, h, days; `4:10` is minutes and seconds, `2 h 05` hours and minutes [s].

    Parameters
    ----------
    text : what was written; a bare number is refused, 0 excepted.
    key : the commission's key, named in the refusal.

    >>> duration_s("7½ min"), duration_s("1 h 30 min"), duration_s("4:10")
    (450.0, 5400.0, 250.0)
    """
    return _reading(text, "duration", key)


def temperature_c(text: Written, key: str = "") -> float:
    """A temperature: °C, °F or K [degC]; (F - 32) / 1.8, K - 273.15.

    Parameters
    ----------
    text : what was written; a bare number is refused.
    key : the commission's key, named in the refusal.

    >>> round(temperature_c("72 °F"), 2), temperature_c("22 °C")
    (22.22, 22.0)
    """
    return _reading(text, "temperature", key)


def share(text: Written, key: str = "") -> float:
    """A share in percent, as a fraction of one.

    Parameters
    ----------
    text : what was written, such as "8 %"; a bare number is refused, 0 excepted.
    key : the commission's key, named in the refusal.

    >>> share("8 %")
    0.08
    """
    return _reading(text, "share", key)


def number(text: str, key: str = "") -> float:
    """A bare number of things.

    Parameters
    ----------
    text : digits, with one point or an unmistakable comma.
    key : the commission's key, named in the refusal.

    >>> number("2,5")
    2.5
    """
    try:
        return decimal(text)
    except UnclearError as why:
        raise _refusal(text, "number", key, str(why)) from None


def range_of(text: str, dimension: str, key: str = "") -> Range:
    """A printed range, `434 g (408–471)`, or one quantity without spread.

    Parameters
    ----------
    text : as `show_range` prints it.
    dimension : "mass", "volume", "length", "duration" or "temperature".
    key : the commission's key, named in the refusal.

    >>> range_of("434 g (408–471)", "mass")
    Range(low=408.0, likely=434.0, high=471.0)
    """
    spoken = text.replace("−", "-").strip()
    if "(" not in spoken:
        return Range.exactly(_reading(text, dimension, key))
    if match := _RANGE.match(spoken):
        return Range(*(_reading(f"{match[n]} {match['unit']}", dimension, key) for n in ("low", "n", "high")))
    likely, _, rest = spoken.partition(" (")
    low, _, high = rest.rstrip(")").partition("–")
    return Range(*(_reading(part, dimension, key) for part in (low, likely, high)))


def _reading(text: Written, dimension: str, key: str) -> float:
    try:
        value = _bare(text, dimension) if not isinstance(text, str) else _spoken(_plain(text), dimension)
    except UnclearError as why:
        raise _refusal(text, dimension, key, str(why)) from None
    if not math.isfinite(value) or (dimension == "temperature" and value < ABSOLUTE_ZERO_C):
        raise _refusal(text, dimension, key, say("No such quantity exists"))
    return value + 0.0


def _plain(text: str) -> str:
    if len(text) > LONGEST:
        raise UnclearError(say("It is too long to be a quantity"))
    return plain(text)


def _refusal(text: Written, dimension: str, key: str, why: str) -> InputRefused:
    typed = shown(in_house_marks(text) if isinstance(text, str) else text)
    told = say("{why}. Write it like {example}.", why=why, example=say(EXAMPLE[dimension]))
    return InputRefused("quantity-unclear", stands(key, typed) if key else typed, say(WANTED[dimension]), "", told)


def _bare(number: float, dimension: str) -> float:
    if isinstance(number, bool) or number != 0 or dimension == "temperature":
        raise UnclearError(say("The unit is missing"))
    return 0.0


def _spoken(text: str, dimension: str) -> float:
    if not text:
        raise UnclearError(say("There is nothing to read"))
    if dimension == "duration" and (clock := _clock(text)) is not None:
        return clock
    negative, found = terms(text)
    value = _temperature(found) if dimension == "temperature" else _sum(found, dimension)
    if not negative:
        return value
    return _temperature((Term(-found[0].value, found[0].unit, True),)) if dimension == "temperature" else -value


def _clock(text: str) -> float | None:
    if match := _CLOCK.match(text):
        if match["h"] and int(match["m"]) > 59:
            return None
        return int(match["h"] or 0) * 3600 + int(match["m"]) * 60 + decimal(match["s"])
    if match := _HOURS.match(text):
        return int(match["h"]) * 3600.0 + int(match["m"]) * 60
    return None


def _unit(term: Term, dimension: str) -> tables.Unit:
    known = tables.units_of(dimension)
    if term.unit in known:
        return known[term.unit]
    if not term.unit:
        if term.value == 0 and dimension != "temperature":
            return tables.Unit("", 1.0)
        raise UnclearError(say("The unit is missing"))
    if why := tables.why_unclear(dimension, term.unit):
        raise UnclearError(say(why))
    if other := tables.dimension_of(term.unit):
        raise UnclearError(
            say(
                "The unit {unit} is of another kind: {other}; asked for is: {wanted}",
                unit=term.unit,
                other=say(CALLED[other]),
                wanted=say(CALLED[dimension]),
            )
        )
    near = difflib.get_close_matches(term.unit, list(known), n=1)
    unknown = say('The unit "{unit}" is not known', unit=term.unit)
    raise UnclearError(f"{unknown}; {near[0]}?" if near else unknown)


def _sum(found: tuple[Term, ...], dimension: str) -> float:
    units = [_unit(term, dimension) for term in found]
    for (big, above), (small, below) in pairwise(zip(found, units, strict=True)):
        if not big.whole or below.factor >= above.factor or small.value * below.factor >= above.factor * (1 - 1e-12):
            raise UnclearError(say("Units must go down, whole numbers first, each less than one of the unit before it"))
        if (above.name in tables.METRIC) != (below.name in tables.METRIC):
            raise UnclearError(say("Metric and US units are mixed"))
    if len(found) == 1 and units[0].factor == 0.01:
        return found[0].value / 100
    return math.fsum(t.value * u.factor for t, u in zip(found, units, strict=True))


def _temperature(found: tuple[Term, ...]) -> float:
    if len(found) != 1:
        raise UnclearError(say("A temperature is one number with one unit"))
    name, value = _unit(found[0], "temperature").name, found[0].value
    return {"C": value, "F": (value - 32) / 1.8, "K": value + ABSOLUTE_ZERO_C}[name]
