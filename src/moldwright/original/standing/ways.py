"""The sides that a piece can stand on: facets of its hull over which its center of mass lies."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.spatial import ConvexHull, QhullError

from moldwright.geometry.mesh import Mesh
from moldwright.original.standing.direction import snapped
from moldwright.original.standing.hull import Hull
from moldwright.original.standing.rim import Rim

Points = NDArray[np.float64]
FACETS = 300
TOUCH = 0.002
FACING = 0.97
SAME = np.cos(np.radians(1.0))
DISTINCT = np.cos(np.radians(10.0))
NO_CONTACT = 0.001


@dataclass(frozen=True, slots=True, eq=False)
class Way:
    """One way to stand.

    Parameters
    ----------
    up : (3,) the direction that is up then.
    contact : area that lies on the board; where none lies flat (rounded all over), the hull facet's area.
    flat : whether it is area that lies flat.
    """

    up: Points
    contact: float
    flat: bool


def ways_to_stand(mesh: Mesh, hull: Hull, rims: tuple[Rim, ...]) -> tuple[Way, ...]:
    """Every distinct direction it can stand up in, most contact first; our own.

    Openings whose rim lies on the board count as contact. Where any side lies flat, those that do not are left out.

    Parameters
    ----------
    mesh : the scan, any unit.
    hull : its hull.
    rims : its openings.
    """
    center = _center(mesh, hull)
    corners = mesh.corners
    cross = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    size = float(np.ptp(hull.corners, axis=0).max())
    found: list[tuple[Points, float, float]] = []
    seen = np.zeros((0, 3))
    for normal, offset, area in zip(hull.normals[:FACETS], hull.offsets[:FACETS], hull.areas[:FACETS], strict=True):
        if (seen @ normal > SAME).any():
            continue
        seen = np.concatenate([seen, normal[None]])
        if _stable(hull, normal, offset, center, size):
            found.append((*_contact(mesh, cross, rims, normal, offset, size), area))
    least = NO_CONTACT * float(hull.areas.sum())
    flat = [Way(up, contact, True) for up, contact, _ in found if contact > least]
    return _distinct(flat or [Way(up, float(area), False) for up, _, area in found])


def same_way(first: Points, second: Points) -> bool:
    """Whether two directions are less than 10 degrees apart.

    Parameters
    ----------
    first, second : (3,) unit vectors.

    Source: our own.
    """
    return bool(first @ second >= DISTINCT)


def distinct(ups: Iterable[Points]) -> tuple[Points, ...]:
    """The directions without those that are within 10 degrees of an earlier one.

    Parameters
    ----------
    ups : (3,) unit vectors.

    Source: our own.
    """
    kept: list[Points] = []
    for up in ups:
        if not any(same_way(up, other) for other in kept):
            kept.append(up)
    return tuple(kept)


def _distinct(ways: list[Way]) -> tuple[Way, ...]:
    ordered = sorted(ways, key=lambda way: -way.contact)
    kept = {id(up) for up in distinct(way.up for way in ordered)}
    return tuple(way for way in ordered if id(way.up) in kept)


def _contact(
    mesh: Mesh, cross: Points, rims: tuple[Rim, ...], normal: Points, offset: float, size: float
) -> tuple[Points, float]:
    """Up for one facet, and the area that lies on its plane, openings whose rim lies there included."""
    near = mesh.vertices @ normal + offset > -TOUCH * size
    likely = np.flatnonzero(near[mesh.faces[:, 0]])
    touching = cross[likely[near[mesh.faces[likely]].all(axis=1)]]
    facing = touching @ normal > FACING * np.linalg.norm(touching, axis=1)
    total: Points = touching[facing].sum(axis=0) / 2
    for rim in rims:
        if (rim.points @ normal + offset > -4 * TOUCH * size).all():
            total = total + np.sign(float(rim.area @ normal)) * rim.area
    contact = float(total @ normal)
    down = total / np.linalg.norm(total) if contact > NO_CONTACT * size**2 else normal
    return snapped(-down), contact


def _stable(hull: Hull, normal: Points, offset: float, center: Points, size: float) -> bool:
    """Whether the center of mass stands over what touches the board."""
    touching = hull.corners[hull.corners @ normal + offset > -TOUCH * size]
    first = np.cross(normal, np.eye(3)[int(np.abs(normal).argmin())])
    first /= np.linalg.norm(first)
    axes = np.stack([first, np.cross(normal, first)], axis=1)
    try:
        foot = ConvexHull((touching - center) @ axes)
    except (QhullError, ValueError):
        return False
    return bool((foot.equations[:, 2] < -1e-6 * size).all())


def _center(mesh: Mesh, hull: Hull) -> Points:
    """Center of mass of the solid, an opening closed by a fan; of the hull's corners without a volume."""
    middle: Points = hull.corners.mean(axis=0)
    a, b, c = (mesh.corners - middle).transpose(1, 0, 2)
    volume = np.einsum("ij,ij->i", a, np.cross(b, c)) / 6
    total = float(volume.sum())
    if total <= 1e-6 * float(np.ptp(hull.corners, axis=0).prod()):
        return middle
    center: Points = middle + ((a + b + c) / 4 * volume[:, None]).sum(axis=0) / total
    return center if ((hull.normals @ center + hull.offsets) < 0).all() else middle
