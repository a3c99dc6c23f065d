"""Places of the seam as they are printed: what a hand can set off, whole millimeters or sixteenths of an inch."""

from __future__ import annotations

from collections.abc import Iterator

from moldwright.plan.flange import Frame, Point2
from moldwright.plan.seam import Point3, SeamLine, SeamPlan, SeamStation, ViewSide
from moldwright.units import show_length
from moldwright.units.constants import INCH_MM
from moldwright.units.system import UnitSystem

STEP_MM = {UnitSystem.METRIC: 1.0, UnitSystem.US: INCH_MM / 16}
UNIT = {UnitSystem.METRIC: "mm", UnitSystem.US: "in"}
UNIT_WORD = {UnitSystem.METRIC: "mm", UnitSystem.US: "inches"}
"""The unit in a sentence, where *in* would be read as a word."""
LETTER = {ViewSide.FRONT: "F", ViewSide.RIGHT: "R", ViewSide.BACK: "B", ViewSide.LEFT: "L"}
HIDDEN = "*"
FINGER = {UnitSystem.METRIC: 1, UnitSystem.US: 2}
"""A place to press rubber into is told to so many steps."""


def set_off(length_mm: float, units: UnitSystem, steps: int = 1) -> str:
    """A length that is set off by hand, without its unit.

    Parameters
    ----------
    length_mm : length [mm].
    units : what it is printed in.
    steps : rounded to so many of its steps.

    >>> set_off(12.4, UnitSystem.METRIC), set_off(12.7, UnitSystem.US), set_off(0.2, UnitSystem.METRIC)
    ('12', '1/2', '0')
    """
    step = steps * STEP_MM[units]
    return show_length(round(length_mm / step) * step, units).rpartition(" ")[0]


def aside_text(aside_mm: float, units: UnitSystem) -> str:
    """How far to which side of a plumb line.

    Parameters
    ----------
    aside_mm : to the right, negative to the left [mm].
    units : what it is printed in.

    >>> aside_text(-7.6, UnitSystem.METRIC), aside_text(0.3, UnitSystem.METRIC), aside_text(25.4, UnitSystem.US)
    ('8 left', '0', '1 right')
    """
    text = set_off(abs(aside_mm), units)
    return text if text == "0" else f"{text} {'right' if aside_mm > 0 else 'left'}"


def depth_text(depth_mm: float, units: UnitSystem) -> str:
    """How far in from a plumb line, or out before it where the piece overhangs the frame.

    Parameters
    ----------
    depth_mm : in from the plumb line [mm].
    units : what it is printed in.

    >>> depth_text(21.0, UnitSystem.METRIC), depth_text(-5.0, UnitSystem.METRIC)
    ('21', '5 out')
    """
    text = set_off(abs(depth_mm), units)
    return text if depth_mm >= 0 or text == "0" else f"{text} out"


def station_row(number: int, station: SeamStation, units: UnitSystem) -> list[str]:
    """A station's number, height, side, offset and depth, as the table prints them.

    Parameters
    ----------
    number : counted through all lines.
    station : where it is.
    units : what it is printed in.
    """
    side = LETTER[station.side] + ("" if station.seen else HIDDEN)
    return [
        str(number), set_off(station.height_mm, units), side, aside_text(station.aside_mm, units),
        depth_text(station.depth_mm, units),
    ]  # fmt: skip


def numbered(seam: SeamPlan) -> Iterator[tuple[SeamLine, list[tuple[int, SeamStation]]]]:
    """Every line with its stations, counted from 1 through all lines.

    Parameters
    ----------
    seam : the plan's.
    """
    count = 0
    for line in seam.lines:
        rows = list(enumerate(line.stations, start=count + 1))
        count += len(rows)
        yield line, rows


def mark_of(number: int, slit: bool = False) -> str:
    """The name of a crossing of the flange, counted from 0.

    Parameters
    ----------
    number : of the crossing.
    slit : whether it is a slit's, not a seam's.

    >>> mark_of(0), mark_of(1, slit=True)
    ('S1', 'C2')
    """
    return f"{'C' if slit else 'S'}{number + 1}"


def is_slit(seam: SeamPlan) -> bool:
    """Whether lines are a slit's, which is no piece's edge.

    Parameters
    ----------
    seam : lines on the rubber.
    """
    return all(line.piece == 0 for line in seam.lines)


def place_text(place: Point2, frame: Frame, units: UnitSystem) -> str:
    """A place of the board from the frame's front left corner, with the digits that a step tells it with.

    Parameters
    ----------
    place : on the board [mm].
    frame : on the board.
    units : what it is printed in.

    >>> place_text((-45.3, 24.0), Frame(-50.0, -40.0, 50.0, 40.0), UnitSystem.METRIC)
    '4.7 right, 64 back'
    """
    right, back = (show_length(length_mm, units).rpartition(" ")[0] for length_mm in frame.measured(place))
    return f"{right} right, {back} back"


def point_text(point: Point3, frame: Frame, units: UnitSystem) -> str:
    """A place of the piece from the frame's front left corner, without unit: right, back and up.

    Parameters
    ----------
    point : over the board [mm].
    frame : on the board.
    units : what it is printed in.

    >>> point_text((10.0, -4.6, 44.2), Frame(-50.0, -40.0, 50.0, 40.0), UnitSystem.METRIC)
    '60, 35, 44'
    """
    right, back = frame.measured(point[:2])
    return ", ".join(_signed(length, units) for length in (right, back, point[2]))


def _signed(length_mm: float, units: UnitSystem) -> str:
    text = set_off(abs(length_mm), units, FINGER[units])
    return text if length_mm >= 0 or text == "0" else f"−{text}"


def line_titles(seam: SeamPlan) -> list[str]:
    """Where each line begins and ends: the marks of its crossings, or that it is a ring.

    Parameters
    ----------
    seam : the plan's.
    """
    several = any(line.piece > 2 for line in seam.lines)
    return [(f"Edge of shell {line.piece}: " if several else "") + _way(line) for line in seam.lines]


def _way(line: SeamLine) -> str:
    if line.closed:
        return "Closed loop, back to its first"
    slit = line.piece == 0
    begins, ends = (None if end is None else mark_of(end, slit) for end in (line.begins, line.ends))
    if slit:
        return "From a cut above to its end" if begins is None else f"{begins} up to its end"
    if begins is None:
        return "From a line above over to another" if ends is None else f"From a line above down to {ends}"
    return f"{begins} up to a line above" if ends is None else f"{begins} up, over and down to {ends}"
