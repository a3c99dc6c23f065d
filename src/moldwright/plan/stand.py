"""The stand in which the full mold is poured, its mouth up and level."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from moldwright.plan.seam import ViewSide

EdgePoint = tuple[float, float]
"""Along a board and up from the table [mm]."""


LEAST_DEG = 10.0
"""A stand that falls over when tilted so far is none: our own."""


class NoStand(StrEnum):
    """Why no stand is planned: boards find the base flange flat and broad enough at fewer than three places, or the
    mold on them falls over when tilted by less than `LEAST_DEG`."""

    NOT_BORNE = "not-borne"
    FALLS_OVER = "falls-over"


@dataclass(frozen=True, slots=True)
class BoardSlot:
    """Where a board crosses another: its middle along the board, from what height to what height it is cut [mm]."""

    at_mm: float
    low_mm: float
    high_mm: float


@dataclass(frozen=True, slots=True)
class StandBoard:
    """One board on edge.

    Parameters
    ----------
    side : toward which it stands.
    at_mm : its middle, along y for one that runs from left to right, else along x, as the mold stands on its board.
    edge : its upper edge, from end to end; its foot is level at 0.
    slots : one at each board that it crosses.
    bears : where along it the shell's base flange rests on it.
    """

    side: ViewSide
    at_mm: float
    edge: tuple[EdgePoint, ...]
    slots: tuple[BoardSlot, ...]
    bears: tuple[float, ...]

    @property
    def across(self) -> bool:
        """Whether it runs from left to right."""
        return runs_across(self.side)

    @property
    def ends(self) -> tuple[ViewSide, ViewSide]:
        """The sides toward which its two ends lie, the one where `edge` begins first."""
        return (ViewSide.LEFT, ViewSide.RIGHT) if self.across else (ViewSide.FRONT, ViewSide.BACK)

    @property
    def length_mm(self) -> float:
        """How long it is."""
        return self.edge[-1][0] - self.edge[0][0]

    @property
    def high_mm(self) -> float:
        """How high it is at most."""
        return max(high for _, high in self.edge)


@dataclass(frozen=True, slots=True)
class StandPlan:
    """The stand.

    Parameters
    ----------
    boards : that cross each other; none where the shell stands by itself.
    thick_mm : of a board.
    gap_mm : between boards and shell, but where its base flange rests on them.
    mouth_mm : how high the mouth is over the table.
    tips_deg : tilted farther the mold falls over, however full.
    """

    boards: tuple[StandBoard, ...]
    thick_mm: float
    gap_mm: float
    mouth_mm: float
    tips_deg: float


def runs_across(side: ViewSide) -> bool:
    """Whether the board toward a side of the mold runs from left to right.

    Parameters
    ----------
    side : the board's.

    >>> runs_across(ViewSide.FRONT), runs_across(ViewSide.LEFT)
    (True, False)
    """
    return side in (ViewSide.FRONT, ViewSide.BACK)
