"""Does the shell come off? Checked on the finished meshes, knowing nothing of how they were made."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from moldwright.geometry.mesh import Mesh
from moldwright.geometry.rays import hit_distances
from moldwright.geometry.solid import Solid, solid_of
from moldwright.progress import Progress, silent

OFFSETS = 14
PUSHED_MM = 3.0
RAYS_PER_PIECE = 20000
TOUCH_MM3 = 1e-6


@dataclass(frozen=True, slots=True)
class Removal:
    """What the check found: the largest overlap [mm3] on the way out, rays that met rubber, and the control."""

    overlap_mm3: float
    offsets: int
    rays: int
    rays_blocked: int
    control_overlap_mm3: float

    @property
    def free(self) -> bool:
        return self.overlap_mm3 <= TOUCH_MM3 and self.rays_blocked == 0 and self.control_overlap_mm3 > 0


def _offsets_mm(reach_mm: float) -> list[float]:
    """Distances at which a piece is tried: at rest, then growing until it is clear."""
    return [0.0, *np.geomspace(0.5, reach_mm, OFFSETS - 1).tolist()]


def _overlap(moving: Solid, shift: NDArray[np.float64], others: list[Solid]) -> float:
    moved = moving.translate(tuple(shift))
    return max(float((moved ^ other).volume()) for other in others)


def check_removal(
    pieces: tuple[Mesh, ...],
    draws: tuple[tuple[float, float, float], ...],
    gloved: Mesh,
    progress: Progress = silent,
    whole_way: bool = True,
) -> Removal:
    """Move every piece off along its draw in steps and intersect it with the gloved body and all other pieces.

    The pieces come off in any order, so every other piece is held in place. Rays from points of the piece along its
    draw must meet no rubber. Control: pushed 3 mm against its draw every piece must collide. Unless `whole_way`, the
    check ends at the first touch.
    """
    body = solid_of(gloved)
    solids = [solid_of(piece) for piece in pieces]
    worst, blocked, rays = 0.0, 0, 0
    control = np.inf
    for number, (solid, draw) in enumerate(zip(solids, draws, strict=True)):
        way = np.asarray(draw)
        others = [body, *(other for n, other in enumerate(solids) if n != number)]
        offsets = _offsets_mm(_clear_distance(pieces[number], gloved, way))
        origins = _ray_origins(pieces[number])
        rays += len(origins)
        blocked += int(np.isfinite(hit_distances(gloved, origins, way)).sum())
        for k, offset in enumerate(offsets):
            if not whole_way and (blocked or worst > TOUCH_MM3):
                return Removal(worst, OFFSETS, rays, blocked, 0.0)
            progress("check that the shell comes off", (number + k / len(offsets)) / len(solids))
            worst = max(worst, _overlap(solid, offset * way, others))
        control = min(control, _overlap(solid, -PUSHED_MM * way, [body]))
    return Removal(worst, OFFSETS, rays, blocked, float(control))


def _clear_distance(piece: Mesh, gloved: Mesh, way: NDArray[np.float64]) -> float:
    """How far a piece must move until it is past the body [mm]."""
    return float((gloved.vertices @ way).max() - (piece.vertices @ way).min()) + 1.0


def _ray_origins(piece: Mesh) -> NDArray[np.float64]:
    """Centers of the piece's triangles, thinned evenly."""
    every = max(1, len(piece.faces) // RAYS_PER_PIECE)
    centers: NDArray[np.float64] = piece.corners[::every].mean(axis=1)
    return centers
