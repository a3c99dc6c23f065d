"""The plan's values in words: sentences by their keys, quantities in the reader's units and digits."""

from __future__ import annotations

import tomllib
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from functools import cache
from importlib import resources
from typing import Any

from moldwright.materials.hazards import short_statement, statement
from moldwright.plan.cautions import Caution
from moldwright.plan.lines import Line
from moldwright.plan.quantity import Dimension, Quantity, Value, likely_of
from moldwright.ranges import Range
from moldwright.steps.placeholders import PLACE
from moldwright.steps.sentences import sentences
from moldwright.units import (
    show_duration,
    show_length,
    show_mass,
    show_range,
    show_scale_step,
    show_share,
    show_temperature,
    show_volume,
)
from moldwright.units.constants import INCH_MM
from moldwright.units.system import UnitSystem
from moldwright.units.tables import factor_of
from moldwright.words.speaker import say, say_count, with_mark

RANGED = {
    Dimension.LENGTH: "length",
    Dimension.MASS: "mass",
    Dimension.VOLUME: "volume",
    Dimension.DURATION: "duration",
    Dimension.TEMPERATURE: "temperature",
}

MANY_LINES = 5
"""From so many sentences on a caution's are set one under another: our own."""
LIFT_WHOLE_FROM = 10.0
"""From here on a weight that is lifted is told in whole kilograms or pounds: our own."""
COARSE_FROM_G = 2.0
"""Less than this is told to a tenth of a gram: our own."""


@cache
def table() -> Mapping[str, Any]:
    """The words of this room, by their tables."""
    return tomllib.loads(resources.files("moldwright.sheets").joinpath("words.toml").read_text("utf-8"))


@dataclass(frozen=True, slots=True)
class Wording:
    """How one reader is told.

    Parameters
    ----------
    units : "metric" or "us".
    scale_g : the step of the reader's scale [g].
    """

    units: UnitSystem
    scale_g: float = 0.1

    def line(self, line: Line, quantities: Iterable[Quantity] = ()) -> str:
        """One line, its first letter a capital.

        Parameters
        ----------
        line : a sentence by its key, or somebody's own words.
        quantities : what it may quote.
        """
        if not line.say:
            return line.own
        by_name = {quantity.name: quantity for quantity in quantities}
        said = PLACE.sub(lambda place: self._quoted(by_name[place[1]], place[2]), say(sentences()[line.say]))
        return said[:1].upper() + said[1:]

    def caution(self, caution: Caution) -> str:
        """Everything that a caution says, sentence by sentence.

        Parameters
        ----------
        caution : the caution.
        """
        return " ".join(self.line(line, caution.quantities) for line in caution.lines)

    def caution_set(self, caution: Caution) -> str:
        """The same as it is set on paper: many sentences each on a line of its own, where an eye finds them.

        Parameters
        ----------
        caution : the caution.
        """
        between = "\n" if len(caution.lines) >= MANY_LINES else " "
        return between.join(self.line(line, caution.quantities) for line in caution.lines)

    def quantity(self, quantity: Quantity) -> str:
        """A quantity in the reader's units.

        Parameters
        ----------
        quantity : a number, a range or a word.
        """
        measure, value = quantity.measure, quantity.value
        listed = {
            Dimension.HOLES: self._holes,
            Dimension.SHEETS: self._sheets,
            Dimension.PARTS: self._parts,
        }
        if measure in listed:
            return listed[measure](str(value))
        if isinstance(value, str):
            return _word(measure, value)
        if isinstance(value, Range) and measure in RANGED:
            return show_range(value, RANGED[measure], self.units, self.scale_g if measure is Dimension.MASS else None)
        return self._shown()[measure](likely_of(value))

    def _shown(self) -> Mapping[Dimension, Callable[[float], str]]:
        units = self.units
        return {
            Dimension.LENGTH: lambda v: show_length(v, units),
            Dimension.FINE_LENGTH: lambda v: show_length(v, units, 0.01),
            Dimension.AREA: lambda v: show_area(v, units),
            Dimension.MASS: lambda v: show_mass(v, units, finest_g=self.scale_g),
            Dimension.SCALED_MASS: lambda v: show_mass(v, units, self.scale_g),
            Dimension.COARSE_MASS: lambda v: show_mass(v, units, 1.0 if v >= COARSE_FROM_G else 0.1),
            Dimension.SCALE_STEP: lambda v: show_scale_step(v, units),
            Dimension.LIFT: lambda v: show_lift(v, units),
            Dimension.VOLUME: lambda v: show_volume(v, units),
            Dimension.DURATION: show_duration,
            Dimension.TEMPERATURE: lambda v: show_temperature(v, units),
            Dimension.SHARE: lambda v: show_share(v, 0),
            Dimension.FINE_SHARE: lambda v: show_share(v, 2),
            Dimension.PERCENT: lambda v: f"{with_mark(format(v, '.1f'))} %",
            Dimension.VISCOSITY: lambda v: f"{with_mark(format(v, '.1f'))} Pa s",
            Dimension.FACTOR: lambda v: with_mark(f"{v:.1f}"),
            Dimension.COUNT: lambda v: f"{v:.0f}",
        }

    def _holes(self, text: str) -> str:
        """Holes by their letters on the map, each with its width: "A (12 mm), B (30 mm)"."""
        pairs = [hole.partition("=") for hole in text.split()]
        return ", ".join(f"{letter} ({show_length(float(width), self.units)})" for letter, _, width in pairs)

    def _sheets(self, text: str) -> str:
        """A sheet for each hole by its letter: "A (60 × 45 mm), B (34 × 34 mm)"."""
        pairs = [sheet.partition("=") for sheet in text.split()]
        return ", ".join(f"{letter} ({self._sides(sides)})" for letter, _, sides in pairs)

    def _sides(self, text: str) -> str:
        return " × ".join(show_length(float(side), self.units) for side in text.split("x"))

    def _parts(self, text: str) -> str:
        """Parts of a cup in their order: "B 3.6 g, A 3.6 g, thixotropic agent 0.2 ml by syringe"."""
        told = []
        for part in text.split("; "):
            kind, _, amount = part.partition("=")
            value, _, unit = amount.partition(" ")
            told.append(f"{say(kind)} {self._amount(float(value), unit)}")
        return ", ".join(told)

    def _amount(self, value: float, unit: str) -> str:
        """Syringes are marked in milliliters everywhere."""
        if unit == "g":
            return show_mass(value, self.units, self.scale_g)
        return show_volume(value, self.units) if unit == "ml" else f"{with_mark(format(value, 'g'))} {unit}"

    def _quoted(self, quantity: Quantity, noun: str | None) -> str:
        said = self.quantity(quantity)
        if not noun:
            return said
        one, many = f"{{told}} {noun}", f"{{told}} {noun}s"
        return say_count(one, many, 1 if likely_of(quantity.value) == 1 else 2, told=said)


def _word(measure: Dimension, text: str) -> str:
    match measure:
        case Dimension.TOOL:
            return say(table()["tool"][text])
        case Dimension.TITLE:
            return say(sentences()[text])
        case Dimension.CODES:
            return _sentence(", ".join(dict.fromkeys(say(short_statement(each)) for each in text.split())))
        case Dimension.CODES_IN_FULL:
            return " ".join(f"{code}: {say(statement(code))}." for code in text.split())
        case _:
            return say(text)


def _sentence(words: str) -> str:
    return f"{words[:1].upper()}{words[1:]}."


def show_area(area_mm2: float, units: UnitSystem) -> str:
    """An area to two figures or so.

    Parameters
    ----------
    area_mm2 : area [mm2].
    units : "metric" or "us".

    >>> show_area(16100, "metric"), show_area(120, "metric"), show_area(16100, "us")
    ('161 cm²', '1.2 cm²', '25 in²')
    """
    area, unit = (area_mm2 / INCH_MM**2, "in²") if units == UnitSystem.US else (area_mm2 / 100.0, "cm²")
    return f"{with_mark(format(area, '.0f' if area >= 10 else '.1f' if area >= 1 else '.2f'))} {unit}"


def show_lift(weight_kg: float, units: UnitSystem) -> str:
    """A weight that someone lifts.

    Parameters
    ----------
    weight_kg : weight [kg].
    units : "metric" or "us".

    >>> show_lift(5.24, "metric"), show_lift(2.0, "us"), show_lift(31.2, "metric")
    ('5.2 kg', '4.4 lb', '31 kg')
    """
    value, unit = (
        (weight_kg, "kg") if units == UnitSystem.METRIC else (weight_kg * 1000.0 / factor_of("mass", "lb"), "lb")
    )
    return f"{with_mark(format(value, '.1f' if value < LIFT_WHOLE_FROM else '.0f'))} {unit}"


def show_value(value: Value, unit: str, units: UnitSystem) -> str:
    """An assumed value in the reader's units.

    Parameters
    ----------
    value : a number in `unit`, its range, or a word.
    unit : the house's unit; "" for a word or a bare number.
    units : "metric" or "us".

    >>> show_value(4.0, "mm", "metric"), show_value(0.75, "of one", "metric"), show_value("bronze", "", "us")
    ('4 mm', '75 %', 'bronze')
    """
    if isinstance(value, str):
        return say(value)
    if isinstance(value, Range) and value.low < value.high:
        return _range(value, unit)
    return _number(likely_of(value), unit, units)


def _number(value: float, unit: str, units: UnitSystem) -> str:
    shows: Mapping[str, Callable[[float], str]] = {
        "mm": lambda v: show_length(v, units, 0.01 if 0 < v < 0.1 else None),
        "g": lambda v: show_mass(v, units, v if 0 < v < 1 else None),
        "ml": lambda v: show_volume(v, units),
        "°C": lambda v: show_temperature(v, units),
        "s": show_duration,
        "of one": lambda v: show_share(v, 0),
    }
    return shows[unit](value) if unit in shows else f"{with_mark(format(value, 'g'))} {unit}".strip()


def _range(value: Range, unit: str) -> str:
    if unit == "s":
        return _range(value * (1 / 60), "min")
    if unit == "of one":
        return _range(value * 100, "%")
    low, likely, high = (with_mark(format(each, ".3g")) for each in (value.low, value.likely, value.high))
    return f"{likely} {unit} ({low}–{high})"
