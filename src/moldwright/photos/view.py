"""A photo whose place is known: its lens and where it was taken from."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

Floats = npt.NDArray[np.float64]


@dataclass(frozen=True, slots=True, eq=False)
class Lens:
    """A lens without tangential terms on square pixels.

    `focal_px` : focal length [px]; `center_px` : principal point (x, y) [px, middle of the first pixel at 0, 0];
    `k1`, `k2` : radial terms of OpenCV's model; `focal_doubt` : standard uncertainty of the focal length as a share.
    """

    width_px: int
    height_px: int
    focal_px: float
    center_px: tuple[float, float]
    k1: float
    k2: float
    focal_doubt: float


@dataclass(frozen=True, slots=True, eq=False)
class View:
    """One photo at its working size with its pose: `x_camera = rotation x_sheet + shift_mm`.

    `rotation` : (3, 3); `shift_mm` : (3,) [mm]; sheet: origin in its middle, x right, y away from its front edge, z up.
    `residual_px` : median distance of the seen marker corners from where the pose puts them [px].
    """

    file: str
    lens: Lens
    rotation: Floats
    shift_mm: Floats
    residual_px: float

    @property
    def eye_mm(self) -> Floats:
        """Where it was taken from on the sheet, (3,) [mm]."""
        return np.asarray(-self.rotation.T @ self.shift_mm)

    def seen_px(self, points_mm: Floats) -> Floats:
        """Where points are on the photo, (n, 2) [px]; meaningless for points behind the camera.

        Parameters
        ----------
        points_mm : (n, 3) on the sheet [mm].
        """
        at = points_mm @ self.rotation.T + self.shift_mm
        x, y = at[:, 0] / at[:, 2], at[:, 1] / at[:, 2]
        r2 = x * x + y * y
        bent = 1.0 + r2 * (self.lens.k1 + r2 * self.lens.k2)
        cx, cy = self.lens.center_px
        return np.column_stack([self.lens.focal_px * x * bent + cx, self.lens.focal_px * y * bent + cy])
