"""How the glove about a solid that an original could be stretches as it is peeled, on few triangles."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray
from scipy import ndimage

from moldwright.geometry.mesh import Mesh
from moldwright.mold.held import Held
from moldwright.mold.peel_places import Peeled, peeled_of
from moldwright.mold.peel_surface import surface_under
from moldwright.plan.peel import Point

TRIANGLES = 6_000
"""Where solids are compared with each other: our own."""


def peeled_on(
    body: Mesh, held: Sequence[Held | None], stiff_mm: float, divided: Sequence[Point]
) -> tuple[Peeled | None, ...]:
    """The glove of each split as it comes off; None of a number without a split.

    Parameters
    ----------
    body : the solid on its plinth [mm].
    held : each split, held to it.
    stiff_mm : rubber thicker than this counts as stiff [mm].
    divided : where its through-holes are that are opened [mm], see `mold.peel_places.peeled_of`.
    """
    bare = surface_under(body, lambda corners: np.zeros(len(corners)), stiff_mm, TRIANGLES)
    every = [None if each is None else _rubber_mm(each, bare.mesh.vertices) > stiff_mm for each in held]
    found = {stiff.tobytes(): stiff for stiff in every if stiff is not None}
    peeled = {key: peeled_of(replace(bare, stiff=stiff), divided) for key, stiff in found.items()}
    return tuple(None if stiff is None else peeled[stiff.tobytes()] for stiff in every)


def _rubber_mm(held: Held, corners: NDArray[np.float64]) -> NDArray[np.float64]:
    """Between the points of the grid; below it as at its floor."""
    places = (corners - np.array(held.grid.origin_mm)) / held.grid.step_mm
    found: NDArray[np.float64] = ndimage.map_coordinates(held.rubber_mm, places.T, order=1, mode="nearest")
    return found
