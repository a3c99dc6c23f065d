"""Where on a piece something was found that no plan gets past: told as plain values, and shown in a picture."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any, Protocol

if TYPE_CHECKING:
    from numpy.typing import NDArray

Point3 = tuple[float, float, float]


class Triangles(Protocol):
    """A body as triangles: corners (n, 3) [mm], and each triangle's three."""

    @property
    def vertices(self) -> NDArray[Any]:
        """(n, 3) corners [mm]."""

    @property
    def faces(self) -> NDArray[Any]:
        """(m, 3) of each triangle its corners' numbers."""


@dataclass(frozen=True, slots=True)
class FoundAt:
    """A place of a piece that stands on the board.

    Parameters
    ----------
    at_mm : its middle, z up from the board; x and y from the middle of the piece's foot [mm].
    across_mm : how large it is [mm].
    side : from which side it is seen, "front", "right", "back" or "left"; "" where it is in the middle.
    body : what it was found on, to be shown; never kept.
    """

    at_mm: Point3
    across_mm: float
    side: str = ""
    body: Triangles | None = field(default=None, compare=False, repr=False)

    @property
    def height_mm(self) -> float:
        """How high over the board [mm]."""
        return self.at_mm[2]

    def as_dict(self) -> dict[str, Any]:
        """As plain values."""
        return {
            "at": list(self.at_mm), "height_mm": self.height_mm, "side": self.side, "across_mm": self.across_mm,
        }  # fmt: skip


def found_at_of(tree: Mapping[str, Any] | None) -> FoundAt | None:
    """A place from plain values.

    Parameters
    ----------
    tree : as `FoundAt.as_dict` made it; None: there is none.

    >>> found_at_of(FoundAt((1.0, 2.0, 30.0), 8.0, "left").as_dict()).height_mm
    30.0
    """
    if not tree:
        return None
    x, y, z = (float(value) for value in tree["at"])
    return FoundAt((x, y, z), float(tree["across_mm"]), str(tree["side"]))
