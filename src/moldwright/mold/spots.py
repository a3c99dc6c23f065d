"""Where rubber is packed: each place's middle, volume and greatest depth."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from moldwright.geometry.mesh import Mesh
from moldwright.geometry.rays import hit_distances
from moldwright.mold.glove import BRIDGE_SHARE
from moldwright.mold.measures import FillSpot, SpotKind

LEAST_SPOT_ML = 0.1
LOOKED_AT = 24


def spots_of(packed: Sequence[Mesh], crevice_ml: float, piece: Mesh, rubber_mm: float) -> tuple[FillSpot, ...]:
    """The packed places of at least 0.1 ml, largest first, and the bridged crevices as one more.

    Parameters
    ----------
    packed : every packed place as its own solid, largest first [mm].
    crevice_ml : rubber that bridges crevices [ml], >= 0.
    piece : the original on the board [mm]; the crevices are told at the middle of its box.
    rubber_mm : all coats together [mm], > 0; a crevice is bridged up to a share of it.

    Source: our own.
    """
    spots = [spot_of(place) for place in packed if place.volume_ml >= LEAST_SPOT_ML]
    if crevice_ml >= LEAST_SPOT_ML:
        low, high = piece.bounds_mm
        spots.append(FillSpot(_point((low + high) / 2), BRIDGE_SHARE * rubber_mm, crevice_ml, SpotKind.CREVICE))
    return tuple(spots)


def spot_of(place: Mesh) -> FillSpot:
    """One packed place: where it lies and how deep it is.

    The depth is the greatest found by rays straight inward from its largest faces, and no less than 3 V / A, the depth
    of a cone on its own surface.

    Parameters
    ----------
    place : the rubber of one place as a closed solid [mm].

    Source: our own.
    """
    deep_mm = max(depth_mm(place), 3 * place.volume_mm3 / max(place.area_mm2, 1e-9))
    return FillSpot(_point(place.vertices.mean(axis=0)), deep_mm, place.volume_ml, SpotKind.UNDERCUT)


def depth_mm(place: Mesh) -> float:
    """Greatest thickness of a body seen from the largest of its faces, straight inward [mm]; 0 where none is met.

    Parameters
    ----------
    place : a closed solid [mm].

    Source: our own.
    """
    corners = place.corners
    normals = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    size = np.linalg.norm(normals, axis=1)
    largest = np.argsort(-size)[:LOOKED_AT]
    inward = -normals[largest] / np.maximum(size[largest], 1e-12)[:, None]
    reach = hit_distances(place, corners[largest].mean(axis=1) + 1e-3 * inward, inward)
    return float(reach[np.isfinite(reach)].max(initial=0.0))


def _point(at: NDArray[np.float64]) -> tuple[float, float, float]:
    x, y, z = (float(v) for v in at)
    return (x, y, z)
