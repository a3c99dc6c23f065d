"""The kinds of outline that a level section may have, and how hollow it is beside its hull."""

from __future__ import annotations

from enum import StrEnum


class SectionShape(StrEnum):
    """How a section is rounded: as an ellipse near a circle, as a longer ellipse, or toward a box."""

    ROUND = "round"
    OVAL = "oval"
    BOXY = "boxy"


class Hollows(StrEnum):
    """What a line drawn tight round a section spans: nothing, some, or deep hollows."""

    NONE = "none"
    SOME = "some"
    DEEP = "deep"
