"""What a maker is asked because no outline can show it."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum


class AskKind(StrEnum):
    """What a maker is asked because no outline can show it."""

    BOWL = "bowl"


@dataclass(frozen=True, slots=True)
class Ask:
    """A question: where on the sheet [mm], how wide the place is [mm], and what may hide there at most [ml]."""

    kind: AskKind
    at_mm: tuple[float, float, float]
    across_mm: float
    most_ml: float
