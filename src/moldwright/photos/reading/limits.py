"""How much a folder of untrusted photos may ask of the machine."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class PhotoLimits:
    """Bounds of the child processes that read photos (common practice, no source).

    Parameters
    ----------
    photos : most photos in a folder.
    file_bytes : largest file [bytes].
    pixels : most pixels a photo may announce.
    side_px : long side of the working size [px].
    memory_bytes : address space of a child [bytes].
    cpu_s : processor time of a child for one photo [s].
    wall_s : time on the clock that one photo may take [s].
    """

    photos: int = 400
    file_bytes: int = 256 << 20
    pixels: int = 200_000_000
    side_px: int = 2000
    memory_bytes: int = 4 << 30
    cpu_s: int = 20
    wall_s: float = 60.0
