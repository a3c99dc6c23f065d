"""The kinds of outline that a level section may have."""

from __future__ import annotations

from enum import StrEnum


class SectionShape(StrEnum):
    """How a section is rounded: as an ellipse near a circle, as a longer ellipse, or toward a box."""

    ROUND = "round"
    OVAL = "oval"
    BOXY = "boxy"
