"""What a label says: plain values, whoever keeps the records."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum


class LabelKind(StrEnum):
    """What a label is stuck to, as it says on it."""

    LOT = "Lot"
    MOLD = "Mold"
    CUP = "Cup"
    CAST = "Cast"


@dataclass(frozen=True, slots=True)
class LabelLine:
    """A line of small type; `figure` stands at its right in bold and is never cut."""

    text: str
    figure: str = ""


@dataclass(frozen=True, slots=True)
class LabelText:
    """What one label says.

    Parameters
    ----------
    kind : what it is stuck to.
    title : its name, in the largest type.
    lines : in small type, the most needed first; those that find no room are left out, and an ellipsis says so.
    id : a UUID: the square code holds it, the short code is its end.
    mark : what tells it from its like, as large as the name: "17 of 50", "part A".
    kept : so many of its first lines must stand; a label without room for them is refused.
    """

    kind: LabelKind
    title: str
    lines: tuple[LabelLine, ...]
    id: str
    mark: str = ""
    kept: int = 0
