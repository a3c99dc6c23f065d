"""A regular grid of points in space, on which fields are sampled."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Field = NDArray[np.float32]
Vector = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Grid:
    """Points `origin_mm + step_mm * (i, j, k)`.

    Parameters
    ----------
    origin_mm : position of point (0, 0, 0) [mm].
    step_mm : spacing in all directions [mm].
    shape : number of points along x, y, z.
    """

    origin_mm: tuple[float, float, float]
    step_mm: float
    shape: tuple[int, int, int]

    @property
    def origin(self) -> Vector:
        """(3,) position of point (0, 0, 0) [mm]."""
        return np.array(self.origin_mm, dtype=np.float64)

    def axis(self, number: int) -> Vector:
        """Coordinates of the points along one axis [mm].

        Parameters
        ----------
        number : 0, 1, 2 for x, y, z.

        Source: our own.
        """
        return np.asarray(self.origin_mm[number] + self.step_mm * np.arange(self.shape[number]), dtype=np.float64)

    def at(self, index: NDArray[np.int64]) -> Vector:
        """(n, 3) positions [mm] of (n, 3) point indices.

        Parameters
        ----------
        index : (n, 3) point numbers along x, y, z.

        Source: our own.
        """
        return self.origin + self.step_mm * index

    def nearest_to(self, other: Grid) -> tuple[NDArray[np.int64], ...]:
        """Which point of this grid is nearest to each point of another one: an index of arrays on this grid.

        Parameters
        ----------
        other : any grid; beyond this one its border is nearest.

        Source: our own.
        """
        at = [np.rint((other.axis(n) - self.origin_mm[n]) / self.step_mm).astype(np.int64) for n in range(3)]
        return np.ix_(*(np.clip(index, 0, count - 1) for index, count in zip(at, self.shape, strict=True)))

    def coarser(self, factor: int) -> Grid:
        """The grid of every `factor`-th point, long enough to cover this one.

        Parameters
        ----------
        factor : how many steps become one, >= 1.

        Source: our own.
        """
        shape = tuple((n - 1 + factor - 1) // factor + 1 for n in self.shape)
        return Grid(self.origin_mm, self.step_mm * factor, (shape[0], shape[1], shape[2]))

    @classmethod
    def around(cls, low_mm: Vector, high_mm: Vector, step_mm: float, margin_mm: float) -> Grid:
        """The lattice of multiples of `step_mm` that covers a box grown by `margin_mm`.

        Parameters
        ----------
        low_mm, high_mm : (3,) corners of the box [mm].
        step_mm : spacing of the points [mm], > 0.
        margin_mm : how far the box is grown [mm], >= 0.

        Source: our own.

        >>> import numpy as np
        >>> Grid.around(np.zeros(3), np.full(3, 9.5), 1.0, 1.0).shape
        (13, 13, 13)
        """
        first = np.floor((np.asarray(low_mm) - margin_mm) / step_mm).astype(int)
        last = np.ceil((np.asarray(high_mm) + margin_mm) / step_mm).astype(int)
        origin = first * step_mm
        shape = last - first + 1
        corner = (float(origin[0]), float(origin[1]), float(origin[2]))
        return cls(corner, step_mm, (int(shape[0]), int(shape[1]), int(shape[2])))
