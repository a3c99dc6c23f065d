"""What is read at one place of a mold, and between two, in words."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence

from moldwright.told.surfaces.quantity import quantities_on_surfaces
from moldwright.units import show_length
from moldwright.units.system import UnitSystem
from moldwright.words.speaker import say

Place = tuple[float, float, float]
LEVEL_DEG = 1.5
"""A draw that is so close to level is called level: our own."""


def place_rows(
    solid: str, piece: str, at: Place, lengths_mm: Mapping[str, float], units: UnitSystem
) -> tuple[tuple[str, str], ...]:
    """Names and values of all that is known of a place.

    Parameters
    ----------
    solid : what it lies on, in words.
    piece : the piece of the shell over it, in words.
    at : the place [mm].
    lengths_mm : the quantities there by their names; not a number: none.
    units : of who reads.
    """
    known = [each for each in quantities_on_surfaces() if math.isfinite(lengths_mm.get(each.name, math.nan))]
    rows = [(say(each.row), each.scale.show(lengths_mm[each.name], units)) for each in known]
    return ((say("On"), solid), (say("Over the board"), show_length(at[2], units)), *rows, (say("Under"), piece))


def between_words(one: Place, other: Place, units: UnitSystem) -> tuple[tuple[str, str], ...]:
    """How far two places are apart: straight, and level and upright.

    Parameters
    ----------
    one, other : the places [mm].
    units : of who reads.
    """
    level = math.hypot(other[0] - one[0], other[1] - one[1])
    return (
        (say("Straight"), show_length(math.dist(one, other), units)),
        (say("Level"), show_length(level, units)),
        (say("Upright"), show_length(abs(other[2] - one[2]), units)),
    )


def draw_words(draw: Sequence[float]) -> str:
    """How a piece of the shell draws off: level, upward or downward by how many degrees.

    Parameters
    ----------
    draw : its unit vector.

    >>> draw_words((1.0, 0.0, 0.0)), draw_words((0.0, -0.978, 0.208)), draw_words((0.0, 0.0, 1.0))
    ('draws level', 'draws 12° above level', 'draws straight up')
    """
    rise = math.degrees(math.asin(max(-1.0, min(1.0, draw[2]))))
    if abs(rise) < LEVEL_DEG:
        return say("draws level")
    if rise > 90.0 - LEVEL_DEG:
        return say("draws straight up")
    angle = f"{abs(rise):.0f}°"
    return say("draws {angle} above level", angle=angle) if rise > 0 else say("draws {angle} below level", angle=angle)
