"""Printed parts laid out on plates, as few as their rows fill."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from moldwright.geometry.mesh import Mesh
from moldwright.mold.parts import MARGIN_MM, PrintedPart, Room

BETWEEN_MM = 5.0
"""Left free between parts on a plate: common practice, no source."""


@dataclass(frozen=True, slots=True, eq=False)
class LaidPart:
    """A part on its plate, as it is printed: the plate's corner at 0, the plate at z = 0 [mm]."""

    part: PrintedPart
    mesh: Mesh


@dataclass(frozen=True, slots=True, eq=False)
class LaidPlate:
    """What is printed in one go."""

    parts: tuple[LaidPart, ...]


@dataclass(frozen=True, slots=True, eq=False)
class LaidPlates:
    """All plates of a shell."""

    plates: tuple[LaidPlate, ...]


def laid_on_plates(parts: Sequence[PrintedPart], room: Room) -> LaidPlates:
    """Parts in rows, the deepest first, each on the first plate that still has room for it.

    Parameters
    ----------
    parts : each fits the printer's room alone.
    room : what the printer holds, width, depth and height [mm].

    Source: shelves, next fit decreasing height: Coffman et al. 1980, "Performance bounds for level-oriented
    two-dimensional packing algorithms" (from memory).
    """
    plates: list[list[LaidPart]] = []
    x_mm = y_mm = deep_mm = 0.0
    for part in sorted(parts, key=lambda each: -each.size_mm[1]):
        wide, deep, _ = part.size_mm
        if plates and x_mm + wide > room[0] - MARGIN_MM:
            x_mm, y_mm, deep_mm = MARGIN_MM, y_mm + deep_mm + BETWEEN_MM, 0.0
        if not plates or y_mm + deep > room[1] - MARGIN_MM:
            plates.append([])
            x_mm, y_mm, deep_mm = MARGIN_MM, MARGIN_MM, 0.0
        plates[-1].append(LaidPart(part, part.lying.moved((x_mm, y_mm, 0.0))))
        x_mm, deep_mm = x_mm + wide + BETWEEN_MM, max(deep_mm, deep)
    return LaidPlates(tuple(LaidPlate(tuple(plate)) for plate in plates))
