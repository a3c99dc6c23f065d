"""The rigid support shell in two pieces: wall, seam flange and base flange as level sets, each free along its draw."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from moldwright.errors import ComputationFailed
from moldwright.geometry.field import Sampled, standing_band, standing_grid
from moldwright.geometry.grid import Field, Grid
from moldwright.geometry.mesh import Mesh
from moldwright.geometry.resample import resampled
from moldwright.geometry.shadow import least_along
from moldwright.geometry.sign import Mask
from moldwright.geometry.solids import Solid, bodies_of, mesh_of, solid_of
from moldwright.geometry.surface import standing_solid
from moldwright.mold.glove import Outline
from moldwright.mold.removal import Removal, check_removal
from moldwright.mold.split import CoarseSplit, space_distance
from moldwright.mold.undercut import Hidden, fill_solid, filled_core, look_along, seam_border
from moldwright.progress import Progress, silent

COARSER = 3
CLEARANCES = (1.0, 1.4, 2.0, 3.0)
FILL_BEYOND_HULL_MM = 3.0


@dataclass(frozen=True, slots=True)
class ShellSettings:
    """Dimensions of the shell [mm]. `base_lip_mm` beyond the rubber's edge: TRADE, at least 13 (common practice)."""

    wall_mm: float = 9.0
    seam_flange_mm: float = 25.0
    seam_half_mm: float = 7.0
    base_lip_mm: float = 15.0
    clearance_mm: float = 0.5


@dataclass(frozen=True, slots=True, eq=False)
class Piece:
    """One piece of the shell and the unit vector it draws off along; `fill_ml` the rubber packed on its side."""

    mesh: Mesh
    draw: tuple[float, float, float]
    fill_ml: float


@dataclass(frozen=True, slots=True, eq=False)
class Shell:
    """The pieces in the order of removal, the gloved body they draw off (fill included), and the packing.

    spots : every packed place as its own solid, largest first.
    seam_mm : length of the seam; seam_points: (n, 3) points of its line on the rubber [mm].
    uncovered_share : share of the gloved surface that no piece supports.
    """

    pieces: tuple[Piece, ...]
    gloved: Mesh
    spots: tuple[Mesh, ...]
    seam_mm: float
    seam_points: NDArray[np.float64]
    uncovered_share: float
    clearance_mm: float
    removal: Removal


def build_shell(
    core: Mesh, outline: Outline, floor_mm: float, split: CoarseSplit, step_mm: float, s: ShellSettings,
    progress: Progress = silent,
) -> Shell:  # fmt: skip
    """Cut the shell for a searched split, and prove on the finished solids that it comes off.

    Where the proof finds a touch (creases finer than the grid), the clearance is raised and the pieces are cut again.

    Parameters
    ----------
    core : body, coats and flange as one closed solid on z = 0 [mm].
    outline : (n, 2) convex edge of the rubber flange seen from above [mm].
    floor_mm : top of the rubber flange, on which the shell stands [mm].
    split : the draws and the seam.
    step_mm : sampling step [mm].
    s : the shell's dimensions.
    progress : told the stages.

    Raises ComputationFailed where no clearance frees the pieces.
    """
    progress("build the shell", 0.0)
    grid = standing_grid(core, step_mm, s.seam_flange_mm + s.base_lip_mm)
    rough = grid.coarser(COARSER)
    outside = resampled(Sampled(space_distance(core, rough) - np.float32(FILL_BEYOND_HULL_MM), rough), grid)
    hidden = look_along(core, grid, split.directions, seam_border(split, grid), outside)
    fill, whole = fill_solid(hidden, 0.0)
    gloved = filled_core(core, fill)
    band = _band(mesh_of(gloved), hidden, outline, floor_mm, s)
    draws = tuple(_unit(draw) for draw in split.directions)
    spots = _spots(gloved, core)
    progress("build the shell", 0.5)
    for factor in CLEARANCES:
        clearance = factor * s.clearance_mm * max(1.0, step_mm)
        solids = [_piece(hidden, n, split.directions[n], band, floor_mm, clearance) for n in range(2)]
        meshes = tuple(mesh_of(solid) for solid in solids)
        progress("build the shell", 1.0)
        removal = check_removal(meshes, draws, mesh_of(gloved), progress, whole_way=factor == CLEARANCES[-1])
        if removal.free:
            return Shell(
                pieces=tuple(map(Piece, meshes, draws, _fill_by_piece(spots, hidden))),
                gloved=mesh_of(gloved),
                spots=spots,
                seam_mm=_seam_length(band, hidden, s),
                seam_points=_seam_points(whole, hidden, floor_mm),
                uncovered_share=_uncovered(whole, hidden, floor_mm),
                clearance_mm=clearance,
                removal=removal,
            )
    raise ComputationFailed(
        "shell-not-free", f"{removal.overlap_mm3:.4f}", 0, "mm3", "Turn the original, or report this commission."
    )


def _unit(draw: NDArray[np.float64]) -> tuple[float, float, float]:
    x, y, z = (float(v) for v in draw / np.linalg.norm(draw))
    return (x, y, z)


def _band(gloved: Mesh, hidden: Hidden, outline: Outline, floor_mm: float, s: ShellSettings) -> Field:
    """Signed field (<= 0: shell) of wall, seam flange and base flange together."""
    rough = hidden.grid.coarser(COARSER)
    reach = s.seam_flange_mm + s.wall_mm
    away = resampled(Sampled(standing_band(gloved, rough, reach), rough), hidden.grid)
    assert hidden.border is not None
    band = np.maximum(np.abs(hidden.border) - np.float32(s.seam_half_mm), away - np.float32(s.seam_flange_mm))
    np.minimum(band, away - np.float32(s.wall_mm), out=band)
    plan = outline_distance(outline, hidden.grid) - np.float32(s.base_lip_mm)
    layers = int(np.ceil((floor_mm + s.wall_mm) / hidden.grid.step_mm)) + 4
    height = (hidden.grid.axis(2)[:layers] - floor_mm - s.wall_mm).astype(np.float32)
    base = np.maximum(plan[:, :, None], height[None, None, :])
    np.minimum(band[:, :, :layers], base, out=band[:, :, :layers])
    out: Field = band
    return out


def outline_distance(outline: Outline, grid: Grid) -> NDArray[np.float32]:
    """Signed distance in plan (negative inside) to a convex outline at the grid's columns [mm]."""
    ring = np.concatenate([outline, outline[:1]])
    x, y = grid.axis(0)[:, None], grid.axis(1)[None, :]
    nearest = np.full((grid.shape[0], grid.shape[1]), np.inf)
    inside = np.ones_like(nearest, dtype=bool)
    turn = np.sign(np.sum(ring[:-1, 0] * ring[1:, 1] - ring[1:, 0] * ring[:-1, 1]))
    for (ax, ay), (bx, by) in pairwise(ring):
        ex, ey = bx - ax, by - ay
        t = np.clip(((x - ax) * ex + (y - ay) * ey) / (ex * ex + ey * ey), 0, 1)
        nearest = np.minimum(nearest, np.hypot(x - ax - t * ex, y - ay - t * ey))
        inside &= turn * (ex * (y - ay) - ey * (x - ax)) >= 0
    signed: NDArray[np.float32] = np.where(inside, -nearest, nearest).astype(np.float32)
    return signed


def _piece(
    hidden: Hidden, number: int, draw: NDArray[np.float64], band: Field, floor_mm: float, clearance_mm: float
) -> Solid:
    """One piece: the band on its side of the seam, less what is hidden along its draw, with clearance.

    A point is kept only where its whole way out stays on its own side of the seam (through space that shell may
    fill), so that the piece is free by construction.
    """
    assert hidden.border is not None
    side = hidden.border if number == 0 else -hidden.border
    step = hidden.grid.step_mm
    far = np.float32(20.0)
    matters = (band <= 1.5 * step) & (hidden.core > 0)
    own = np.where(matters, np.minimum(side, far), far).astype(np.float32)
    way = np.minimum(least_along(own, draw, float(far)), side)
    clear = np.float32(clearance_mm)
    field = np.maximum(np.maximum(clear - hidden.ways[number], clear - way), band)
    solid = standing_solid(Sampled(field, hidden.grid), 0.0, floor_mm + clearance_mm)
    return bodies_of(solid)[0]


def _spots(gloved: Solid, core: Mesh) -> tuple[Mesh, ...]:
    """The packed places as separate solids, largest first."""
    return tuple(mesh_of(body) for body in bodies_of(gloved - solid_of(core), 0.02 * 1000))


def _fill_by_piece(spots: tuple[Mesh, ...], hidden: Hidden) -> list[float]:
    totals = [0.0, 0.0]
    assert hidden.border is not None
    for spot in spots:
        middle = spot.vertices.mean(axis=0)
        index = np.rint((middle - hidden.grid.origin) / hidden.grid.step_mm).astype(int)
        index = np.clip(index, 0, np.array(hidden.grid.shape) - 1)
        totals[0 if hidden.border[tuple(index)] > 0 else 1] += spot.volume_ml
    return totals


def _near_seam(where: Mask, hidden: Hidden, floor_mm: float) -> Mask:
    assert hidden.border is not None
    step = hidden.grid.step_mm
    near: Mask = (np.abs(hidden.border) <= 0.5 * step) & where
    near[:, :, : int(np.ceil(floor_mm / step))] = False
    return near


def _seam_points(whole: Field, hidden: Hidden, floor_mm: float) -> NDArray[np.float64]:
    """(n, 3) points of the seam's line on the rubber [mm]."""
    step = hidden.grid.step_mm
    return hidden.grid.at(np.argwhere(_near_seam(np.abs(whole) <= 0.6 * step, hidden, floor_mm)))


def _seam_length(band: Field, hidden: Hidden, s: ShellSettings) -> float:
    """Area of the seam's surface inside the shell, over the width of its flange [mm]."""
    step = hidden.grid.step_mm
    inside = (band <= 0) & (hidden.core > 0)
    assert hidden.border is not None
    slab = (np.abs(hidden.border) <= 2 * step) & inside
    return float(slab.sum() * step**3 / (4 * step) / s.seam_flange_mm)


def _uncovered(whole: Field, hidden: Hidden, floor_mm: float) -> float:
    """Share of the gloved surface from which neither piece, on its side of the seam, could draw."""
    step = hidden.grid.step_mm
    skin = (whole > 0.3 * step) & (whole <= 1.3 * step)
    skin[:, :, : int(np.ceil(floor_mm / step)) + 1] = False
    assert hidden.border is not None
    held = np.where(hidden.border > 0, hidden.ways[0], hidden.ways[1]) > 0
    return float((skin & ~held).sum() / max(1, skin.sum()))
