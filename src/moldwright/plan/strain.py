"""How far the whole glove stretches as it is peeled, beyond its loops: where most, how hard it is to do."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from moldwright.ranges import Range

Point = tuple[float, float, float]


class PeelEffort(StrEnum):
    """How hard it is to peel a glove that is not slit: easy, firm, or so that a slit must be ready."""

    EASY = "easy"
    FIRM = "firm"
    SLIT = "slit at hand"


@dataclass(frozen=True, slots=True)
class StrainedPlace:
    """Where it stretches more than about it: on the mold [mm], and its elongation there [%]."""

    at: Point
    elongation_pct: float


@dataclass(frozen=True, slots=True)
class StrainPlan:
    """A sheet of rubber drawn off the piece in a computation: over all that is above, its edge spread by hands.

    Parameters
    ----------
    effort : how hard it is.
    off : whether the sheet came off.
    caught : where it hung where it did not [mm].
    most_95_pct, most_99_pct : elongation that 95 and 99 % of its area stay at or below, in the middle of its thickness.
    places : where it stretches most, the most first.
    pull_n : the greatest pull upward, without friction, suction and the flange; None where it is not known.
    """

    effort: PeelEffort
    off: bool
    caught: Point | None
    most_95_pct: float
    most_99_pct: float
    places: tuple[StrainedPlace, ...]
    pull_n: Range | None
