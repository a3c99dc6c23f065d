"""The crevices that a closing has bridged, each place as its own solid between the coats and the bridge over them."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.sparse import coo_matrix, csr_matrix
from scipy.sparse.csgraph import connected_components, dijkstra

from moldwright.geometry.clip import above_plane
from moldwright.geometry.mesh import Faces, Mesh
from moldwright.geometry.rays import hit_distances
from moldwright.mold.packed import Packed, nearest

SAME_SHARE = 2.0**-12
"""Corners nearer than this share of the step are one."""
LEAST_DEPTH_MM = 0.4
"""What is shallower everywhere is a film that the brush leaves, no place of its own: our choice."""
REACH_MM = 25.0
"""A crevice that runs on is told in places that reach so far from their deepest point: our choice."""

Ints = NDArray[np.int64]
Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True, eq=False)
class _Shell:
    """What is between two surfaces: triangles over one numbering of corners, `outer` marks those of the bridge."""

    vertices: Floats
    faces: Ints
    outer: NDArray[np.bool_]
    height_mm: float

    def taken(self, faces: NDArray[np.bool_]) -> _Shell:
        """Some of its triangles.

        Parameters
        ----------
        faces : (m,) which.

        Source: our own.
        """
        return _Shell(self.vertices, self.faces[faces], self.outer[faces], self.height_mm)

    @property
    def share_mm3(self) -> Floats:
        """(m,) what each triangle adds to the volume over the plane that cuts it [mm3]: height times area in plan."""
        a, b, c = self.vertices[self.faces].transpose(1, 0, 2)
        plan = ((b - a)[:, 0] * (c - a)[:, 1] - (b - a)[:, 1] * (c - a)[:, 0]) / 2
        share: Floats = plan * ((a + b + c)[:, 2] / 3 - self.height_mm)
        return share

    def side(self, outer: bool) -> Mesh:
        """Its bridge, or what is beneath.

        Parameters
        ----------
        outer : the bridge.

        Source: our own.
        """
        return Mesh(self.vertices, self.faces[self.outer == outer].astype(np.int32))


def crevices_of(coats: Mesh, bridged: Mesh, floor_mm: float, step_mm: float, least_mm3: float) -> tuple[Packed, ...]:
    """The bridged crevices as solids, largest first.

    Both surfaces are level sets on one grid and are the same triangles wherever nothing is bridged; what is left of
    them encloses the crevices, exactly. One that runs on farther than `REACH_MM` is told in places: each is what is
    nearest, along its outer surface, to a deepest point, and has its share of the volume by area and depth.

    Parameters
    ----------
    coats : the outside of the coats [mm].
    bridged : the same after crevices were bridged; nowhere inside it [mm].
    floor_mm : height under which nothing is told, since the flange is there [mm].
    step_mm : the grid's step [mm].
    least_mm3 : volume up to which a place is left out [mm3], >= 0.

    Source: our own; the volume by the divergence theorem.
    """
    between = _between(coats, bridged, floor_mm, step_mm)
    if len(between.faces) == 0:
        return ()
    part = _parts(between.faces, len(between.vertices))
    volumes = np.bincount(part, between.share_mm3)
    found = [
        place
        for number in np.flatnonzero(volumes > least_mm3)
        for place in _places(between.taken(part == number), float(volumes[number]))
        if place.volume_mm3 > least_mm3
    ]
    return tuple(sorted(found, key=lambda place: -place.volume_mm3))


def _between(coats: Mesh, bridged: Mesh, floor_mm: float, step_mm: float) -> _Shell:
    """The triangles over the floor that only one of two surfaces has; the coats' turned inside out."""
    low = np.minimum(coats.vertices.min(axis=0), bridged.vertices.min(axis=0))
    inner, outer = _numbered([coats, bridged], low, step_mm)
    inner_key, outer_key = _face_keys(inner), _face_keys(outer)
    own = coats.faces[~np.isin(inner_key, outer_key)], bridged.faces[~np.isin(outer_key, inner_key)]
    down = np.array([0.0, 0.0, floor_mm])
    lower, upper = (
        above_plane(Mesh(mesh.vertices - down, faces), 0.0).moved(down)
        for mesh, faces in zip((coats, bridged), own, strict=True)
    )
    numbers = _numbered([lower, upper], low, step_mm)
    vertices = np.zeros((1 + max((int(n.max(initial=-1)) for n in numbers), default=-1), 3))
    for mesh, number in zip((lower, upper), numbers, strict=True):
        vertices[number] = mesh.vertices[mesh.faces]
    faces = np.concatenate([numbers[0][:, ::-1], numbers[1]])
    return _Shell(vertices, faces, np.arange(len(faces)) >= len(numbers[0]), floor_mm)


def _numbered(meshes: list[Mesh], low: Floats, step_mm: float) -> list[Ints]:
    """Each mesh's triangles by numbers that corners at one place share."""
    keys = []
    for mesh in meshes:
        x, y, z = np.rint((mesh.vertices - low) / (step_mm * SAME_SHARE)).astype(np.int64).T
        keys.append(x << 42 | y << 21 | z)
    number = np.unique(np.concatenate(keys), return_inverse=True)[1]
    first = len(keys[0])
    return [number[:first][meshes[0].faces], number[first:][meshes[1].faces]]


def _face_keys(faces: Ints) -> Ints:
    """One number for each triangle, whichever of its corners comes first."""
    turn = (faces.argmin(axis=1)[:, None] + np.arange(3)) % 3
    a, b, c = np.take_along_axis(faces, turn, axis=1).T
    key: Ints = a << 42 | b << 21 | c
    return key


def _parts(faces: Ints | Faces, count: int) -> Ints:
    """(m,) number of the connected part of every triangle."""
    a, b, c = faces.T
    links = coo_matrix((np.ones(2 * len(a)), (np.concatenate([a, b]), np.concatenate([b, c]))), shape=(count, count))
    label: Ints = connected_components(links, directed=False)[1][a]
    return label


def _places(body: _Shell, volume_mm3: float) -> list[Packed]:
    """One connected crevice in places no farther than the reach from their deepest point."""
    inner, outer = np.unique(body.faces[~body.outer]), np.unique(body.faces[body.outer])
    if not (len(inner) and len(outer)):
        return []
    depth, over = nearest(body.vertices[outer], body.vertices[inner])
    label = _nearest_seed(_ways(body.side(True)), outer[over], depth)
    if label.max() < 0:
        return []
    under = np.full(len(body.vertices), -1)
    under[inner] = label[outer[over]]
    of_face = np.where(body.outer, label[body.faces[:, 0]], under[body.faces[:, 0]])
    amount = _amounts(body)
    whole = amount.sum()
    places = []
    for number in range(int(label.max()) + 1):
        mine = body.taken(of_face == number)
        share = amount[of_face[body.outer] == number].sum() / whole
        if share > 0 and not mine.outer.all():
            places.append(Packed(mine.side(True), mine.side(False), float(share) * volume_mm3))
    return places


def _ways(mesh: Mesh) -> csr_matrix[np.float64]:
    """The edges of a surface as ways with their lengths [mm]."""
    a, b = np.concatenate([mesh.faces[:, [0, 1]], mesh.faces[:, [1, 2]], mesh.faces[:, [2, 0]]]).T
    length = np.maximum(np.linalg.norm(mesh.vertices[a] - mesh.vertices[b], axis=1), 1e-9)
    n = len(mesh.vertices)
    ways = coo_matrix((length, (a, b)), shape=(n, n)).tocsr()
    return ways.maximum(ways.T)


def _nearest_seed(ways: csr_matrix[np.float64], over: Ints, depth: Floats) -> Ints:
    """For every corner the place that it is of, -1: none; each next place begins at the deepest point of none yet."""
    label = np.full(ways.shape[0], -1)
    away = np.full(ways.shape[0], np.inf)
    for number in np.argsort(-depth, kind="stable"):
        if depth[number] < LEAST_DEPTH_MM:
            break
        if label[over[number]] < 0:
            found = dijkstra(ways, indices=over[[number]], limit=REACH_MM)[0]
            nearer = found < away
            label[nearer], away[nearer] = label.max() + 1, found[nearer]
    return label


def _amounts(body: _Shell) -> Floats:
    """About how much is under each outer triangle [mm3]: its area times how far it is straight inward."""
    bridge = body.side(True).corners
    across = np.cross(bridge[:, 1] - bridge[:, 0], bridge[:, 2] - bridge[:, 0])
    twice = np.linalg.norm(across, axis=1)
    inward = -across / np.maximum(twice, 1e-12)[:, None]
    reach = hit_distances(body.side(False), bridge.mean(axis=1), inward)
    amounts: Floats = twice / 2 * np.where(np.isfinite(reach), reach, 0.0)
    return amounts
