"""The seam as lines on the gloved piece: where the border between two pieces meets its surface."""

from __future__ import annotations

from collections.abc import Callable, Sequence
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


@dataclass(frozen=True, slots=True, eq=False)
class SeamRise:
    """A line over the shell's floor, up to which a piece is laid.

    Parameters
    ----------
    part : its points.
    piece : whose edge it is, from 1 in the order of removal: of the two that meet there the one that is laid first.
    out : how it goes on over the flange from its first point and from its last, out to the flange's edge or to where
        another line begins; None where it ends on another line. Of a ring nothing.
    """

    part: SeamPart
    piece: int
    out: tuple[SeamPart | None, ...] = ()


@dataclass(frozen=True, slots=True, eq=False)
class SeamCurve:
    """The seam on the rubber: its rises, those of the piece that is laid first at first, of one piece the longest."""

    rises: tuple[SeamRise, ...]

    @property
    def wall(self) -> tuple[SeamPart, ...]:
        """What is over the shell's floor."""
        return tuple(rise.part for rise in self.rises)

    @property
    def flange(self) -> tuple[SeamPart, ...]:
        """The ways over the flange, in the order of the rises' ends."""
        return tuple(out for rise in self.rises for out in rise.out if out is not None)


def seam_curve(gloved: Mesh, sides: Sequence[Field], grid: Grid, floor_mm: float) -> SeamCurve:
    """Follow the seams over the gloved piece.

    Parameters
    ----------
    gloved : core and packing, closed, on z = 0 [mm].
    sides : for each piece the signed distance to its seam [mm], positive where it takes the points.
    grid : of the sides.
    floor_mm : top of the rubber flange, on which the shell stands [mm].

    Pieces are laid in turn, the last off first: a line parts a piece from all that are laid after it, and what it
    shares with those before it is a line of theirs.

    Source: our own.
    """
    fine = mesh_of(solid_of(gloved).refine_to_length(FINE_STEPS * grid.step_mm))
    rises: list[SeamRise] = []
    for number in range(len(sides) - 1, 0, -1):
        border = Sampled(_largest(sides[:number]), grid)
        evened, own = Evened(fine, border), _own(sides, number, grid)
        for line in level_lines(fine, _at(border, fine.vertices)):
            points = line.of(fine.vertices)
            for part, closed in _parts(points, line.closed, own(points) & (points[:, 2] > BOARD_MM)):
                rises += _rises(SeamPart(evened.line(part, closed), closed), number + 1, floor_mm + FLOOR_MM)
    return SeamCurve(tuple(sorted(rises, key=lambda rise: (-rise.piece, -length_mm(rise.part.points)))))


def _own(sides: Sequence[Field], number: int, grid: Grid) -> Callable[[Points], NDArray[np.bool_]]:
    """Whether points on the border to all that are laid later are a piece's own, and not of one that is laid before."""
    if number == len(sides) - 1:
        return lambda points: np.ones(len(points), bool)
    ahead = Sampled(sides[number] - _largest(sides[number + 1 :]), grid)
    return lambda points: _at(ahead, points) >= 0


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


def _rises(line: SeamPart, piece: int, top_mm: float) -> list[SeamRise]:
    """What of a line stands over the flange, each with its ways on over the flange from both ends."""
    points = line.points
    high = points[:, 2] > top_mm
    if line.closed and high.all():
        return [SeamRise(line, piece)] if length_mm(points) >= LEAST_RING_MM else []
    for run in _runs(~high, line.closed):
        if run[0] > 0 and run[-1] < len(points) - 1 and length_mm(points[run]) <= BRIEF_MM:
            high[run] = True
    runs = [run for run in _runs(high, line.closed) if length_mm(points[run]) >= LEAST_RISE_MM]
    ends = [0, *(int(run[-1]) for run in runs)]
    starts = [*(int(run[0]) for run in runs), len(points) - 1]
    out = [(points[ends[n] : starts[n] + 1], points[ends[n + 1] : starts[n + 1] + 1]) for n in range(len(runs))]
    return [
        SeamRise(SeamPart(points[run], False), piece, (_way_out(before[::-1]), _way_out(after)))
        for run, (before, after) in zip(runs, out, strict=True)
    ]


def _way_out(points: Points) -> SeamPart | None:
    """A way over the flange; none where the line ends over it."""
    return SeamPart(points, False) if len(points) > 1 else None
