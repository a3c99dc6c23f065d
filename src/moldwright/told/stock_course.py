"""How a stock goes down, in words and to be drawn."""

from __future__ import annotations

from dataclasses import dataclass

from moldwright.plan.needs import NeedUnit
from moldwright.records.stock.amounts import METER_MM
from moldwright.records.stock.course import StockThen, course_of
from moldwright.records.stock.forecast import Outlook
from moldwright.told.amounts import DIMENSIONS, show_amounts
from moldwright.units.drawing import drawing_unit

FINE = 4


@dataclass(frozen=True, slots=True)
class StockThenTold:
    """A stock on a day: in words, and as figures in the drawing's unit."""

    day: str
    words: str
    low: float
    likely: float
    high: float


@dataclass(frozen=True, slots=True)
class CourseTold:
    """A stock week by week; `unit`: of the drawing."""

    unit: str
    weeks: tuple[StockThenTold, ...]


def course_told(row: Outlook, today: str, units: str) -> CourseTold | None:
    """How a stock goes down; None where no rate is known.

    Parameters
    ----------
    row : the material's outlook.
    today : the shop's date, ISO 8601.
    units : "metric" or "us".
    """
    course = course_of(row, today)
    if not course:
        return None
    name, factor = _unit(max(then.left.high for then in course), row.unit, units)
    return CourseTold(name, tuple(_told(then, row.unit, units, factor) for then in course))


def _unit(largest: float, unit: NeedUnit, units: str) -> tuple[str, float]:
    dimension = DIMENSIONS.get(unit)
    if dimension is not None:
        return drawing_unit(largest, dimension, units)
    if unit is NeedUnit.METER and units == "us":
        name, factor = drawing_unit(largest * METER_MM, "length", units)
        return name, factor / METER_MM
    return {NeedUnit.METER: "m", NeedUnit.PAIR: "pairs"}.get(unit, ""), 1.0


def _told(then: StockThen, unit: NeedUnit, units: str, factor: float) -> StockThenTold:
    low, likely, high = (round(each / factor, FINE) for each in (then.left.low, then.left.likely, then.left.high))
    return StockThenTold(then.day, show_amounts(then.left, unit, units), low, likely, high)
