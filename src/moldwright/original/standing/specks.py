"""Loose specks of a scan: dust and stray points that a scanner sees beside the piece, and that are no part of it."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from moldwright.errors import InputRefused
from moldwright.geometry.mesh import Mesh
from moldwright.geometry.sign import winding_numbers
from moldwright.original.standing.nearness import distances_to
from moldwright.original.standing.samples import spread
from moldwright.original.standing.seams import GAP_SHARE, near_pairs, seam_labels, seamless, size_of
from moldwright.scan.edges import bodies, boxes, components, edges_of
from moldwright.scan.scan import Scan

Points = NDArray[np.float64]
Ints = NDArray[np.int64]
Bools = NDArray[np.bool_]
EXTENT_SHARE = 0.1
AREA_SHARE = 0.01
VOLUME_SHARE = 0.01
TOUCH_SHARE = 0.0005
MOST_AREA_SHARE = 0.25
MAIN_SHARE = 0.01


@dataclass(frozen=True, slots=True)
class Specks:
    """What was dropped: how many, and the longest side of the largest, in file units."""

    count: int
    largest: float


@dataclass(frozen=True, slots=True, eq=False)
class _Parts:
    """Parts of a mesh: which part each triangle is of, and each part's box's diagonal, area, volume and openness."""

    of_face: Ints
    extent: Points
    longest: Points
    area: Points
    volume: Points
    is_open: Bools

    @property
    def count(self) -> int:
        """How many parts there are."""
        return len(self.area)


def without_specks(scan: Scan) -> tuple[Scan, Specks]:
    """The scan without loose specks, and what they were.

    A speck is small beside the largest part (a tenth of its extent, a hundredth of its area and of its volume), does
    not lie inside it, and is apart: nearer than 1/2000 of the surface's size (a closed speck) or 1/500 (a fragment
    with an open border, which may be a patch of the surface) nothing else is, be it directly or over other small
    parts. Pieces of one surface whose borders meet are one part. Where the largest part is less than a hundredth of
    the surface there is nothing to tell specks from, and none are dropped. Our own; shares are common practice, no
    source.

    Parameters
    ----------
    scan : what was read, lengths in file units.
    """
    if scan.bodies == 1:
        return scan, Specks(0, 0.0)
    parts = _parts(scan.mesh, seam_labels(scan.mesh))
    loose = _loose(scan.mesh, parts) if parts.count > 1 else np.zeros(parts.count, bool)
    if not loose.any():
        return scan, Specks(0, 0.0)
    share = float(parts.area[loose].sum() / parts.area.sum())
    if share > MOST_AREA_SHARE:
        raise _scattered(share)
    mesh = _kept(scan.mesh, ~loose[parts.of_face])
    edges = edges_of(mesh.faces, len(mesh.vertices))
    closed = len(edges.open) == 0 and edges.crowded == 0 and not edges.same.any()
    found = Specks(int(loose.sum()), float(parts.longest[loose].max()))
    return replace(scan, mesh=mesh, watertight=closed), found


def _scattered(share: float) -> InputRefused:
    return InputRefused(
        "scan-in-crumbs",
        round(100 * share, 1),
        100 * MOST_AREA_SHARE,
        "% of the surface in loose specks",
        "Too much of the scan lies in small loose parts to leave them out: "
        "delete what is not the piece in a mesh editor, or join its parts.",
    )


def _parts(mesh: Mesh, label: Ints) -> _Parts:
    """Connected parts where the corners that `label` names alike are one place."""
    faces = label[mesh.faces]
    count, of_face = bodies(faces, len(mesh.vertices))
    of_label = np.zeros(len(mesh.vertices), np.int64)
    of_label[faces.ravel()] = np.repeat(of_face, 3)
    open_parts = of_label[edges_of(seamless(mesh, label), len(mesh.vertices)).open[:, 0]]
    return _measured(mesh, count, of_face, open_parts)


def _measured(mesh: Mesh, count: int, of_face: Ints, open_parts: Ints) -> _Parts:
    low, high = boxes(mesh.corners, of_face)
    a, b, c = (mesh.vertices[mesh.faces[:, k]] - low[of_face] for k in range(3))
    twice = np.cross(b - a, c - a)
    area: Points = np.bincount(of_face, np.linalg.norm(twice, axis=1) / 2, count).astype(np.float64)
    volume: Points = np.bincount(of_face, np.einsum("ij,ij->i", a, twice) / 6, count).astype(np.float64)
    is_open = np.zeros(count, bool)
    is_open[open_parts] = True
    sides = high - low
    return _Parts(of_face, np.linalg.norm(sides, axis=1), sides.max(axis=1), area, np.abs(volume), is_open)


def _small(parts: _Parts, main: int) -> Bools:
    """Which parts are small beside the main one."""
    small: Bools = (parts.extent <= EXTENT_SHARE * parts.extent[main]) & (parts.area <= AREA_SHARE * parts.area[main])
    found: Bools = small & (parts.is_open | parts.is_open[main] | (parts.volume <= VOLUME_SHARE * parts.volume[main]))
    return found


def _loose(mesh: Mesh, parts: _Parts) -> Bools:
    """Which parts are specks."""
    main = int(parts.area.argmax())
    small = _small(parts, main)
    if not small.any() or parts.area[main] < MAIN_SHARE * parts.area.sum():
        return np.zeros(parts.count, bool)
    chosen = np.flatnonzero(small[parts.of_face])
    core = _kept(mesh, ~small[parts.of_face])
    size = size_of(mesh)
    points, owner, spacing = spread(mesh.corners[chosen], parts.of_face[chosen], TOUCH_SHARE * size)
    group = _groups(points, owner, parts, TOUCH_SHARE * size)
    reach = np.where(parts.is_open[owner], GAP_SHARE * size, TOUCH_SHARE * size)
    held = np.zeros(parts.count, bool)
    held[group[owner[_near(points, np.maximum(reach, spacing), core)]]] = True
    held[group[_inside(mesh, parts, small, core)]] = True
    held |= _too_large(parts, group, small, main)
    loose: Bools = small & ~held[group]
    return loose


def _groups(points: Points, owner: Ints, parts: _Parts, distance: float) -> Ints:
    """Small parts that touch each other are one group: for every part the group's number."""
    pairs = near_pairs(points, distance)
    _, group = components(owner[pairs], parts.count)
    return group.astype(np.int64)


def _near(points: Points, reach: Points, core: Mesh) -> Bools:
    """Which points lie within `reach` of the rest of the surface."""
    low, high = core.bounds_mm
    far = reach.max()
    near = ((points >= low - far) & (points <= high + far)).all(axis=1)
    near[near] = distances_to(core, points[near]) <= reach[near]
    found: Bools = near
    return found


def _inside(mesh: Mesh, parts: _Parts, small: Bools, core: Mesh) -> Ints:
    """The small parts that lie inside the rest: hollows and what is buried."""
    first = np.zeros(parts.count, np.int64)
    first[parts.of_face[::-1]] = mesh.faces[::-1, 0]
    asked = np.flatnonzero(small)
    inside = np.abs(winding_numbers(core, mesh.vertices[first[asked]])) > 0.5
    found: Ints = asked[inside]
    return found


def _too_large(parts: _Parts, group: Ints, small: Bools, main: int) -> Bools:
    """Groups of small parts that together are a body of their own."""
    count = parts.count
    area = np.bincount(group[small], parts.area[small], count)
    volume = np.bincount(group[small], parts.volume[small], count)
    large: Bools = (area > AREA_SHARE * parts.area[main]) | (
        (volume > VOLUME_SHARE * parts.volume[main]) & ~parts.is_open[main]
    )
    return large


def _kept(mesh: Mesh, keep: Bools) -> Mesh:
    """The chosen triangles and only their corners."""
    used, faces = np.unique(mesh.faces[keep], return_inverse=True)
    return Mesh(mesh.vertices[used], faces.reshape(-1, 3).astype(np.int32))
