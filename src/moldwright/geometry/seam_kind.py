"""How two pieces of a shell meet."""

from __future__ import annotations

from enum import StrEnum


class Seam(StrEnum):
    """Flange against flange, or one piece lapped over the other's edge."""

    WALL = "wall"
    LAP = "lap"
