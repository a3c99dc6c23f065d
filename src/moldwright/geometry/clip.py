"""Cutting a triangle soup at the plane z = 0, and the cap that closes it there."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray
from scipy.sparse import coo_matrix
from scipy.sparse.csgraph import connected_components

from moldwright.geometry.mesh import Faces, Mesh, Vertices


def above_plane(soup: Mesh, snap_mm: float) -> Mesh:
    """The part of a soup over z = 0, open where the plane cuts it.

    Corners within `snap_mm` of the plane are set on it, so that a slightly uneven foot meets the plane cleanly;
    faces that come to lie on the plane are dropped. Triangles across the plane are cut, and both neighbors of a cut
    edge share the new corner.

    Parameters
    ----------
    soup : any triangles [mm].
    snap_mm : distance from the plane up to which a corner is set on it [mm], >= 0.

    Source: our own.
    """
    vertices = snapped(soup, snap_mm).vertices
    side = np.sign(vertices[:, 2]).astype(np.int8)
    corner_side = side[soup.faces]
    keep = (corner_side >= 0).all(axis=1) & (corner_side > 0).any(axis=1)
    across = (corner_side > 0).any(axis=1) & (corner_side < 0).any(axis=1)
    vertices, cut = _cut_triangles(vertices, soup.faces[across], corner_side[across])
    return compact(Mesh(vertices, np.concatenate([soup.faces[keep], cut])))


def _cut_triangles(vertices: Vertices, faces: Faces, side: NDArray[np.int8]) -> tuple[Vertices, Faces]:
    """Cut triangles that have corners on both sides; returns all vertices and the new upper triangles."""
    edges = np.concatenate([faces[:, [0, 1]], faces[:, [1, 2]], faces[:, [2, 0]]])
    crossing = np.concatenate([side[:, 0] * side[:, 1], side[:, 1] * side[:, 2], side[:, 2] * side[:, 0]]) < 0
    ordered = np.sort(edges[crossing], axis=1)
    unique, which = np.unique(ordered, axis=0, return_inverse=True)
    p, q = vertices[unique[:, 0]], vertices[unique[:, 1]]
    share = p[:, 2] / (p[:, 2] - q[:, 2])
    fresh = p + share[:, None] * (q - p)
    fresh[:, 2] = 0.0
    middle = np.full(len(edges), -1, np.int64)
    middle[crossing] = len(vertices) + which.ravel()
    middles = middle.reshape(3, -1).T
    ring = np.stack([faces[:, 0], middles[:, 0], faces[:, 1], middles[:, 1], faces[:, 2], middles[:, 2]], axis=1)
    inside = np.stack(
        [side[:, 0] >= 0, middles[:, 0] >= 0, side[:, 1] >= 0, middles[:, 1] >= 0, side[:, 2] >= 0, middles[:, 2] >= 0],
        axis=1,
    )
    return np.concatenate([vertices, fresh]), _fan_rings(ring, inside)


def _fan_rings(ring: NDArray[np.int64], inside: NDArray[np.bool_]) -> Faces:
    """Triangles of each row's kept corners (3 or 4 of 6, in order)."""
    order = np.argsort(~inside, axis=1, kind="stable")
    packed = np.take_along_axis(ring, order, axis=1)
    count = inside.sum(axis=1)
    first = packed[count >= 3][:, [0, 1, 2]]
    second = packed[count == 4][:, [0, 2, 3]]
    return np.concatenate([first, second]).astype(np.int32)


def compact(mesh: Mesh) -> Mesh:
    """The mesh without vertices that no triangle uses.

    Parameters
    ----------
    mesh : any triangles [mm].

    Source: our own.
    """
    used, faces = np.unique(mesh.faces, return_inverse=True)
    return Mesh(mesh.vertices[used], faces.reshape(-1, 3).astype(np.int32))


def open_edges(mesh: Mesh) -> NDArray[np.int32]:
    """(n, 2) directed edges that no neighbor runs the other way, as often as they are missing.

    Parameters
    ----------
    mesh : triangles whose shared corners are one vertex [mm].

    Source: our own.
    """
    edges = np.concatenate([mesh.faces[:, [0, 1]], mesh.faces[:, [1, 2]], mesh.faces[:, [2, 0]]]).astype(np.int64)
    low, high = edges.min(axis=1), edges.max(axis=1)
    direction = np.where(edges[:, 0] < edges[:, 1], 1, -1)
    key = low * len(mesh.vertices) + high
    unique, which = np.unique(key, return_inverse=True)
    net = np.bincount(which.ravel(), weights=direction).astype(np.int64)
    open_keys = np.flatnonzero(net)
    a, b = unique[open_keys] // len(mesh.vertices), unique[open_keys] % len(mesh.vertices)
    times = np.abs(net[open_keys])
    start = np.where(net[open_keys] > 0, a, b)
    end = np.where(net[open_keys] > 0, b, a)
    return np.repeat(np.stack([start, end], axis=1), times, axis=0).astype(np.int32)


def open_borders(cut: Mesh) -> tuple[NDArray[np.int32], NDArray[np.int64]]:
    """(n, 2) open edges away from z = 0, and (n,) for each the number of the connected border that it is of.

    Parameters
    ----------
    cut : triangles over z = 0, open where the plane cut them [mm].

    Source: our own.
    """
    edges = open_edges(cut)
    edges = edges[~(cut.vertices[edges, 2] == 0.0).all(axis=1)]
    n = len(cut.vertices)
    links = coo_matrix((np.ones(len(edges)), (edges[:, 0], edges[:, 1])), shape=(n, n))
    of_vertex = connected_components(links, directed=False)[1]
    return edges, np.unique(of_vertex[edges[:, 0]], return_inverse=True)[1].ravel().astype(np.int64)


def patched(cut: Mesh) -> Mesh:
    """The soup with a fan over every open border away from z = 0, so that space inside and outside part at a hole.

    A border that runs down to the plane has its fan's middle set on the plane, where `capped` closes the rest.

    Parameters
    ----------
    cut : triangles over z = 0, open where the plane cut them [mm].

    Source: our own.
    """
    edges, border = open_borders(cut)
    if len(edges) == 0:
        return cut
    n = len(cut.vertices)
    count = np.bincount(border)
    starts = cut.vertices[edges].mean(axis=1)
    middles = np.stack([np.bincount(border, weights=starts[:, axis]) / count for axis in range(3)], axis=1)
    lean = np.bincount(edges[:, 0], minlength=n) - np.bincount(edges[:, 1], minlength=n)
    middles[border[lean[edges].any(axis=1)], 2] = 0.0
    fans = np.stack([edges[:, 1], edges[:, 0], n + border], axis=1).astype(np.int32)
    return Mesh(np.concatenate([cut.vertices, middles]), np.concatenate([cut.faces, fans]))


def capped(cut: Mesh) -> Mesh:
    """A cut soup with the cone of its open edges on z = 0 from one point of the plane, which closes it there.

    Overlapping triangles of the cone cancel in every signed sum, so winding numbers see the exact cap, whatever its
    outline (holes, islands).

    Parameters
    ----------
    cut : triangles over z = 0, open where the plane cut them [mm].

    Source: our own.
    """
    edges = open_edges(cut)
    edges = edges[(cut.vertices[edges, 2] == 0.0).all(axis=1)]
    if len(edges) == 0:
        return cut
    center = cut.vertices[edges].reshape(-1, 3).mean(axis=0)
    apex = np.full(len(edges), len(cut.vertices), np.int32)
    fan = np.stack([edges[:, 1], edges[:, 0], apex], axis=1).astype(np.int32)
    return Mesh(np.concatenate([cut.vertices, center[None]]), np.concatenate([cut.faces, fan]))


def snapped(mesh: Mesh, snap_mm: float) -> Mesh:
    """The mesh with corners within `snap_mm` of z = 0 set on it.

    Parameters
    ----------
    mesh : any triangles [mm].
    snap_mm : distance from z = 0 up to which a corner is set on it [mm], >= 0.

    Source: our own.
    """
    vertices = mesh.vertices.copy()
    vertices[np.abs(vertices[:, 2]) <= snap_mm, 2] = 0.0
    return Mesh(vertices, mesh.faces)
