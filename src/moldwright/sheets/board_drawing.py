"""The board at full size: frame, foot, flange with its keys, lip, through-holes, the seam's crossings, the draws."""

from __future__ import annotations

import math
from collections.abc import Iterator

from shapely import Polygon

from moldwright.plan.flange import Point2
from moldwright.plan.plan import Plan
from moldwright.sheets.labels import Hold, Label
from moldwright.sheets.seam_words import UNIT, mark_of, place_text, set_off
from moldwright.sheets.tiles import Drawing, Pen, Stroke
from moldwright.sheets.wording import table
from moldwright.units import show_length

MARGIN_MM, TICK_MM, LETTER_MM = 14.0, 3.0, 5.0
CORNER_MM = 3.0
"""Radius of the ring about the corner from which places are measured [mm]."""
ARROW_MM, HEAD_MM = 32.0, 6.0


def board_drawing(plan: Plan) -> Drawing:
    """All that is drawn on the board, as seen from above, front at the lower edge.

    Parameters
    ----------
    plan : the plan.
    """
    frame = plan.flange.frame
    beyond = plan.shell.lip_mm + MARGIN_MM
    return Drawing(
        "The board",
        (frame.left_mm - beyond, frame.front_mm - beyond),
        (frame.right_mm + beyond, frame.back_mm + beyond),
        tuple(_strokes(plan)),
        tuple(_labels(plan)),
        "Seen from above.",
    )


def _ring(points: tuple[Point2, ...]) -> tuple[Point2, ...]:
    return (*points, points[0])


def _strokes(plan: Plan) -> Iterator[Stroke]:
    flange = plan.flange
    frame = flange.frame
    left, front, right, back = frame.left_mm, frame.front_mm, frame.right_mm, frame.back_mm
    yield Stroke(Pen.FRAME, _ring(((left, front), (right, front), (right, back), (left, back))))
    yield Stroke(Pen.FRAME, _circle((left, front), CORNER_MM))
    yield Stroke(Pen.LIP, _lip(plan))
    yield Stroke(Pen.FLANGE, _ring(flange.outline))
    yield Stroke(Pen.FOOT, _ring(flange.foot))
    for key in flange.keys:
        yield Stroke(Pen.KEY, (key.start, key.end))
    for crossing in plan.shell.seam_line.crossings:
        yield Stroke(Pen.SEAM, crossing.places)
    for _, (x, y) in plumb_feet(plan):
        yield Stroke(Pen.PLUMB, ((x - TICK_MM, y), (x + TICK_MM, y)))
        yield Stroke(Pen.PLUMB, ((x, y - TICK_MM), (x, y + TICK_MM)))
    for hole in plan.original.holes:
        yield Stroke(Pen.HOLE, _circle((hole.at[0], hole.at[1]), max(hole.width_mm / 2, 1.0)))
    for piece in plan.shell.pieces:
        yield from _arrow(plan, piece.draw)


def _lip(plan: Plan) -> tuple[Point2, ...]:
    lip = Polygon(plan.flange.outline).buffer(plan.shell.lip_mm).simplify(0.1).exterior
    return tuple((float(x), float(y)) for x, y in lip.coords)


def plumb_feet(plan: Plan) -> tuple[tuple[str, Point2], ...]:
    """Where the four plumb lines stand, by their letters.

    Parameters
    ----------
    plan : the plan.
    """
    frame = plan.flange.frame
    x, y = (frame.left_mm + frame.right_mm) / 2, (frame.front_mm + frame.back_mm) / 2
    return (
        ("F", (x, frame.front_mm)),
        ("R", (frame.right_mm, y)),
        ("B", (x, frame.back_mm)),
        ("L", (frame.left_mm, y)),
    )


def _circle(at: Point2, radius_mm: float) -> tuple[Point2, ...]:
    turns = [2 * math.pi * k / 24 for k in range(25)]
    return tuple((at[0] + radius_mm * math.cos(a), at[1] + radius_mm * math.sin(a)) for a in turns)


def _tip(plan: Plan, draw: tuple[float, float, float]) -> tuple[Point2, Point2]:
    """Where a draw's arrow starts and ends, seen from above: short where the draw goes mostly up."""
    frame = plan.flange.frame
    x, y = (frame.left_mm + frame.right_mm) / 2, (frame.front_mm + frame.back_mm) / 2
    far = ARROW_MM
    return (x + 4 * draw[0], y + 4 * draw[1]), (x + far * draw[0], y + far * draw[1])


def _arrow(plan: Plan, draw: tuple[float, float, float]) -> Iterator[Stroke]:
    start, end = _tip(plan, draw)
    level = math.hypot(draw[0], draw[1])
    if level < 0.1:
        yield Stroke(Pen.DRAW, _circle(start, 3.0))
        return
    ux, uy = draw[0] / level, draw[1] / level
    yield Stroke(Pen.DRAW, (start, end))
    for side in (-0.4, 0.4):
        barb = (end[0] - HEAD_MM * (ux - side * uy), end[1] - HEAD_MM * (uy + side * ux))
        yield Stroke(Pen.DRAW, (end, barb))


def _labels(plan: Plan) -> Iterator[Label]:
    flange, units = plan.flange, plan.units
    frame = flange.frame
    middle = (frame.left_mm + frame.right_mm) / 2
    yield Label((middle + 8, frame.front_mm - 8), "FRONT", strong=True)
    for ring, text in ((flange.foot, "the piece"), (flange.outline, "edge of the flange"), (_lip(plan), "shell's lip")):
        yield Label(max(ring, key=lambda at: at[1] - at[0]), text)
    yield Label((frame.left_mm, frame.front_mm), "0", strong=True, hold=Hold.OFF)
    for number, crossing in enumerate(plan.shell.seam_line.crossings):
        yield Label(crossing.edge, f"{mark_of(number)}: {place_text(crossing.edge, frame, units)}", strong=True)
    for name, key in zip(("Large key", "Small key"), flange.keys, strict=True):
        at = ((key.start[0] + key.end[0]) / 2, (key.start[1] + key.end[1]) / 2)
        yield Label(at, f"{name}, {show_length(key.length_mm, units)}", strong=True)
        for end in (key.start, key.end):
            yield Label(end, place_text(end, frame, units))
    for letter, foot in plumb_feet(plan):
        yield Label(foot, f"plumb {letter}")
    for hole in plan.original.holes:
        narrowest, up = show_length(hole.width_mm, units), show_length(hole.at[2], units)
        yield Label((hole.at[0], hole.at[1]), f"hole {hole.letter}, narrowest {narrowest}, {up} up")
    for number, piece in enumerate(plan.shell.pieces, start=1):
        tilt = round(math.degrees(math.asin(max(-1.0, min(1.0, piece.draw[2])))))
        yield Label(_tip(plan, piece.draw)[1], f"{number} off" + (f", {tilt}° upward" if tilt else ""), strong=True)


def legend(plan: Plan) -> list[dict[str, str]]:
    """What each kind of line on the board means.

    Parameters
    ----------
    plan : the plan.
    """
    drawn = {stroke.pen for stroke in _strokes(plan)}
    frame, units = plan.flange.frame, plan.units
    size = f"{set_off(frame.length_mm, units)} by {set_off(frame.breadth_mm, units)} {UNIT[units]}"
    return [
        {"pen": pen, "text": text.format(frame=size)} for pen, text in table()["board"].items() if Pen(pen) in drawn
    ]
