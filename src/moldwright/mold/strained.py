"""How far a glove stretches when it is peeled off, in plain values."""

from __future__ import annotations

from dataclasses import dataclass

Point = tuple[float, float, float]


@dataclass(frozen=True, slots=True)
class StrainSpot:
    """A place where it stretches more than about it: where it lies on the mold, and its stretch."""

    at: Point
    stretch: float


@dataclass(frozen=True, slots=True)
class Strained:
    """A glove peeled off over all that is above, its edge spread by hands.

    Parameters
    ----------
    off : whether it came off.
    caught : where on the mold it hung where it did not.
    most_95, most_99 : the stretch that 95 and 99 % of its area stay at or below: these hold whatever the triangles are,
        the largest does not.
    spots : where it stretches most, the most first.
    field : where it lies, in the middle of its thickness, and its stretch there, place by place.
    force_mm : the greatest pull, for each N/mm of shear modulus times thickness [mm]; None where it is not known.
    triangles : of which it was made.
    """

    off: bool
    caught: Point | None
    most_95: float
    most_99: float
    spots: tuple[StrainSpot, ...]
    field: tuple[tuple[float, float, float, float], ...]
    force_mm: float | None
    triangles: int
