"""The seam as lines on the gloved piece: where the border between two pieces meets its surface."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy import ndimage

from moldwright.geometry.contour import level_lines
from moldwright.geometry.field import Sampled
from moldwright.geometry.grid import Field, Grid
from moldwright.geometry.mesh import Mesh
from moldwright.geometry.solid import mesh_of, solid_of
from moldwright.mold.seam_smooth import Evened

Points = NDArray[np.float64]

FINE_STEPS = 2.0
"""Longest edge of the mesh on which the border is followed, in steps of the grid."""
BOARD_MM, FLOOR_MM = 0.05, 0.3
"""Up to here a point lies on the board; up to here over the floor on the flange [mm]."""
LEAST_RING_MM, LEAST_RISE_MM = 40.0, 15.0
"""Shorter rings, and shorter rises from the flange, are left out; there the look along the draw decides: our choice."""
BRIEF_MM = 6.0
"""A touch of the flange this short does not part a line: our choice."""


@dataclass(frozen=True, slots=True, eq=False)
class SeamPart:
    """A piece of the seam's line, (n, 3) points in order [mm]; the last joined to the first where it is closed."""

    points: Points
    closed: bool


_Rise = tuple[SeamPart, tuple[SeamPart, ...]]
"""A part over the flange, and its two ways on over the flange; none of a ring."""


@dataclass(frozen=True, slots=True, eq=False)
class SeamCurve:
    """The seam on the rubber: over the shell's floor, in order, and out over the flange from the wall to its edge.

    wall : longest first. flange : of each open part, in their order, how it goes on from its first point and from its
    last, out to the flange's edge or to where a part begins again.
    """

    wall: tuple[SeamPart, ...]
    flange: tuple[SeamPart, ...]


def seam_curve(gloved: Mesh, sides: Sequence[Field], grid: Grid, floor_mm: float) -> SeamCurve:
    """Follow the seams over the gloved piece.

    Parameters
    ----------
    gloved : core and packing, closed, on z = 0 [mm].
    sides : for each piece the signed distance to its seam [mm], positive where it takes the points.
    grid : of the sides.
    floor_mm : top of the rubber flange, on which the shell stands [mm].

    A line parts a piece from those after it: what it shares with those before it is a line of theirs.

    Source: our own.
    """
    fine = mesh_of(solid_of(gloved).refine_to_length(FINE_STEPS * grid.step_mm))
    rises: list[_Rise] = []
    for number in range(len(sides) - 1):
        before = _largest(sides[:number])
        border = Sampled(_largest(sides[: number + 1]), grid)
        evened = Evened(fine, border)
        for line in level_lines(fine, _at(border, fine.vertices)):
            points = line.of(fine.vertices)
            own = np.ones(len(points), bool) if number == 0 else _at(Sampled(sides[number] - before, grid), points) >= 0
            for part, closed in _parts(points, line.closed, own & (points[:, 2] > BOARD_MM)):
                rises += _rises(evened.line(part, closed), closed, floor_mm + FLOOR_MM)
    rises.sort(key=lambda rise: -length_mm(rise[0].points))
    return SeamCurve(tuple(wall for wall, _ in rises), tuple(part for _, out in rises for part in out))


def _largest(sides: Sequence[Field]) -> Field:
    found: Field = np.maximum.reduce(list(sides)) if len(sides) else np.zeros(0, np.float32)
    return found


def _at(sampled: Sampled, points: Points) -> NDArray[np.float64]:
    index = (points - sampled.grid.origin) / sampled.grid.step_mm
    found: NDArray[np.float64] = ndimage.map_coordinates(sampled.field, index.T, order=1, mode="nearest")
    return found.astype(np.float64)


def length_mm(points: Points) -> float:
    """Length along points in order [mm].

    Parameters
    ----------
    points : (n, 3) in order [mm].

    Source: a closed form.
    """
    return float(np.linalg.norm(np.diff(points, axis=0), axis=1).sum())


def _parts(points: Points, closed: bool, kept: NDArray[np.bool_]) -> list[tuple[Points, bool]]:
    """The runs of a line that are kept; one that is kept whole stays closed."""
    if kept.all():
        return [(points, closed)]
    return [(points[run], False) for run in _runs(kept, closed) if len(run) > 2]


def _runs(chosen: NDArray[np.bool_], closed: bool) -> list[NDArray[np.int64]]:
    """Numbers of neighbors that are chosen, run by run; on a closed line the last run goes on in the first."""
    order = np.arange(len(chosen))
    if closed and not chosen.all():
        order = np.roll(order, -int(np.argmin(chosen)))
    inside = np.flatnonzero(chosen[order])
    if not len(inside):
        return []
    return [order[run] for run in np.split(inside, np.flatnonzero(np.diff(inside) > 1) + 1)]


def _rises(points: Points, closed: bool, top_mm: float) -> list[_Rise]:
    """What of a line stands over the flange, each with its ways on over the flange from both ends."""
    high = points[:, 2] > top_mm
    if closed and high.all():
        return [(SeamPart(points, True), ())] if length_mm(points) >= LEAST_RING_MM else []
    for run in _runs(~high, closed):
        if run[0] > 0 and run[-1] < len(points) - 1 and length_mm(points[run]) <= BRIEF_MM:
            high[run] = True
    runs = [run for run in _runs(high, closed) if length_mm(points[run]) >= LEAST_RISE_MM]
    ends = [0, *(int(run[-1]) for run in runs)]
    starts = [*(int(run[0]) for run in runs), len(points) - 1]
    return [
        (
            SeamPart(points[run], False),
            (
                SeamPart(points[ends[n] : starts[n] + 1][::-1], False),
                SeamPart(points[ends[n + 1] : starts[n + 1] + 1], False),
            ),
        )
        for n, run in enumerate(runs)
    ]
