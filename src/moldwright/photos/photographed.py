"""What photographs of a piece on its sheet answer with."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

import numpy as np
import numpy.typing as npt

from moldwright.geometry.mesh import Mesh
from moldwright.photos.ask import Ask, Bowl
from moldwright.photos.poses.poses import PoseWarning
from moldwright.photos.sheet.layout import BAR_MM, PhotoSheet
from moldwright.photos.tally import Tally
from moldwright.photos.told import PhotoTold
from moldwright.ranges import Range, Spread

Pixels = npt.NDArray[np.uint8]
Floats = npt.NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class PhotosAsked:
    """`bar_mm` : what the 100 mm bar measures on the print; `volume_ml` : the likely volume where something better than
    outlines told it (water, a scale): the solid is set to it; `bowls` : what the maker answered."""

    bar_mm: float = BAR_MM
    volume_ml: float | None = None
    bowls: tuple[Bowl, ...] = ()


class HullWarning(StrEnum):
    """What does not stop the work but should be known."""

    TALL_FOR_SHEET = "tall-for-sheet"
    WIDE_FOR_SHEET = "wide-for-sheet"
    UNSTEADY_HULL = "unsteady-hull"
    TOO_PLAIN = "too-plain"


@dataclass(frozen=True, slots=True, eq=False)
class SeenPhoto:
    """One photo for the contact sheet.

    `told` : used, or dropped and why; `rgb` : a small copy, None where it could not be read; `rings` : the outline seen
    in it, each ring (n, 2) as shares of its width and height, right and down.
    """

    told: PhotoTold
    rgb: Pixels | None
    rings: tuple[Floats, ...] = ()


@dataclass(frozen=True, slots=True, eq=False)
class Photographed:
    """A piece as its photos show it.

    `mesh` : closed, on the board z = 0, of the likely volume, on the sheet's own axes [mm]; `step_mm` : of the field
    that it was cut from. `spread` : how well it stands for the piece. `photos_ml` : the volume that photos alone tell;
    `hull_ml` : the largest that fits in all outlines, less the bowls that were told. `seen` : every photo by name.
    `asks` : what to ask the maker and is not answered yet.
    """

    mesh: Mesh
    step_mm: float
    sheet: PhotoSheet
    tally: Tally
    spread: Spread
    photos_ml: Range
    hull_ml: float
    seen: tuple[SeenPhoto, ...]
    warnings: tuple[tuple[PoseWarning | HullWarning, float], ...]
    asks: tuple[Ask, ...]

    @property
    def told(self) -> tuple[PhotoTold, ...]:
        """What is told of each photo, by name."""
        return tuple(one.told for one in self.seen)
