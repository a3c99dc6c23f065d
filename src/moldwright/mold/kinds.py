"""What other kinds of mold measure, as values that load no geometry."""

from __future__ import annotations

from dataclasses import dataclass
from math import pi


@dataclass(frozen=True, slots=True)
class Block:
    """A box or a tube of rubber about a body, which stands on its board.

    Parameters
    ----------
    wall_mm : least rubber beside and over the body [mm].
    round : whether it is a tube, which takes less than a box.
    length_mm, breadth_mm, height_mm : of its outside [mm]; of a tube its diameter twice.
    rubber_ml : of it [ml], the body left out.
    """

    wall_mm: float
    round: bool
    length_mm: float
    breadth_mm: float
    height_mm: float
    rubber_ml: float

    @property
    def walls_mm2(self) -> float:
        """Walls of the box that it is poured in [mm2]."""
        around_mm = pi * self.length_mm if self.round else 2.0 * (self.length_mm + self.breadth_mm)
        return around_mm * self.height_mm


@dataclass(frozen=True, slots=True)
class Locked:
    """What locks a block drawn straight up.

    Parameters
    ----------
    deep_ml : rubber that hooks farther under the body than soft rubber gives way [ml].
    upto_mm : how high over the board the highest of it is [mm], 0 where nothing locks.
    """

    deep_ml: float
    upto_mm: float


@dataclass(frozen=True, slots=True)
class Slim:
    """Shares of a body's surface, 0 to 1: `thin`, behind which the body is thin; `gaps`, before which the gap is so
    narrow that rubber in it is a thin fin."""

    thin: float
    gaps: float
