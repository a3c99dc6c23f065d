"""Hollows of a body that are wider than the way into them, found by the balls that pass."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np
from numpy.typing import NDArray
from scipy import ndimage
from skimage.morphology import reconstruction

from moldwright.found_at import Point3
from moldwright.geometry.directions import upper_directions
from moldwright.geometry.field import solid_band
from moldwright.geometry.grid import Field, Grid
from moldwright.geometry.mesh import Mesh
from moldwright.geometry.sign import Mask
from moldwright.mold.trapped import LEAST_ML, HollowsFound, NeckedHollow

STEPS, LEAST_STEP_MM = 110, 0.5
"""The body's longest side in steps of the grid; a finer step is never taken [mm]."""
BAND_STEPS, MARGIN_STEPS = 3.0, 4.0
WIDER_STEPS = 0.75
"""A hollow is wider than the way in by so many steps at least: less is the grid's own doubt."""
AROUND = np.ones((3, 3, 3), bool)
INWARD = (0.0, 0.5, 1.0, 1.5)
"""Sections of a neck are laid so many of its half widths in from its narrowest place too: that may lie on its rim."""
FINE, REACH = 0.7, 6.0
"""A section's points lie so many steps apart, as far out as so many half widths."""
OPEN_STEPS = 0.3
"""Nearer to the surface a section is closed."""


def hollows_of(body: Mesh) -> HollowsFound:
    """All hollows of a body of `LEAST_ML` or more that are wider than the way into them.

    Of every point outside the body it is known how large a ball fits there, and how large one comes there from far off:
    where the second is smaller, the point is behind a neck. The board does not close a hollow, it is off when the glove
    is.

    Parameters
    ----------
    body : original and plinth as one closed solid on z = 0 [mm].

    Source: widest paths (Pollack 1960, from memory) as the reconstruction of a gray image by dilation (Vincent 1993,
    "Morphological grayscale reconstruction in image analysis", IEEE Transactions on Image Processing 2), by
    scikit-image.
    """
    low, high = body.bounds_mm
    step_mm = max(float((high - low).max()) / STEPS, LEAST_STEP_MM)
    grid = Grid.around(low, high, step_mm, MARGIN_STEPS * step_mm)
    room = _room(body, grid)
    comes = _comes(room)
    number, count = ndimage.label(room > comes + WIDER_STEPS * step_mm, AROUND)
    found = [_Behind(room, comes, number == n, grid).hollow() for n in range(1, count + 1)]
    large = [hollow for hollow in found if hollow is not None and hollow.volume_ml >= LEAST_ML]
    return HollowsFound(tuple(sorted(large, key=lambda hollow: -hollow.volume_ml)))


def _room(body: Mesh, grid: Grid) -> Field:
    """The half width of the greatest ball about each point that is clear of the body [mm]; 0 within."""
    near = solid_band(body, grid, BAND_STEPS * grid.step_mm)
    far = ndimage.distance_transform_edt(near > 0.5 * grid.step_mm, grid.step_mm)
    close = near < (BAND_STEPS - 0.6) * grid.step_mm
    room: Field = np.where(close, np.maximum(near, 0.0), far).astype(np.float32)
    return room


def _comes(room: Field) -> Field:
    """The half width of the greatest ball that comes to each point from the grid's border [mm]."""
    seed = np.zeros_like(room)
    for axis in range(3):
        for end in (0, -1):
            side = tuple(end if k == axis else slice(None) for k in range(3))
            seed[side] = room[side]
    comes: Field = reconstruction(seed, room, method="dilation").astype(np.float32)
    return comes


class _Behind:
    """One hollow: the points `inside` of it in which a larger ball fits than comes there."""

    def __init__(self, room: Field, comes: Field, inside: Mask, grid: Grid) -> None:
        self.room, self.comes, self.inside, self.grid = room, comes, inside, grid
        deepest = np.unravel_index(int(np.argmax(np.where(inside, room, -1.0))), room.shape)
        self.deepest = np.array(deepest)
        self.ball, self.neck = float(room[deepest]), float(comes[deepest])

    def hollow(self) -> NeckedHollow | None:
        """As it is told; None where nothing at all comes in, which is refused before.

        Source: our own.
        """
        if self.neck <= 0:
            return None
        gate = self._gate()
        if gate is None:
            return None
        at, neck = self.grid.at(self.deepest[None])[0], self.grid.at(gate[None])[0]
        area_mm2 = min(self._areas(at, neck), default=np.pi * self.neck**2)
        return NeckedHollow(_told(at), _told(neck), 2 * self.ball, 2 * self.neck, area_mm2, self._volume_ml())

    def _gate(self) -> NDArray[np.int64] | None:
        """The point at which the way out of it is narrowest: the last that is as narrow, next to what is reached by
        more."""
        as_narrow = (self.comes == self.neck) & (self.room >= self.neck)
        joined = ndimage.label(as_narrow, AROUND)[0]
        beside = ndimage.binary_dilation(self.comes > self.neck, AROUND)
        gates = np.argwhere((joined == joined[tuple(self.deepest)]) & (self.room == self.neck) & beside)
        if not len(gates):
            return None
        nearest: NDArray[np.int64] = gates[((gates - self.deepest) ** 2).sum(axis=1).argmin()]
        return nearest

    def _areas(self, at: NDArray[np.float64], neck: NDArray[np.float64]) -> Iterator[float]:
        """Of level and tilted sections at the neck and a little in from it [mm2]."""
        inward = (at - neck) / max(float(np.linalg.norm(at - neck)), 1e-9)
        for share in INWARD:
            for normal in upper_directions(azimuths=24, tilts_deg=(0, 18, 36, 54, 72)):
                area_mm2 = self._area(neck + share * self.neck * inward, normal)
                if area_mm2 > 0:
                    yield area_mm2

    def _area(self, middle: NDArray[np.float64], normal: NDArray[np.float64]) -> float:
        """What is open of a section round its middle [mm2]; 0 where that is closed."""
        apart_mm = FINE * self.grid.step_mm
        count = int(np.ceil(REACH * self.neck / apart_mm)) + 6
        across = np.cross(normal, np.eye(3)[int(np.argmin(np.abs(normal)))])
        across /= np.linalg.norm(across)
        beside = np.cross(normal, across)
        along = np.arange(-count, count + 1) * apart_mm
        places = middle + along[:, None, None] * across + along[None, :, None] * beside
        index = ((places - self.grid.origin) / self.grid.step_mm).reshape(-1, 3).T
        room = ndimage.map_coordinates(self.room, index, order=1, mode="nearest").reshape(len(along), -1)
        number, _ = ndimage.label(room > OPEN_STEPS * self.grid.step_mm)
        here = number[count, count]
        return float((number == here).sum()) * apart_mm**2 if here else 0.0

    def _volume_ml(self) -> float:
        """What the balls within it fill [ml]."""
        away, nearest = ndimage.distance_transform_edt(~self.inside, self.grid.step_mm, return_indices=True)
        return float((away <= self.room[tuple(nearest)]).sum()) * self.grid.step_mm**3 / 1000.0


def _told(point: NDArray[np.float64]) -> Point3:
    x, y, z = (round(float(value), 1) for value in point)
    return (x, y, z)
