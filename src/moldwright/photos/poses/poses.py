"""What is known of all photos together: the sheet, the views that are used, and what is missing."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from moldwright.photos.sheet.layout import PhotoSheet
from moldwright.photos.tally import Tally
from moldwright.photos.told import PhotoTold
from moldwright.photos.view import View


class PoseWarning(StrEnum):
    """What does not stop the work but should be known."""

    PRINT_STRETCHED = "print-stretched"
    SHEET_CURLED = "sheet-curled"
    FOCAL_DOUBT = "focal-doubt"
    ZOOM_VARIES = "zoom-varies"


@dataclass(frozen=True, slots=True, eq=False)
class Poses:
    """All views on one sheet.

    `print_scale` : true size of the print over the drawn size, (along x, along y); positions on the sheet's drawing
    times it are the mm of the views. `told` : photos that are dropped here. `warnings` : with the figure of each.
    """

    sheet: PhotoSheet
    print_scale: tuple[float, float]
    views: tuple[View, ...]
    told: tuple[PhotoTold, ...]
    tally: Tally
    warnings: tuple[tuple[PoseWarning, float], ...]
