"""What is still in the glove when it has come off so far: the surface beyond a way from the opening, part by part."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.sparse import coo_matrix
from scipy.sparse.csgraph import connected_components

from moldwright.geometry.contour import LevelLine, level_lines
from moldwright.mold.peel_surface import PeelSurface
from moldwright.plan.peel import Point

Floats = NDArray[np.float64]
Numbers = NDArray[np.int64]

MOST_LEVELS, EDGES_APART = 120, 0.75
"""Loops are taken so many at the most from the opening on, so many edges apart at the least: our own."""
LEAST_MM, LEAST_EDGES = 12.0, 6.0
"""A part whose loops are all shorter, in millimeters and in edges, is texture: our own."""


@dataclass(frozen=True, slots=True, eq=False)
class PeelLoop:
    """A closed line at one way from the opening: rubber that must pass over all that lies beyond it.

    Parameters
    ----------
    edges : (n, 2) corners of the edges that it crosses, in order.
    points : (n, 3) where [mm].
    length_mm : its own [mm].
    stiff_mm : of it, where the rubber is too thick to stretch [mm].
    toward : (3,) square to it, toward what lies beyond; as long as the area it goes round, in mm2.
    """

    edges: Numbers
    points: Floats
    length_mm: float
    stiff_mm: float
    toward: Floats


@dataclass(frozen=True, slots=True, eq=False)
class PeelPart:
    """A connected part of the surface beyond one way from the opening.

    Parameters
    ----------
    level : number of the way, from 0.
    away_mm : the way [mm].
    below : number of the part that holds it, lower down; -1: none.
    loops : its edge: one; several, the longest first, where it is a handle, which the glove goes round.
    """

    level: int
    away_mm: float
    below: int
    loops: tuple[PeelLoop, ...]

    @property
    def handle(self) -> bool:
        """Whether it hangs on at more than one place."""
        return len(self.loops) > 1

    @property
    def points(self) -> Floats:
        """(n, 3) of all its loops [mm]."""
        return np.concatenate([loop.points for loop in self.loops])


@dataclass(frozen=True, slots=True, eq=False)
class PeelParts:
    """All parts, from the opening on: a part comes after the one that holds it.

    Parameters
    ----------
    all : the parts.
    of_corner : (n,) number of the farthest part that a corner of the surface is of, -1 before the first.
    """

    all: tuple[PeelPart, ...]
    of_corner: Numbers


def peel_parts(surface: PeelSurface) -> PeelParts:
    """The parts of a surface.

    Parameters
    ----------
    surface : the inner surface of the glove.

    Source: our own (the levels of a function and how they hang together: Reeb 1946; from memory).
    """
    away, faces = surface.away_mm, surface.mesh.faces
    most_mm = float(away[np.isfinite(away)].max())
    step_mm = max(most_mm / MOST_LEVELS, EDGES_APART * surface.edge_mm)
    links = np.concatenate([faces[:, [0, 1]], faces[:, [1, 2]], faces[:, [2, 0]]])
    links = links[links[:, 0] < links[:, 1]]
    parts: list[PeelPart] = []
    of_corner = np.full(len(away), -1, np.int64)
    for level in range(int(most_mm / step_mm)):
        at_mm = (level + 0.5) * step_mm
        for corners, loops in _beyond(surface, links, at_mm):
            parts.append(PeelPart(level, at_mm, int(of_corner[corners[0]]), loops))
            of_corner[corners] = len(parts) - 1
    return PeelParts(tuple(parts), of_corner)


def opened_handles(parts: PeelParts, divided: Sequence[Point]) -> NDArray[np.bool_]:
    """(n,) whether each part is a handle that is cut open before anything is peeled.

    A divider, or a cut web, opens the handle nearest to it, as far as that goes on from part to part. All edges of such
    a part hang together, each with the next by a hole between them: a cut through one opens them all, for what is
    stopped joins its two sides to one.

    Parameters
    ----------
    parts : of a surface.
    divided : where the holes are that have a divider or a web to cut [mm].

    Source: our own.
    """
    chain = np.full(len(parts.all), -1, np.int64)
    for number, part in enumerate(parts.all):
        if part.handle:
            chain[number] = chain[part.below] if part.below >= 0 and chain[part.below] >= 0 else number
    handles = np.flatnonzero(chain >= 0)
    if not len(handles):
        return chain >= 0
    away = np.array([[_away(parts.all[number].points, at) for number in handles] for at in divided])
    nearest = handles[away.reshape(-1, len(handles)).argmin(axis=1)]
    opened: NDArray[np.bool_] = np.isin(chain, chain[nearest]) & (chain >= 0)
    return opened


def _away(points: Floats, at: Point) -> float:
    return float(np.linalg.norm(points - np.array(at), axis=1).min())


def _beyond(surface: PeelSurface, links: Numbers, at_mm: float) -> Iterator[tuple[Numbers, tuple[PeelLoop, ...]]]:
    """The corners and loops of each part beyond a way that is no texture."""
    away = surface.away_mm
    beyond = (away >= at_mm) & np.isfinite(away)
    number = _numbered(links[beyond[links].all(axis=1)], len(away))
    loops: dict[int, list[PeelLoop]] = {}
    least_mm = max(LEAST_MM, LEAST_EDGES * surface.edge_mm)
    for line in level_lines(surface.mesh, away - at_mm):
        high = line.edges[0][np.argmax(away[line.edges[0]])]
        if line.closed:
            loops.setdefault(int(number[high]), []).append(_loop(surface, line))
    for part, edge in sorted(loops.items()):
        if max(loop.length_mm for loop in edge) >= least_mm:
            longest_first = sorted(edge, key=lambda loop: -loop.length_mm)
            yield np.flatnonzero(beyond & (number == part)), tuple(longest_first)


def _numbered(links: Numbers, count: int) -> Numbers:
    graph = coo_matrix((np.ones(len(links), bool), (links[:, 0], links[:, 1])), shape=(count, count))
    return np.asarray(connected_components(graph, directed=False)[1], np.int64)


def _loop(surface: PeelSurface, line: LevelLine) -> PeelLoop:
    points = line.of(surface.mesh.vertices)
    lengths = np.linalg.norm(np.roll(points, -1, axis=0) - points, axis=1)
    stiff = line.of(surface.stiff[:, None].astype(np.float64)).ravel() > 0.5
    either = (lengths + np.roll(lengths, 1)) / 2
    return PeelLoop(
        line.edges, points, float(lengths.sum()), float(either[stiff].sum()), _toward(surface, line, points)
    )


def _toward(surface: PeelSurface, line: LevelLine, points: Floats) -> Floats:
    """Half the sum of the cross products of neighbors (Newell), turned the way in which the surface goes on."""
    middle = points.mean(axis=0)
    area = np.cross(points - middle, np.roll(points, -1, axis=0) - middle).sum(axis=0) / 2
    ends = surface.mesh.vertices[line.edges]
    rises = np.diff(surface.away_mm[line.edges], axis=1) > 0
    way = (np.where(rises, 1.0, -1.0) * (ends[:, 1] - ends[:, 0])).sum(axis=0)
    turned: Floats = area if float(area @ way) >= 0 else -area
    return turned
