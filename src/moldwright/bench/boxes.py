"""By which event of the log each box of the sheets is told, so that reading in and printing again agree."""

from __future__ import annotations

from collections.abc import Mapping
from enum import StrEnum
from types import MappingProxyType

from moldwright.plan.lines import Line


class BoxOf(StrEnum):
    """What a box holds: which event tells it."""

    WRITTEN = "box-written"
    DATE = "done"
    THICKNESS = "gauged"
    AIR = "shop-air"
    POURED = "poured"
    CAST_MASS = "cast-measured.mass"
    CAST_HEIGHT = "cast-measured.height"
    NUMBER = "number-given"


BOXES: Mapping[str, BoxOf] = MappingProxyType(
    {
        "lay-out.write.1": BoxOf.AIR,
        "lay-out.write.2": BoxOf.DATE,
        "coat-*-look.write.1": BoxOf.THICKNESS,
        "skin.write.1": BoxOf.AIR,
        "skin.write.2": BoxOf.POURED,
        "weigh-cast.write.1": BoxOf.CAST_MASS,
        "weigh-cast.write.2": BoxOf.CAST_HEIGHT,
        "number.write.1": BoxOf.NUMBER,
    }
)
"""Boxes whose content has an event of its own, by the key of their sentence; all others are written as they stand."""


def box_key(line: Line, number: int) -> str:
    """What a box is called in the log: the key of its sentence; of the maker's own words its number.

    Parameters
    ----------
    line : of a step's `write`.
    number : which of them, from 1.

    >>> box_key(Line("skin.write.2"), 2), box_key(Line("", "Draft in the shop"), 3)
    ('skin.write.2', 'own.3')
    """
    return line.say or f"own.{number}"


def box_of(line: Line) -> BoxOf:
    """By which event a box is told.

    Parameters
    ----------
    line : of a step's `write`.

    >>> box_of(Line("skin.write.2")).value, box_of(Line("receive.write.2")).value
    ('poured', 'box-written')
    """
    return BOXES.get(line.say, BoxOf.WRITTEN)
