"""What a maker is asked because no outline can show it, and what the maker answers."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum


class AskKind(StrEnum):
    """What a maker is asked because no outline can show it."""

    BOWL = "bowl"


class AskName(StrEnum):
    """By which a maker answers a question: the letters, the place that could hold most first."""

    A = "A"
    B = "B"
    C = "C"


class BowlFloor(StrEnum):
    """How a bowl is shaped: with a flat floor, straight down to it, or round like half a ball."""

    FLAT = "flat"
    ROUND = "round"


@dataclass(frozen=True, slots=True)
class Ask:
    """A question: where on the sheet [mm], how wide the place is [mm], and what may hide there at most [ml]."""

    name: AskName
    kind: AskKind
    at_mm: tuple[float, float, float]
    across_mm: float
    most_ml: float


@dataclass(frozen=True, slots=True)
class Bowl:
    """A maker's answer to the question of that name: how deep the bowl is, 0 where there is none.

    `width_mm` across its mouth, None where there is none; `floor` None: between flat and round.
    """

    name: AskName
    depth_mm: float
    width_mm: float | None = None
    floor: BowlFloor | None = None
