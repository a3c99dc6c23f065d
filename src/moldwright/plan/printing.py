"""How a printed shell is printed: its parts on plates, pins, filament."""

from __future__ import annotations

from dataclasses import dataclass

from moldwright.ranges import Range


@dataclass(frozen=True, slots=True)
class PartOnPlate:
    """A part of a piece of the shell; both count from 1."""

    piece: int
    number: int


@dataclass(frozen=True, slots=True)
class PlatePlan:
    """What is printed in one go; `file` relative to the plan's folder."""

    file: str
    parts: tuple[PartOnPlate, ...]


@dataclass(frozen=True, slots=True)
class PrintPlan:
    """The plates and what they take.

    Parameters
    ----------
    plates : one file each.
    pins : cut from filament, that join the parts of a piece.
    filament_g : solid walls, without supports.
    filament_m : of 1.75 mm [m].
    """

    plates: tuple[PlatePlan, ...]
    pins: int
    filament_g: Range
    filament_m: Range

    @property
    def parts(self) -> int:
        """All parts."""
        return sum(len(plate.parts) for plate in self.plates)


def plate_file(number: int) -> str:
    """The file of a plate in the plan's folder.

    Parameters
    ----------
    number : from 1.

    >>> plate_file(1)
    'mold/plate-1.3mf'
    """
    return f"mold/plate-{number}.3mf"
