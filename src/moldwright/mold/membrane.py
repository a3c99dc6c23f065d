"""The glove peeled off as a sheet of rubber: how far it stretches, where most, and whether it comes off.

It is held by the edge at its opening, which hands spread past all that is still above, and drawn over the piece inside
out. How far it stretches does not depend on the rubber; forces go with its modulus.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from math import sqrt

import numpy as np
from numpy.typing import NDArray
from scipy.sparse import coo_matrix
from scipy.sparse.csgraph import dijkstra

from moldwright.geometry.mesh import Mesh
from moldwright.mold.membrane_body import coarse_field, open_edges, sheet_on, without_holes
from moldwright.mold.membrane_contact import obstacle_of
from moldwright.mold.membrane_pull import DrawnSheet, PullSettings, drawn_off
from moldwright.mold.membrane_sheet import RubberSheet, sheet_of
from moldwright.mold.strained import Point, Strained, StrainSpot

Floats = NDArray[np.float64]

PER_STEP = 2.41
"""Triangles for each square of a step of the surface, as found: our own."""
DEEPEST_MM = 1.0
"""A force is told only where the sheet nowhere got further into the body than that: our own."""
AGREES = 0.3
"""Forces agree that differ by no more than this share: our own."""
LONGER = 1.6
"""Stretched, the longest way from the edge over the sheet is so many times itself at most: our own."""
SPOTS = 5
APART_SHARE = 0.12
"""Two places are told apart that are further from each other than this share of the height: our own."""
LEAST = 1.1
"""A place is told only where it stretches at least so much: our own."""


@dataclass(frozen=True, slots=True, eq=False)
class SheetPeeled:
    """A glove as a sheet, and how it was drawn off."""

    sheet: RubberSheet
    drawn: DrawnSheet

    def below(self, share: float) -> float:
        """The stretch that so much of the sheet's area stays at or below.

        Parameters
        ----------
        share : of the area, 0 to 1.

        Source: our own.
        """
        order = np.argsort(self.drawn.stretch)
        part = np.cumsum(self.sheet.area[order]) / self.sheet.area.sum()
        return float(self.drawn.stretch[order][min(int(np.searchsorted(part, share)), len(order) - 1)])


def step_for(body: Mesh, triangles: int) -> float:
    """The step of a body's grid on which a sheet has about so many triangles [mm]; about as long are their sides.

    Parameters
    ----------
    body : that it is drawn off.
    triangles : of the sheet.

    Source: `PER_STEP`.
    """
    return sqrt(PER_STEP * body.area_mm2 / triangles)


def sheet_peeled(
    body: Mesh,
    off_mm: float,
    triangles: int,
    settings: PullSettings,
    told: Callable[[float], None],
    thin_mm: float = 0.0,
) -> SheetPeeled:
    """A sheet that fits a body, drawn off it.

    Parameters
    ----------
    body : closed, standing on z = 0, one opening there [mm].
    off_mm : how far outside of it the sheet lies [mm]; less than 0: inside.
    triangles : of the sheet, about.
    settings : how it is drawn.
    told : called with the share done; it may raise to cancel.
    thin_mm : what ends freely and is thinner is left out [mm].

    Source: our own; see `membrane_sheet` and `membrane_pull`.
    """
    field = without_holes(coarse_field(body, step_for(body, triangles), off_mm, thin_mm))
    mesh = sheet_on(field)
    edge = open_edges(mesh)[0]
    travel_mm = float(mesh.vertices[:, 2].max()) + LONGER * _longest_way(mesh, edge)
    sheet = sheet_of(mesh)
    return SheetPeeled(sheet, drawn_off(sheet, obstacle_of(field), edge, travel_mm, settings, told))


def strained(gloves: Sequence[SheetPeeled]) -> Strained:
    """What peelings of one glove in coarser and finer triangles tell, in plain values.

    A sheet that catches on a corner of its own triangles is stretched more, never less: the one that comes off with the
    least is told. A force is told where all came off and agree.

    Parameters
    ----------
    gloves : of one glove, drawn off.

    Source: our own.
    """
    best = min(gloves, key=lambda glove: (not glove.drawn.off, glove.below(0.99)))
    return Strained(
        off=best.drawn.off,
        caught=_caught(best),
        most_95=best.below(0.95),
        most_99=best.below(0.99),
        spots=_spots(best),
        field=_field(best),
        force_mm=_force_mm(gloves),
        triangles=len(best.sheet.faces),
    )


def _caught(glove: SheetPeeled) -> Point | None:
    if glove.drawn.caught is None:
        return None
    x, y, z = glove.drawn.caught.tolist()
    return x, y, z


def _force_mm(gloves: Sequence[SheetPeeled]) -> float | None:
    if any(not glove.drawn.off or glove.drawn.deepest_mm >= DEEPEST_MM for glove in gloves):
        return None
    forces = [float(glove.drawn.force.max()) for glove in gloves]
    return max(forces) if max(forces) <= (1 + AGREES) * min(forces) else None


def _field(glove: SheetPeeled) -> tuple[tuple[float, float, float, float], ...]:
    """The middles of its triangles and the mean stretch about each."""
    sheet = glove.sheet
    told = np.column_stack([sheet.rest[sheet.faces].mean(axis=1), _about(sheet, glove.drawn.stretch)])
    return tuple((x, y, z, stretch) for x, y, z, stretch in np.round(told, 4).tolist())


def _spots(glove: SheetPeeled) -> tuple[StrainSpot, ...]:
    """Where it stretches most, each place apart from those before it: the mean about it, by area."""
    sheet, stretch = glove.sheet, glove.drawn.stretch
    middles = sheet.rest[sheet.faces].mean(axis=1)
    apart = APART_SHARE * float(sheet.rest[:, 2].max())
    smooth = _about(sheet, stretch)
    left = smooth.copy()
    spots: list[StrainSpot] = []
    while len(spots) < SPOTS and left.max() >= LEAST:
        at = int(left.argmax())
        x, y, z = middles[at].tolist()
        spots.append(StrainSpot((x, y, z), float(smooth[at])))
        left[np.linalg.norm(middles - middles[at], axis=1) < apart] = 0.0
    return tuple(spots)


def _about(sheet: RubberSheet, values: Floats) -> Floats:
    """(m,) each triangle's mean with all that share a corner with it: one triangle alone tells nothing."""
    mean: Floats = sheet.at_corners(values)[sheet.faces].mean(axis=1)
    return mean


def _longest_way(mesh: Mesh, edge: NDArray[np.int64]) -> float:
    """The furthest that a corner is from the open edge along the sides of triangles [mm]."""
    f = mesh.faces
    sides = np.concatenate([f[:, [0, 1]], f[:, [1, 2]], f[:, [2, 0]]])
    length = np.linalg.norm(mesh.vertices[sides[:, 0]] - mesh.vertices[sides[:, 1]], axis=1)
    count = len(mesh.vertices)
    sides = np.sort(sides, axis=1)
    _, first = np.unique(sides[:, 0].astype(np.int64) * count + sides[:, 1], return_index=True)
    graph = coo_matrix((length[first], tuple(sides[first].T)), shape=(count, count)).tocsr()
    away = dijkstra(graph, directed=False, indices=edge, min_only=True)
    return float(away[np.isfinite(away)].max())
