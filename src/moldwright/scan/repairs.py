"""What was found or mended on a scan: a code, its size and how many; the sentence is made where it is printed."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum


class RepairCode(StrEnum):
    """Every kind of thing that reading, placing or mending a scan may find or mend."""

    ANIMATIONS_IGNORED = "animations-ignored"
    BYTES_IGNORED = "bytes-ignored"
    LINES_IGNORED = "lines-ignored"
    MATERIALS_IGNORED = "materials-ignored"
    SKELETONS_IGNORED = "skeletons-ignored"
    SUPPORTS_LEFT_OUT = "supports-left-out"
    SHORT_FACES_IGNORED = "short-faces-ignored"
    FLAT_TRIANGLES_DROPPED = "flat-triangles-dropped"
    DOUBLE_TRIANGLES_DROPPED = "double-triangles-dropped"
    TURNED_TO_NEIGHBORS = "turned-to-neighbors"
    TURNED_OUTWARD = "turned-outward"
    ONE_SIDED_LEFT = "one-sided-left"
    SEPARATE_BODIES = "separate-bodies"
    HOLLOWS_INSIDE = "hollows-inside"
    OPEN_EDGES = "open-edges"
    CROWDED_EDGES = "crowded-edges"
    SPECKS_DROPPED = "specks-dropped"
    HOLE_CLOSED = "hole-closed"
    HOLLOW_FILLED = "hollow-filled"
    BOARD_HOLLOW_FILLED = "board-hollow-filled"


@dataclass(frozen=True, slots=True)
class Repair:
    """One thing that was found or mended: `size` in `unit` tells how much, `count` of how many places together."""

    code: RepairCode
    size: float
    unit: str
    count: int = 1
