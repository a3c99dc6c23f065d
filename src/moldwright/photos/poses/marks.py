"""The markers of one photo: their numbers, where their corners are, and how the photo looks at their edges."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from moldwright.photos.reading.photo import Photo

Floats = npt.NDArray[np.float64]
Numbers = npt.NDArray[np.int64]


@dataclass(frozen=True, slots=True, eq=False)
class Marks:
    """What one photo shows of the sheet, in px of the upright photo, middle of the first pixel at 0, 0.

    `numbers` : (n,) of the markers; `corners_px` : (n, 4, 2), from the upper left, clockwise as the marker is read;
    `outward_px` : (n, 4, 2), how far a corner moves where every edge moves outward by one px; `across_px` : (n,) the
    markers' breadth at their slant; `soft_px` : spread of an edge from dark to light; `contrast` : levels (of 255)
    between paper and ink.
    """

    photo: Photo
    numbers: Numbers
    corners_px: Floats
    outward_px: Floats
    across_px: Floats
    soft_px: float
    contrast: float

    def only(self, which: npt.NDArray[np.bool_]) -> Marks:
        """Some of its markers.

        Parameters
        ----------
        which : (n,) of them.
        """
        kept = self.numbers[which], self.corners_px[which], self.outward_px[which], self.across_px[which]
        return Marks(self.photo, *kept, self.soft_px, self.contrast)
