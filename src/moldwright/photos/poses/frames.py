"""From upright photos to how the sensor lay, lying on its long side, and back: only there do all share one lens."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from moldwright.photos.poses.marks import Floats
from moldwright.photos.reading.photo import Photo
from moldwright.photos.view import Lens

_TURNS = tuple(
    np.array(turn, dtype=np.float64)
    for turn in (((1, 0), (0, 1)), ((0, -1), (1, 0)), ((-1, 0), (0, -1)), ((0, 1), (-1, 0)))
)


@dataclass(frozen=True, slots=True)
class SensorFrame:
    """How one photo lies against the sensor: quarter turns clockwise from it, and its sides [px]."""

    quarters: int
    width_px: int
    height_px: int

    @property
    def long_px(self) -> int:
        """Its long side [px]."""
        return max(self.width_px, self.height_px)

    @property
    def aspect(self) -> float:
        """Long side over short side."""
        return self.long_px / max(1, min(self.width_px, self.height_px))

    def to_sensor(self, points_px: Floats) -> Floats:
        """Points as shares of the long side from the sensor's middle.

        Parameters
        ----------
        points_px : (..., 2) on the upright photo [px].
        """
        return self.turned_to_sensor(points_px - self._middle) / self.long_px

    def turned_to_sensor(self, ways: Floats) -> Floats:
        """Directions turned as the sensor lay.

        Parameters
        ----------
        ways : (..., 2) on the upright photo.
        """
        return np.asarray(ways @ _TURNS[self.quarters])

    def lens(self, focal: float, center: tuple[float, float], bends: tuple[float, float], doubt: float) -> Lens:
        """The lens as the upright photo has it.

        Parameters
        ----------
        focal, center : on the sensor, as shares of its long side.
        bends : k1, k2.
        doubt : standard uncertainty of the focal length as a share.
        """
        x, y = _TURNS[self.quarters] @ center * self.long_px + self._middle
        return Lens(self.width_px, self.height_px, focal * self.long_px, (float(x), float(y)), *bends, doubt)

    def upright(self, rotation: Floats, shift: Floats) -> tuple[Floats, Floats]:
        """The pose of the upright photo from that of the sensor.

        Parameters
        ----------
        rotation : (3, 3).
        shift : (3,) [mm].
        """
        turn = np.eye(3)
        turn[:2, :2] = _TURNS[self.quarters]
        return turn @ rotation, turn @ shift

    @property
    def _middle(self) -> Floats:
        return np.array([(self.width_px - 1) / 2, (self.height_px - 1) / 2])


def frame_of(photo: Photo, usual_turn: int = 1) -> SensorFrame:
    """How a photo lies against a sensor that lies on its long side.

    Parameters
    ----------
    photo : upright.
    usual_turn : quarter turns of a photo that stands but does not say how it was turned.
    """
    stands = photo.height_px > photo.width_px
    says = photo.quarters % 2 == 1
    quarters = photo.quarters if stands == says else (photo.quarters + usual_turn) % 4
    return SensorFrame(quarters, photo.width_px, photo.height_px)
