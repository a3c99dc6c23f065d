"""Level sets of fields that are never held whole: computed in slabs of layers, joined without a seam."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

import numpy as np
from numpy.typing import NDArray
from skimage.measure import marching_cubes

from moldwright.errors import ComputationFailed
from moldwright.geometry.field import Sampled, mirrored_below
from moldwright.geometry.grid import Field, Grid
from moldwright.geometry.mesh import Faces, Mesh, Vertices
from moldwright.geometry.solid import Solid, above, solid_of
from moldwright.geometry.surface import off_zero

MOST_POINTS = 24_000_000
LEAST_LAYERS = 24

Make = Callable[[Grid], Sequence[Field]]


def _slabs(grid: Grid, most_points: int) -> Iterator[tuple[int, int]]:
    """First and last layer of every slab; neighbors share a layer."""
    layers = max(LEAST_LAYERS, most_points // (grid.shape[0] * grid.shape[1]))
    first = 0
    while first < grid.shape[2] - 1:
        last = min(first + layers, grid.shape[2] - 1)
        if grid.shape[2] - 1 - last < LEAST_LAYERS:
            last = grid.shape[2] - 1
        yield first, last
        first = last


def _layers_of(grid: Grid, first: int, last: int) -> Grid:
    x, y, z = grid.origin_mm
    return Grid((x, y, z + grid.step_mm * first), grid.step_mm, (grid.shape[0], grid.shape[1], last - first + 1))


def layers(
    grid: Grid, make: Callable[[Grid], Field], halo_mm: float, most_points: int = MOST_POINTS
) -> Iterator[tuple[int, Field]]:
    """A field in stacks of layers, each layer once: the number of a stack's first layer, and its values.

    Parameters
    ----------
    grid : where the field is sampled.
    make : gives the field on any stack of the grid's layers.
    halo_mm : how far beyond a stack its field depends on what is there [mm].
    most_points : about how many points are held at once.

    Source: our own.
    """
    halo, top = int(np.ceil(halo_mm / grid.step_mm)) + 1, grid.shape[2] - 1
    for first, last in _slabs(grid, most_points):
        low, high = max(0, first - halo), min(top, last + halo)
        field = make(_layers_of(grid, low, high))
        yield first, field[:, :, first - low : last - low + (last == top)]


def standing_surfaces(
    grid: Grid, make: Make, halo_mm: float, most_points: int = MOST_POINTS
) -> tuple[Mesh | None, ...]:
    """The zero level sets of fields on a grid whose lowest layer is the board z = 0, continued below it and closed.

    Parameters
    ----------
    grid : where the fields are sampled.
    make : gives the fields (negative inside) on any stack of the grid's layers.
    halo_mm : how far beyond a slab its fields depend on what is there [mm].
    most_points : about how many points are held at once.

    Neighboring slabs share the values of one layer, so that their surfaces meet in the same vertices. None stands for
    an empty level set. Raises ComputationFailed where one reaches the border of the grid.

    Source: marching cubes: Lorensen & Cline 1987, "Marching cubes: a high resolution 3D surface construction
    algorithm", Computer Graphics 21 (4), in the variant of Lewiner et al. 2003, "Efficient implementation of marching
    cubes' cases with topological guarantees", Journal of Graphics Tools 8 (2), as scikit-image has it; the slabs are
    our own.
    """
    halo = int(np.ceil(halo_mm / grid.step_mm)) + 1
    pieces: list[list[tuple[Vertices, Faces]]] = []
    carried: list[Field] = []
    for first, last in _slabs(grid, most_points):
        low, high = max(0, first - halo), min(grid.shape[2] - 1, last + halo)
        fields = make(_layers_of(grid, low, high))
        pieces = pieces or [[] for _ in fields]
        for number, field in enumerate(fields):
            part = np.ascontiguousarray(field[:, :, first - low : last - low + 1])
            if first > 0:
                part[:, :, 0] = carried[number]
            carried[number:] = [part[:, :, -1].copy(), *carried[number + 1 :]]
            _check_border(part, last == grid.shape[2] - 1)
            sampled = Sampled(part, _layers_of(grid, first, last))
            pieces[number] += _surface_of(sampled if first > 0 else mirrored_below(sampled))
    return tuple(_welded(parts, grid) for parts in pieces)


def _check_border(part: Field, top: bool) -> None:
    sides = (part[0], part[-1], part[:, 0], part[:, -1], *((part[:, :, -1],) if top else ()))
    if any((side <= 0).any() for side in sides):
        raise ComputationFailed("level-set-open", "at the grid's border", None, "", "Report this commission.")


def _surface_of(sampled: Sampled) -> list[tuple[Vertices, Faces]]:
    """The part's surface, left open where it runs on in the next slab; nothing where the part has none."""
    field = off_zero(sampled.field, sampled.grid.step_mm)
    if not ((field.min() < 0) and (field.max() > 0)):
        return []
    points, faces, _, _ = marching_cubes(field, 0.0, allow_degenerate=False)
    vertices = sampled.grid.origin + sampled.grid.step_mm * points.astype(np.float64)
    return [(vertices, np.ascontiguousarray(faces, dtype=np.int32))]


def _welded(parts: list[tuple[Vertices, Faces]], grid: Grid) -> Mesh | None:
    """All parts in one mesh, the vertices of shared layers made one."""
    if not parts:
        return None
    offsets = np.cumsum([0, *(len(vertices) for vertices, _ in parts)])
    vertices = np.concatenate([v for v, _ in parts])
    faces = np.concatenate([f + np.int32(offset) for (_, f), offset in zip(parts, offsets, strict=False)])
    if len(parts) == 1:
        return Mesh(vertices, faces)
    key = np.rint((vertices - grid.origin) / grid.step_mm * 2**20).astype(np.int64)
    return _merged(vertices, faces, key)


def _merged(vertices: Vertices, faces: Faces, key: NDArray[np.int64]) -> Mesh:
    _, first, same = np.unique(key, axis=0, return_index=True, return_inverse=True)
    merged = same.ravel()[faces].astype(np.int32)
    whole = (merged[:, 0] != merged[:, 1]) & (merged[:, 1] != merged[:, 2]) & (merged[:, 2] != merged[:, 0])
    return Mesh(vertices[first], merged[whole])


def whole(mesh: Mesh | None) -> Mesh:
    """A level set that must not be empty.

    Parameters
    ----------
    mesh : as `standing_surfaces` gives it [mm].

    Raises ComputationFailed where it is. Source: our own.
    """
    if mesh is None:
        raise ComputationFailed("level-set-empty", 0, None, "triangles", "Report this commission.")
    return mesh


def standing_body(mesh: Mesh | None) -> Solid:
    """The solid over z = 0, flat there, of a level set that must not be empty.

    Parameters
    ----------
    mesh : as `standing_surfaces` gives it [mm].

    Raises ComputationFailed where it is. Source: our own.
    """
    return above(solid_of(whole(mesh)), 0.0)
