"""Where the shell splits: the two draw directions and the seam, by minimum cuts on a coarse grid."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy import ndimage

from moldwright.errors import NoSafePlan
from moldwright.geometry.cut import two_way_cut
from moldwright.geometry.directions import hull_normals, upper_directions
from moldwright.geometry.field import solid_band
from moldwright.geometry.grid import Field, Grid
from moldwright.geometry.mesh import Mesh
from moldwright.geometry.shadow import binary_shadow, least_along
from moldwright.geometry.sign import Mask
from moldwright.progress import Progress, silent

Directions = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class SplitSettings:
    """How the split is searched. Weights in ml; common practice, no source.

    seam_ml_per_mm : rubber one would rather pack than make the seam a millimeter longer.
    least_share : each piece holds at least this share of the space about the core.
    least_angle_deg : the two draws open at least this much.
    """

    seam_ml_per_mm: float = 0.015
    least_share: float = 0.2
    least_angle_deg: float = 110.0
    tilts_deg: tuple[float, ...] = (0, 12, 24, 36)
    shortlist: int = 6


@dataclass(frozen=True, slots=True, eq=False)
class CoarseSplit:
    """The winning split: directions (2, 3), and for each point of `grid` which piece may take it.

    first, second : disjoint masks; together the convex space about the core.
    energy_ml, fill_ml : what the cut cost, and the rubber among it.
    """

    directions: Directions
    grid: Grid
    first: Mask
    second: Mask
    energy_ml: float
    fill_ml: float

    @property
    def least_share(self) -> float:
        """The smaller piece's share of the space about the core."""
        one, other = int(self.first.sum()), int(self.second.sum())
        return min(one, other) / max(1, one + other)

    def smooth_sides(self) -> Field:
        """Which piece takes each point, 1 for the first to -1: carried into the core, and smoothed.

        Source: our own.
        """
        sides = np.zeros(self.grid.shape, np.float32)
        sides[self.first] = 1.0
        sides[self.second] = -1.0
        index = ndimage.distance_transform_edt(sides == 0, return_distances=False, return_indices=True)
        smooth: Field = ndimage.gaussian_filter(sides[tuple(index)], 1.0, mode="nearest")
        return smooth


def coarse_grid(core: Mesh, width_mm: float, floor_mm: float, step_mm: float) -> Grid:
    """Points about the core from the floor up, far enough out for the shell.

    Parameters
    ----------
    core : closed, standing on the board [mm].
    width_mm : how far the shell reaches beyond it [mm], >= 0.
    floor_mm : height from which the shell stands [mm].
    step_mm : spacing of the points [mm], > 0.

    Source: our own.
    """
    low, high = core.bounds_mm
    margin = width_mm + 2 * step_mm
    grid = Grid.around(low, high, step_mm, margin)
    layers = int(np.ceil((high[2] + margin - floor_mm) / step_mm)) + 1
    origin = (grid.origin_mm[0], grid.origin_mm[1], floor_mm + 0.5 * step_mm)
    return Grid(origin, step_mm, (grid.shape[0], grid.shape[1], layers))


def space_distance(core: Mesh, grid: Grid) -> Field:
    """How far each point lies outside the convex space of the core and its shadow on the board [mm].

    The space is a discrete oriented polytope of 86 half-spaces; negative inside.

    Parameters
    ----------
    core : closed, standing on the board [mm].
    grid : the points that are asked about.

    Source: k-DOPs: Klosowski et al. 1998, "Efficient collision detection using bounding volume hierarchies of k-DOPs",
    IEEE TVCG 4 (1).
    """
    points = _hull_points(core)
    x, y, z = (grid.axis(n).astype(np.float32) for n in range(3))
    out = np.full(grid.shape, -np.inf, np.float32)
    side = np.empty(grid.shape, np.float32)
    for normal in hull_normals().astype(np.float32):
        plan = normal[0] * x[:, None] + normal[1] * y[None, :] - (points @ normal).max()
        np.add(plan[:, :, None], (normal[2] * z)[None, None, :], out=side)
        np.maximum(out, side, out=out)
    return out


def _hull_points(core: Mesh) -> NDArray[np.float32]:
    """Corners of the core that may reach farthest in some direction, and their shadows on the board.

    Source: our own.
    """
    points = np.concatenate([core.vertices, core.vertices * np.array([1.0, 1.0, 0.0])])
    return points.astype(np.float32)


def pair_bounds(core: Mask, space: Mask, directions: Directions) -> NDArray[np.int64]:
    """(n, n) points hidden along both of two directions: no split along them needs less fill.

    Parameters
    ----------
    core : points of the body.
    space : points that the shell may fill, or the body does.
    directions : (n, 3) unit vectors.

    Source: our own.
    """
    free = space & ~core
    bits = [np.packbits(binary_shadow(core, d)[free]) for d in directions]
    table = np.stack(bits)
    padded = np.zeros((table.shape[0], -(-table.shape[1] // 8) * 8), np.uint8)
    padded[:, : table.shape[1]] = table
    words = padded.view(np.uint64)
    counts = np.zeros((len(words), len(words)), np.int64)
    for n in range(len(words)):
        counts[n, n:] = np.bitwise_count(words[n] & words[n:]).sum(axis=1)
    return np.maximum(counts, counts.T)


def shortlist(bounds: NDArray[np.int64], directions: Directions, settings: SplitSettings) -> list[tuple[int, int]]:
    """The pairs with the least bounds that open wide enough and are not near twins of better ones.

    Parameters
    ----------
    bounds : (n, n) points hidden along both of two directions.
    directions : (n, 3) unit vectors.
    settings : how many, and how wide they open.

    Source: our own.
    """
    i, j = np.triu_indices(len(directions), 1)
    cosine = (directions[i] * directions[j]).sum(axis=1)
    wide = cosine <= np.cos(np.radians(settings.least_angle_deg)) + 1e-9
    i, j, cosine = i[wide], j[wide], cosine[wide]
    tilt = directions[i, 2] + directions[j, 2]
    order = np.lexsort((i, np.round(tilt, 3), np.round(cosine, 2), bounds[i, j]))
    chosen: list[tuple[int, int]] = []
    for n in order:
        pair = (int(i[n]), int(j[n]))
        if all(_apart(directions, pair, other) for other in chosen):
            chosen.append(pair)
        if len(chosen) == settings.shortlist:
            break
    return chosen


def _apart(directions: Directions, pair: tuple[int, int], other: tuple[int, int], least_deg: float = 14.0) -> bool:
    """Whether two pairs of directions differ by more than `least_deg` in one of their members."""
    a, b = directions[list(pair)], directions[list(other)]
    twin = max((a * b).sum(axis=1).min(), (a * b[::-1]).sum(axis=1).min())
    return bool(twin < np.cos(np.radians(least_deg)))


@dataclass(frozen=True, slots=True, eq=False)
class Space:
    """The space about a core that a shell may fill, on the search's grid.

    field : signed distance to the core, clipped to +-3 steps [mm].
    free : points that a piece may take.
    width_mm : how far the space reaches beyond the hull of the core.
    """

    grid: Grid
    field: Field
    free: Mask
    width_mm: float

    @property
    def body(self) -> Mask:
        """The points of the core."""
        inside: Mask = self.field <= 0
        return inside


def space_about(core: Mesh, width_mm: float, floor_mm: float, step_mm: float) -> Space:
    """Sample a core, and the convex space about it from the floor up.

    Parameters
    ----------
    core : body and rubber as one closed solid [mm].
    width_mm : reach of the shell from the core (seam flange) [mm].
    floor_mm : height over the board from which the shell stands [mm].
    step_mm : step of the search's grid [mm].

    Source: our own.
    """
    grid = coarse_grid(core, width_mm, floor_mm, step_mm)
    field = solid_band(core, grid, 3 * step_mm)
    return Space(grid, field, (space_distance(core, grid) <= width_mm) & (field > 0), width_mm)


def split_in_two(
    core: Mesh,
    width_mm: float,
    floor_mm: float,
    step_mm: float,
    settings: SplitSettings,
    progress: Progress = silent,
) -> CoarseSplit:
    """Search both draw directions and the seam of a two-piece shell about a core.

    Parameters
    ----------
    core : body and rubber as one closed solid [mm].
    width_mm : reach of the shell from the core (seam flange) [mm].
    floor_mm : height over the board from which the shell stands [mm].
    step_mm : step of the search's grid [mm].
    settings : how the split is searched.
    progress : told the stage.

    Raises NoSafePlan where no pair of draws leaves two real pieces.

    Source: our own, on `geometry.cut.two_way_cut`.
    """
    space = space_about(core, width_mm, floor_mm, step_mm)
    candidates = upper_directions(tilts_deg=settings.tilts_deg)
    pairs = shortlist(pair_bounds(space.body, space.free | space.body, candidates), candidates, settings)
    found = []
    for number, pair in enumerate(pairs):
        progress("split the shell", number / len(pairs))
        found.append(split_along(space, candidates[list(pair)], settings))
    return best_of(found, settings)


def split_along(space: Space, draws: Directions, settings: SplitSettings) -> CoarseSplit:
    """The seam that costs least for two given draws.

    Parameters
    ----------
    space : what the pieces may fill.
    draws : (2, 3) unit vectors.
    settings : what a millimeter of seam is worth.

    Source: our own, on `geometry.cut.two_way_cut`.
    """
    step_mm = space.grid.step_mm
    area_ml = settings.seam_ml_per_mm * step_mm**2 / space.width_mm
    hidden = (_hidden_share(space.field, draws[0], step_mm), _hidden_share(space.field, draws[1], step_mm))
    cut = two_way_cut(space.body, space.free, draws, hidden, step_mm**3 / 1000, area_ml)
    return CoarseSplit(draws, space.grid, cut.first, space.free & ~cut.first, cut.energy, cut.hidden)


def best_of(found: Sequence[CoarseSplit], settings: SplitSettings) -> CoarseSplit:
    """The split that costs least of those that leave two real pieces; of equals the first.

    Parameters
    ----------
    found : the splits to choose from.
    settings : how small a piece may be.

    Raises NoSafePlan where there is none. Source: our own.
    """
    real = [split for split in found if split.least_share >= settings.least_share]
    if not real:
        raise NoSafePlan(
            "no-two-piece-shell", 0, 1, "pairs of draws",
            "No pair of draw directions splits the shell in two real pieces: turn the original another way up.",
        )  # fmt: skip
    return min(real, key=lambda split: split.energy_ml)


def _hidden_share(field: Field, draw: NDArray[np.float64], step_mm: float) -> Field:
    """Share of each point's cell that is hidden along a draw and not itself body, from distances (0 to 1)."""
    way = least_along(field, draw, 3 * step_mm)
    share = np.clip(0.5 - way / step_mm, 0, 1) - np.clip(0.5 - field / step_mm, 0, 1)
    out: Field = np.maximum(share, 0).astype(np.float32)
    return out
