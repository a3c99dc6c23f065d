"""Which way is up: as told, as the format says, or as the piece stands best."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.spatial import ConvexHull, QhullError

from moldwright.errors import InputRefused
from moldwright.geometry.mesh import Mesh
from moldwright.original.standing.hull import Hull
from moldwright.original.standing.rim import Rim, rims_of_scan
from moldwright.scan.scan import Scan, Vector

Points = NDArray[np.float64]
AXES = {sign + axis: (-1.0 if sign == "-" else 1.0) * np.eye(3)[k] for k, axis in enumerate("xyz") for sign in "+-"}
FACETS = 300
TOUCH = 0.002
FACING = 0.97
SAME = np.cos(np.radians(1.0))
DISTINCT = np.cos(np.radians(10.0))
TIE = 0.95
NO_CONTACT = 0.001


@dataclass(frozen=True, slots=True, eq=False)
class Up:
    """The direction that will be z, and why: source is "commission", "format" or "found"."""

    direction: Points
    source: str
    why: str


def direction_of(up: str | Vector) -> Points:
    """A direction as people write it: "+y", "-x", "z", or three numbers.

    >>> direction_of("-y").tolist()
    [0.0, -1.0, 0.0]
    """
    if isinstance(up, str):
        word = up.strip().lower()
        found = AXES.get(word if word[:1] in "+-" else f"+{word}")
        if found is None:
            raise InputRefused("up-unclear", up, ", ".join(AXES), "", 'Write up = "+y", or three numbers.')
        return np.asarray(found + 0.0, np.float64)
    numbers = np.asarray(up, np.float64).ravel()
    size = float(np.linalg.norm(numbers)) if len(numbers) == 3 else 0.0
    if not np.isfinite(size) or size == 0.0:
        raise InputRefused("up-unclear", str(up), "three numbers, not all 0", "", 'Write up = "+y", or three numbers.')
    return numbers / size


def find_up(scan: Scan, hull: Hull, up: str | Vector | None) -> Up:
    """The direction to use; a tie between ways to stand is refused with the candidates."""
    if up is not None:
        return Up(direction_of(up), "commission", "as told")
    if scan.up is not None:
        return Up(direction_of(scan.up), "format", f"the {scan.format.upper()} format's own")
    return _standing(scan, hull)


def _standing(scan: Scan, hull: Hull) -> Up:
    ways = _ways(scan, hull)
    if not ways:
        raise _tied([], 'No side can it stand on. Say which way is up, as in up = "+y".')
    best = ways[0]
    rivals = [way for way in ways if way[1] >= TIE * best[1]]
    if len(rivals) > 1:
        raise _tied([name_of(way[0]) for way in rivals], "")
    sides = "the only side" if len(ways) == 1 else f"the flattest of {len(ways)} sides"
    return Up(best[0], "found", f"{sides} it can stand on is down")


def _tied(names: list[str], remedy: str) -> InputRefused:
    shown = " or ".join(f"up = {name}" for name in names[:6])
    remedy = remedy or f"It stands as well on {len(names)} sides: say {shown}."
    return InputRefused("up-unclear", len(names), 1, "directions", remedy)


def _ways(scan: Scan, hull: Hull) -> list[tuple[Points, float]]:
    """Every distinct direction it can stand up in and its contact with the board, most first.

    Contact is the area that lies flat on the board; where none does (rounded all over), the area of the hull's facet.
    """
    mesh = scan.mesh
    rims = rims_of_scan(scan, mesh.vertices)
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
    flat = [(up, contact) for up, contact, _ in found if contact > NO_CONTACT * float(hull.areas.sum())]
    ways = sorted(flat or [(up, area) for up, _, area in found], key=lambda way: -way[1])
    return _distinct(ways)


def _distinct(ways: list[tuple[Points, float]]) -> list[tuple[Points, float]]:
    kept: list[tuple[Points, float]] = []
    for way in ways:
        if all(float(way[0] @ other[0]) < DISTINCT for other in kept):
            kept.append(way)
    return kept


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
    return _snapped(-down), contact


def _snapped(direction: Points) -> Points:
    """A direction within 0.05 degrees of an axis is that axis."""
    for axis in AXES.values():
        if float(np.linalg.norm(direction - axis)) < np.radians(0.05):
            return np.asarray(axis + 0.0, np.float64)
    return direction


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


def name_of(direction: Points) -> str:
    """How a commission writes a direction.

    >>> name_of(np.array([0.0, 0.0, -1.0]))
    '"-z"'
    """
    for name, axis in AXES.items():
        if float(direction @ axis) > np.cos(np.radians(0.5)):
            return f'"{name}"'
    return "[" + ", ".join(f"{value:.4g}" for value in np.round(direction, 4) + 0.0) + "]"


def rotation_to_z(direction: Points) -> Points:
    """The shortest rotation that takes a unit vector to +z, (3, 3); half a turn about x for -z.

    R = I + [v] + [v]^2 / (1 + d_z), v = d x z (Rodrigues).

    >>> (rotation_to_z(np.array([0.0, 1.0, 0.0])) @ [0, 1, 0]).round(12).tolist()
    [0.0, 0.0, 1.0]
    """
    x, y, z = direction
    if z < -1 + 1e-12:
        return np.diag([1.0, -1.0, -1.0])
    cross = np.array([[0, 0, -x], [0, 0, -y], [x, y, 0]])
    turn: Points = np.eye(3) + cross + cross @ cross / (1 + z)
    return turn
