"""A stand for pouring: boards on edge that cross each other and bear the turned shell by its base flange.

The flange is flat and level, the shell's top is not: so the mold hangs by the flange, its mouth as level as the boards
are high. Between, a board is cut to the shell turned over, a gap below it by a ball rolled all about it and never over
it: the shell goes straight down into the stand and straight up out of it.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import product
from math import floor
from typing import Any

import numpy as np
from numpy.typing import NDArray
from scipy import ndimage
from scipy.spatial import ConvexHull, QhullError

from moldwright.geometry.mesh import Mesh
from moldwright.geometry.raster import first_seen
from moldwright.geometry.solid import mesh_of, solid_of
from moldwright.mold.stand_found import Load, Place, StandFound, StandSought, tilt_deg
from moldwright.plan.seam import ViewSide
from moldwright.plan.stand import LEAST_DEG, BoardSlot, EdgePoint, NoStand, StandBoard, runs_across

ITSELF_DEG = 20.0
"""A shell that falls over only beyond it needs no stand: our own."""
FLAT_MM = 0.5
"""What is so near its lowest point a shell stands on; so flat is a flange: our own."""
APART = (0.14, 0.18, 0.22, 0.26, 0.3, 0.34)
"""Shares of the shell's width by which a board stands beside the middle, tried together."""
SEAT_MM = 12.0
"""So much of a board bears the flange at the least: our own."""
NARROW_MM = 15.0
"""A post of a board narrower than this breaks off and is left out: our own."""
CELLS = 400
FIRST = frozenset((ViewSide.FRONT, ViewSide.LEFT))
"""Of two boards the ones at lower places."""
NEAR_MM = 4.0
"""How far straight cuts stay below the edge that would do: our own."""

Heights = NDArray[np.float64]
Cells = NDArray[np.bool_]


@dataclass(frozen=True, slots=True)
class StandSettings:
    """Dimensions of a stand [mm]: thickness of its boards, gap between them and the shell, what is left free under the
    shell's lowest point."""

    thick_mm: float
    gap_mm: float
    under_mm: float


BOARDS = StandSettings(18.0, 6.0, 40.0)
"""Of 18 mm board; a laid shell comes out some millimeters thicker or thinner, and clamps stand on its seam: common
practice, no source."""


@dataclass(frozen=True, slots=True, eq=False)
class _Map:
    """The turned shell by cells across the board: how high over its lowest point it begins, how high a board may reach
    there [mm], infinite beside it; where that is its flange."""

    shell: Heights
    free: Heights
    bears: Cells
    x: NDArray[np.float64]
    y: NDArray[np.float64]

    def along(self, side: ViewSide) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
        """Places along a board of that side, and across it [mm].

        Parameters
        ----------
        side : toward which the board stands.

        Source: our own.
        """
        return (self.x, self.y) if runs_across(side) else (self.y, self.x)


@dataclass(frozen=True, slots=True, eq=False)
class _Tried:
    """Four boards and where the mold rests on them."""

    boards: tuple[StandBoard, ...]
    rests_on: tuple[Place, ...]
    foot: tuple[Place, ...]
    tips_deg: float

    @property
    def good(self) -> tuple[bool, int, float]:
        """Whether it is steady, how many ends bear, and how far it tilts."""
        return self.tips_deg >= LEAST_DEG, sum(len(board.bears) for board in self.boards), self.tips_deg


def stand_for(
    shell: Sequence[Mesh], glove: Mesh, body: Mesh, flange_mm: float, s: StandSettings = BOARDS
) -> StandSought:
    """The stand of a mold, or why boards do not bear it steadily.

    Parameters
    ----------
    shell : its pieces as they stand on the board [mm].
    glove, body : what is in it: the rubber, and what a full cast fills [mm].
    flange_mm : top of the shell's base flange [mm].
    s : the stand's dimensions.

    Source: our own.
    """
    top_mm = max(float(piece.bounds_mm[1][2]) for piece in shell)
    seen = _map_of(shell, top_mm, top_mm - flange_mm, s)
    itself = _hull(_cells(seen, seen.shell <= FLAT_MM), 0.0)
    loads = _loads(shell, glove, body, top_mm)
    if itself and min(tilt_deg(load.at, itself) for load in (loads[0], loads[1], *loads[2])) >= ITSELF_DEG:
        return StandSought(StandFound((), 0.0, 0.0, top_mm, itself, itself, *loads))
    mouth_mm = s.under_mm + s.gap_mm + top_mm
    loads = _loads(shell, glove, body, mouth_mm)
    middles = [load.at for load in (loads[0], loads[1], *loads[2])]
    tried = (_tried(seen, middles, mouth_mm - flange_mm, beside, s) for beside in product(APART, APART))
    best = max((each for each in tried if each is not None), key=lambda each: each.good, default=None)
    if best is None:
        return StandSought(NoStand.NOT_BORNE)
    if best.tips_deg < LEAST_DEG:
        return StandSought(NoStand.FALLS_OVER)
    return StandSought(StandFound(best.boards, s.thick_mm, s.gap_mm, mouth_mm, best.rests_on, best.foot, *loads))


def _map_of(shell: Sequence[Mesh], top_mm: float, deep_mm: float, s: StandSettings) -> _Map:
    """The shell seen from above as it stands, which is from below as it is poured; its flange `deep_mm` up then."""
    low = np.min([piece.bounds_mm[0] for piece in shell], axis=0)[:2]
    high = np.max([piece.bounds_mm[1] for piece in shell], axis=0)[:2]
    step = max(1.0, float((high - low).max()) / CELLS)
    beside = int(np.ceil(s.gap_mm / step)) + 2
    wide, tall = (int(np.ceil(side / step)) + 2 * beside for side in high - low)
    corner = low - beside * step
    places = [np.column_stack([(p.vertices[:, :2] - corner) / step, top_mm - p.vertices[:, 2] + 1.0]) for p in shell]
    hits = first_seen(places, [piece.faces for piece in shell], wide, tall)
    depth = hits.distance_mm.reshape(tall, wide).T.astype(np.float64) - 1.0
    seen = np.minimum(depth, 1e6)
    ball: Any = _ball(s.gap_mm, step)
    free: Heights = ndimage.grey_erosion(seen, structure=ball, mode="nearest")
    flat = ndimage.binary_erosion(np.abs(seen - deep_mm) < FLAT_MM, ball >= 0.0)
    x, y = (corner[k] + (np.arange(n) + 0.5) * step for k, n in ((0, wide), (1, tall)))
    return _Map(seen, np.where(flat, deep_mm, np.minimum(free, deep_mm - s.gap_mm)), flat, x, y)


def _ball(radius_mm: float, step_mm: float) -> Heights:
    """How far a ball reaches below its middle, by cells; nowhere beside it."""
    reach = np.arange(-int(radius_mm // step_mm) - 1, int(radius_mm // step_mm) + 2) * step_mm
    far = reach[:, None] ** 2 + reach[None, :] ** 2
    return np.where(far <= radius_mm**2, np.sqrt(np.maximum(radius_mm**2 - far, 0.0)), -1e6)


def _cells(seen: _Map, where: Cells) -> NDArray[np.float64]:
    column, row = np.nonzero(where)
    return np.column_stack([seen.x[column], seen.y[row]])


def _loads(shell: Sequence[Mesh], glove: Mesh, body: Mesh, table_mm: float) -> tuple[Load, Load, tuple[Load, ...]]:
    """Shell, glove, and the cast a quarter, half, three quarters and all of the height full."""
    solid, top_mm = solid_of(body), float(body.bounds_mm[1][2])
    parts = [mesh_of(solid.trim_by_plane((0.0, 0.0, 1.0), top_mm * share)) for share in (0.75, 0.5, 0.25)]
    return _load(shell, table_mm), _load([glove], table_mm), tuple(_load([part], table_mm) for part in (*parts, body))


def _load(meshes: Sequence[Mesh], table_mm: float) -> Load:
    """Volume and middle of solids, as high over the table as they hang turned over."""
    volumes = np.array([mesh.volume_ml for mesh in meshes])
    x, y, z = (volumes[:, None] * np.array([_middle(mesh) for mesh in meshes])).sum(axis=0) / volumes.sum()
    return Load(float(volumes.sum()), (float(x), float(y), float(table_mm - z)))


def _middle(mesh: Mesh) -> NDArray[np.float64]:
    corners = mesh.corners
    volumes = np.einsum("ij,ij->i", corners[:, 0], np.cross(corners[:, 1], corners[:, 2]))
    middle: NDArray[np.float64] = (volumes[:, None] * corners.sum(axis=1)).sum(axis=0) / (4.0 * volumes.sum())
    return middle


def _hull(points: NDArray[np.float64], z: float) -> tuple[Place, ...]:
    """Corners about points, counterclockwise; none where they are on a line."""
    try:
        corners = points[ConvexHull(points).vertices] if len(points) > 2 else points[:0]
    except QhullError:
        return ()
    return tuple((float(x), float(y), z) for x, y in corners)


def _tried(
    seen: _Map, middles: Sequence[Place], rim_mm: float, beside: tuple[float, float], s: StandSettings
) -> _Tried | None:
    """Two boards each way so far beside the middle; None where fewer than three places bear the flange."""
    boards = []
    for side in ViewSide:
        places = seen.along(side)[1]
        met = places[(seen.free < 1e6).any(axis=0 if runs_across(side) else 1)]
        middle = float(np.mean([at[1 if runs_across(side) else 0] for at in middles]))
        off = float(np.ptp(met)) * beside[0 if runs_across(side) else 1]
        boards.append(_board(seen, side, middle - off if side in FIRST else middle + off, rim_mm, s))
    ends = [(at, board.at_mm, board.side) for board in boards for at in board.bears]
    rests_on = _hull(_across(ends), rim_mm)
    if not rests_on:
        return None
    foot = _hull(_across([(at, b.at_mm, b.side) for b in boards for at in (b.edge[0][0], b.edge[-1][0])]), 0.0)
    tips_deg = min(tilt_deg(at, edges) for at in middles for edges in (rests_on, foot))
    return _Tried(_slotted(boards, s.thick_mm), rests_on, foot, tips_deg)


def _across(places: Sequence[tuple[float, float, ViewSide]]) -> NDArray[np.float64]:
    """Places along boards as places across the table."""
    return np.array([(along, at) if runs_across(side) else (at, along) for along, at, side in places]).reshape(-1, 2)


def _board(seen: _Map, side: ViewSide, at_mm: float, rim_mm: float, s: StandSettings) -> StandBoard:
    """One board by the lowest of what is free over all of its thickness."""
    along, across = seen.along(side)
    step = float(along[1] - along[0])
    under = np.abs(across - at_mm) <= s.thick_mm / 2 + step
    free, bears = (grid if runs_across(side) else grid.T for grid in (seen.free, seen.bears))
    edge = np.minimum(s.under_mm + s.gap_mm + free[:, under].min(axis=1), rim_mm)
    edge = ndimage.grey_opening(edge, size=(max(3, round(NARROW_MM / step)),), mode="nearest")
    borne = bears[:, under].all(axis=1) & (edge > rim_mm - FLAT_MM)
    edge[borne] = rim_mm
    runs, count = ndimage.label(borne)
    ends = [along[runs == n] for n in range(1, count + 1)]
    seats = [(float(run[0]), float(run[-1])) for run in ends if len(run) * step >= SEAT_MM]
    met = along[free[:, under].min(axis=1) < 1e6]
    first, last = (seats[0][0], seats[-1][1]) if len(seats) > 1 else (float(met[0]), float(met[-1]))
    inner = (along >= first) & (along <= last)
    edge_of = _cut_straight(np.column_stack([along, edge])[inner], borne[inner])
    return StandBoard(side, round(at_mm, 1), edge_of, (), tuple(round((a + b) / 2, 1) for a, b in seats))


def _cut_straight(points: NDArray[np.float64], borne: Cells) -> tuple[EdgePoint, ...]:
    """The edge from end to end in few straight cuts, never above it; where the flange rests it is the edge itself."""
    slack = np.where(borne, 0.0, NEAR_MM)
    low, high = points[:, 1] - 2 * slack, points[:, 1]
    aimed = np.column_stack([points[:, 0], points[:, 1] - slack])
    kept, start = [0], 0
    while start < len(points) - 1:
        end = start + 1
        while end + 1 < len(points) and _within(aimed, low, high, start, end + 1):
            end += 1
        kept.append(end)
        start = end
    return tuple((round(float(x), 1), floor(10.0 * z) / 10.0) for x, z in aimed[kept])


def _within(aimed: NDArray[np.float64], low: Heights, high: Heights, start: int, end: int) -> bool:
    """Whether a straight line between two points stays between what is lowest and highest there."""
    x, part = aimed[:, 0], slice(start, end + 1)
    line = np.interp(x[part], (x[start], x[end]), (aimed[start, 1], aimed[end, 1]))
    return bool((line >= low[part] - 1e-9).all() and (line <= high[part] + 1e-9).all())


def _slotted(boards: Sequence[StandBoard], thick_mm: float) -> tuple[StandBoard, ...]:
    """Slots half as deep as the lower of two boards is high where they cross: in those from left to right from above,
    in the others from below."""
    return tuple(
        replace(
            board,
            slots=tuple(_slot(board, other, thick_mm) for other in boards if other.across != board.across),
        )
        for board in boards
    )


def _slot(board: StandBoard, other: StandBoard, thick_mm: float) -> BoardSlot:
    mine, its = lowest_over(board, other.at_mm, thick_mm), lowest_over(other, board.at_mm, thick_mm)
    half = round(min(mine, its) / 2, 1)
    if not board.across:
        return BoardSlot(other.at_mm, 0.0, half)
    return BoardSlot(other.at_mm, half, float(_edge_over(board, other.at_mm, thick_mm).max()))


def lowest_over(board: StandBoard, at_mm: float, wide_mm: float) -> float:
    """The lowest point of a board's edge over a crossing [mm].

    Parameters
    ----------
    board : one board.
    at_mm : the crossing's middle along it [mm].
    wide_mm : how wide it is [mm].

    Source: arithmetic.
    """
    return float(_edge_over(board, at_mm, wide_mm).min())


def _edge_over(board: StandBoard, at_mm: float, wide_mm: float) -> Heights:
    """How high the edge is over a crossing, at its corners and both ends."""
    x, z = np.array(board.edge).T
    at = np.concatenate([[at_mm - wide_mm / 2, at_mm + wide_mm / 2], x[np.abs(x - at_mm) < wide_mm / 2]])
    heights: Heights = np.interp(at, x, z)
    return heights
