"""What is told of each photo: used, or dropped and why."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum


class PhotoReason(StrEnum):
    """Why a photo is not used."""

    LEFT_OUT = "left-out"
    UNREADABLE = "unreadable"
    WRONG_TYPE = "wrong-type"
    HEIC_UNREADABLE = "heic-unreadable"
    TOO_MANY_PIXELS = "too-many-pixels"
    FILE_TOO_LARGE = "file-too-large"
    MASK_UNREADABLE = "mask-unreadable"
    FEW_MARKERS = "few-markers"
    SOFT = "soft"
    NO_POSE = "no-pose"
    MOVED = "moved"
    OTHER_ZOOM = "other-zoom"
    OTHER_SHEET = "other-sheet"
    NO_OUTLINE = "no-outline"
    AT_THE_FRAME = "at-the-frame"
    CARVES_ALONE = "carves-alone"
    DISAGREES = "disagrees"
    DARK = "dark"


@dataclass(frozen=True, slots=True)
class PhotoTold:
    """One photo: its file's name, whether it is used and why not, the figure that decided and its limit.

    `figure`, `limit` : in the reason's own unit (markers, pixels, millions of pixels, MB, share of the median); 0 where
    there is none.
    """

    file: str
    used: bool
    reason: PhotoReason | None = None
    figure: float = 0.0
    limit: float = 0.0
