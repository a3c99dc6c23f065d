"""The flange as it is laid, trimmed and keyed on the board, and the frame that its places are measured in."""

from __future__ import annotations

from dataclasses import dataclass

Point2 = tuple[float, float]
"""A place on the board: to the right and to the back [mm]."""


@dataclass(frozen=True, slots=True)
class Frame:
    """The rectangle on the board, square to the front, from whose front left corner places are measured [mm]."""

    left_mm: float
    front_mm: float
    right_mm: float
    back_mm: float

    @property
    def length_mm(self) -> float:
        """From left to right [mm]."""
        return self.right_mm - self.left_mm

    @property
    def breadth_mm(self) -> float:
        """From front to back [mm]."""
        return self.back_mm - self.front_mm

    def measured(self, place: Point2) -> Point2:
        """How far a place of the board lies to the right and to the back of the frame's front left corner [mm].

        To a tenth: no pencil marks finer, and what lies on the frame's edge is told as 0.

        >>> Frame(-20.0, -10.0, 20.0, 10.0).measured((5.0, -9.97))
        (25.0, 0.0)
        """
        return (round(place[0] - self.left_mm, 1) + 0.0, round(place[1] - self.front_mm, 1) + 0.0)


@dataclass(frozen=True, slots=True)
class KeyCut:
    """One straight cut through the flange, from edge to edge."""

    start: Point2
    end: Point2
    length_mm: float


@dataclass(frozen=True, slots=True)
class FlangePlan:
    """The flange: how far it reaches beyond the foot, how far its cuts stay off the wall [mm], what it is measured in.

    foot : outline of what stands on the board, plinth or bare foot.
    outline : the trimmed edge, its keys cut. keys : the larger cut first. area_mm2, edge_mm : the outline's.
    """

    width_mm: float
    keep_mm: float
    frame: Frame
    foot: tuple[Point2, ...]
    outline: tuple[Point2, ...]
    keys: tuple[KeyCut, KeyCut]
    area_mm2: float
    edge_mm: float
