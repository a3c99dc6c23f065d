"""The seam as it is drawn by hand: stations from plumb lines at a frame's sides, and where it leaves the flange."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from moldwright.plan.flange import Frame, Point2

Point3 = tuple[float, float, float]


class ViewSide(StrEnum):
    """From where a place is looked at, square to a side of the frame."""

    FRONT = "front"
    RIGHT = "right"
    BACK = "back"
    LEFT = "left"


AZIMUTH_DEG = {ViewSide.FRONT: 0.0, ViewSide.RIGHT: 90.0, ViewSide.BACK: 180.0, ViewSide.LEFT: 270.0}
"""Where the viewer of a side stands, seen from above, counterclockwise from the front [deg]."""


@dataclass(frozen=True, slots=True)
class SeamStation:
    """One point of the seam as somebody sees it who stands before a side of the frame [mm].

    height_mm : over the board. aside_mm : to the right of the plumb line, negative to the left.
    depth_mm : in from the plumb line. seen : whether it is in sight from there; else the depth finds it.
    """

    side: ViewSide
    height_mm: float
    aside_mm: float
    depth_mm: float
    seen: bool


@dataclass(frozen=True, slots=True)
class SeamLine:
    """Stations in order, from where the line comes up from the flange to where it goes down to it; or a ring.

    piece : up to whose edge it is laid there, from 1 in the order of removal: of the two that meet, the one laid first.
    begins, ends : its crossings of the flange, by their place among the plan's; None where it meets another line, and
        of a ring.
    """

    stations: tuple[SeamStation, ...]
    closed: bool
    piece: int
    begins: int | None = None
    ends: int | None = None


@dataclass(frozen=True, slots=True)
class SeamCrossing:
    """Where a line goes over the flange: straight from place to place, from the wall's foot to the flange's edge.

    The seam as computed strays from that by 1.5 mm at most, from one straight by as much as 10 mm: the bends are told.
    """

    places: tuple[Point2, ...]

    @property
    def edge(self) -> Point2:
        """Where it leaves the flange."""
        return self.places[-1]


@dataclass(frozen=True, slots=True)
class SeamPlan:
    """The seam's lines on the rubber, those of the piece that is laid first at first, and its crossings of the flange,
    in the order of the lines' ends.

    step_mm : heights at which every line has a station. least_mm : rings shorter than this are left out.
    """

    lines: tuple[SeamLine, ...]
    crossings: tuple[SeamCrossing, ...]
    step_mm: float
    least_mm: float


def seen_from(side: ViewSide, frame: Frame, place: Point3) -> tuple[float, float]:
    """How far a place lies to the right of a side's plumb line and in from it [mm].

    A plumb line stands at the middle of each side of the frame.

    Parameters
    ----------
    side : before which the viewer stands.
    frame : on the board.
    place : its place [mm].

    >>> seen_from(ViewSide.BACK, Frame(-50.0, -40.0, 50.0, 40.0), (10.0, 25.0, 5.0))
    (-10.0, 15.0)
    """
    x = place[0] - (frame.left_mm + frame.right_mm) / 2
    y = place[1] - (frame.front_mm + frame.back_mm) / 2
    half_x, half_y = frame.length_mm / 2, frame.breadth_mm / 2
    match side:
        case ViewSide.FRONT:
            return (x, half_y + y)
        case ViewSide.RIGHT:
            return (y, half_x - x)
        case ViewSide.BACK:
            return (-x, half_y - y)
        case ViewSide.LEFT:
            return (-y, half_x + x)


def place_of(station: SeamStation, frame: Frame) -> Point3:
    """Where a station is, as `seen_from` is turned back [mm].

    Parameters
    ----------
    station : of a line.
    frame : on the board.

    >>> place_of(SeamStation(ViewSide.BACK, 5.0, -10.0, 15.0, True), Frame(-50.0, -40.0, 50.0, 40.0))
    (10.0, 25.0, 5.0)
    """
    half_x, half_y = frame.length_mm / 2, frame.breadth_mm / 2
    aside, depth = station.aside_mm, station.depth_mm
    x, y = {
        ViewSide.FRONT: (aside, depth - half_y),
        ViewSide.RIGHT: (half_x - depth, aside),
        ViewSide.BACK: (-aside, half_y - depth),
        ViewSide.LEFT: (depth - half_x, -aside),
    }[station.side]
    middle = (frame.left_mm + frame.right_mm) / 2, (frame.front_mm + frame.back_mm) / 2
    return (middle[0] + x, middle[1] + y, station.height_mm)
