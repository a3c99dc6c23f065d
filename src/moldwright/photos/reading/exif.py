"""The only two things that are taken from what a camera wrote beside its pixels: which way is up, and the zoom.

Place, time, names and serial numbers are never looked at.
"""

from __future__ import annotations

import math

from PIL import Image

ORIENTATION, DETAILS, FOCAL_35MM = 0x0112, 0x8769, 0xA405
FOCAL_RANGE_MM = (8.0, 1200.0)
QUARTERS = {1: 0, 2: 0, 3: 2, 4: 2, 5: 3, 6: 1, 7: 1, 8: 3}
"""Quarter turns clockwise that stand the picture upright, after the mirroring of the even and the last two (from the
standard's drawing of the eight orientations, JEITA CP-3451)."""
MIRRORED = (2, 4, 5, 7)


def orientation_in(exif: Image.Exif) -> int:
    """1 to 8, 1 for nonsense or nothing.

    Parameters
    ----------
    exif : as it was found.
    """
    try:
        value = int(exif.get(ORIENTATION, 1))
    except Exception:
        return 1
    return value if value in QUARTERS else 1


def focal_in(exif: Image.Exif) -> float | None:
    """Focal length in terms of 36 x 24 mm film [mm], None for nonsense or nothing.

    Parameters
    ----------
    exif : as it was found.
    """
    try:
        value = float(exif.get_ifd(DETAILS).get(FOCAL_35MM, math.nan))
    except Exception:
        return None
    return value if FOCAL_RANGE_MM[0] <= value <= FOCAL_RANGE_MM[1] else None


def exif_from(data: bytes | None) -> Image.Exif:
    """EXIF from its bytes; empty for nonsense.

    Parameters
    ----------
    data : as the file has it.
    """
    exif = Image.Exif()
    try:
        exif.load(data or b"")
    except Exception:
        return Image.Exif()
    return exif
