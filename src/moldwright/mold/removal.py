"""Does the shell come off? Checked on the finished meshes, knowing nothing of how they were made."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from moldwright.geometry.mesh import Mesh
from moldwright.geometry.rays import Rays
from moldwright.geometry.solid import Solid, solid_of
from moldwright.progress import Progress, silent

OFFSETS = 14
PUSHED_MM = 3.0
RAYS_PER_PIECE = 20000
TOUCH_MM3 = 1e-6


@dataclass(frozen=True, slots=True)
class Met:
    """What holds a piece: which piece, from 1 in the order of removal, the middle of what it meets, and how large that
    is [mm]."""

    piece: int
    at: tuple[float, float, float]
    across_mm: float


@dataclass(frozen=True, slots=True)
class Removal:
    """What the check found: the largest overlap [mm3] on the way out, rays that met rubber, and the control.

    met : what was met first on the way out, where something was.
    """

    overlap_mm3: float
    offsets: int
    rays: int
    rays_blocked: int
    control_overlap_mm3: float
    met: Met | None = None

    @property
    def free(self) -> bool:
        """Whether nothing was met on the way out, and the control was."""
        return self.overlap_mm3 <= TOUCH_MM3 and self.rays_blocked == 0 and self.control_overlap_mm3 > 0


def _offsets_mm(reach_mm: float) -> list[float]:
    """Distances at which a piece is tried: at rest, then growing until it is clear."""
    return [0.0, *np.geomspace(0.5, reach_mm, OFFSETS - 1).tolist()]


def _overlap(moving: Solid, shift: NDArray[np.float64], standing: list[Solid]) -> float:
    """The largest volume [mm3] that a moved piece shares with any of what stays where it is."""
    moved = moving.translate(tuple(shift))
    return max(float((moved ^ other).volume()) for other in standing)


def what_is_met(number: int, piece: Mesh, shift_mm: NDArray[np.float64], standing: Mesh) -> Met | None:
    """What of a body a moved piece meets; None where it meets nothing.

    Parameters
    ----------
    number : the piece's, from 0.
    piece : at rest, closed [mm].
    shift_mm : (3,) how far it is moved [mm].
    standing : what stays, closed [mm].

    Source: our own.
    """
    shared = solid_of(piece).translate(tuple(shift_mm)) ^ solid_of(standing)
    largest = max(shared.decompose(), key=lambda part: part.volume(), default=None)
    if largest is None or largest.volume() <= TOUCH_MM3:
        return None
    low, high = np.array(largest.bounding_box()[:3]), np.array(largest.bounding_box()[3:])
    x, y, z = (float(value) for value in (low + high) / 2)
    return Met(number + 1, (x, y, z), float((high - low).max()))


def touches(piece: Mesh, gloved: Mesh) -> bool:
    """Whether a piece at rest shares more than a touch with the gloved body: it needs no further proof then.

    Parameters
    ----------
    piece, gloved : closed solids at rest [mm].

    Source: our own.
    """
    return _overlap(solid_of(piece), np.zeros(3), [solid_of(gloved)]) > TOUCH_MM3


def check_removal(
    pieces: tuple[Mesh, ...],
    draws: tuple[tuple[float, float, float], ...],
    gloved: Mesh,
    progress: Progress = silent,
    whole_way: bool = True,
    in_order: bool = False,
) -> Removal:
    """Move every piece off along its draw in steps and intersect it with the gloved body and the pieces that stand.

    Pieces that come off in any order each have every other one held in place; those that come off `in_order`, first
    piece first, the later ones only. Rays from points of the piece along its draw must meet no rubber. Control: pushed
    3 mm against its draw every piece must collide. Unless `whole_way`, the check ends at the first touch.

    Parameters
    ----------
    pieces : the shell's pieces as closed solids at rest [mm].
    draws : a unit vector for each, along which it moves off.
    gloved : what they must not meet, closed [mm].
    progress : told how far the check is.
    whole_way : go on after the first touch.
    in_order : the pieces come off in the order given, and in no other.

    Source: our own.
    """
    body, shown = solid_of(gloved), Rays([gloved])
    solids = [solid_of(piece) for piece in pieces]
    ways = [np.asarray(draw) for draw in draws]
    origins = [_ray_origins(piece) for piece in pieces]
    rays = sum(len(points) for points in origins)
    met = [shown.first_hits(points, way).distance_mm for points, way in zip(origins, ways, strict=True)]
    blocked = sum(int(np.isfinite(distance).sum()) for distance in met)
    held = [_held(number, len(pieces), in_order) for number in range(len(pieces))]
    reaches = [
        _offsets_mm(_clear_distance(piece, [gloved, *(pieces[n] for n in others)], way))
        for piece, others, way in zip(pieces, held, ways, strict=True)
    ]
    standing = [[body, *(solids[n] for n in others)] for others in held]
    worst, place = 0.0, _first_blocked(origins, ways, met)
    for k in range(OFFSETS):
        for number, (solid, way) in enumerate(zip(solids, ways, strict=True)):
            if not whole_way and (blocked or worst > TOUCH_MM3):
                return Removal(worst, OFFSETS, rays, blocked, 0.0, place)
            progress("check that the shell comes off", (k + number / len(solids)) / OFFSETS)
            shared = _overlap(solid, reaches[number][k] * way, standing[number])
            if shared > max(worst, TOUCH_MM3):
                place = what_is_met(number, pieces[number], reaches[number][k] * way, gloved) or place
            worst = max(worst, shared)
    control = min(_overlap(solid, -PUSHED_MM * way, [body]) for solid, way in zip(solids, ways, strict=True))
    return Removal(worst, OFFSETS, rays, blocked, control, place)


def _first_blocked(
    origins: list[NDArray[np.float64]], ways: list[NDArray[np.float64]], met: list[NDArray[np.float32]]
) -> Met | None:
    """Where the rays of the first piece that is held meet rubber."""
    for number, (points, way, distance) in enumerate(zip(origins, ways, met, strict=True)):
        held = np.isfinite(distance)
        if held.any():
            hit = points[held] + distance[held, None] * way
            x, y, z = (float(value) for value in np.median(hit, axis=0))
            return Met(number + 1, (x, y, z), float(np.ptp(hit, axis=0).max()))
    return None


def _held(number: int, count: int, in_order: bool) -> list[int]:
    """The pieces that stand while one moves: all others, or those that come off after it."""
    return [other for other in range(count) if (other > number if in_order else other != number)]


def _clear_distance(piece: Mesh, standing: list[Mesh], way: NDArray[np.float64]) -> float:
    """How far a piece must move until it is past all that stands [mm], 1 mm at least."""
    far = max(float((other.vertices @ way).max()) for other in standing)
    return max(far - float((piece.vertices @ way).min()), 0.0) + 1.0


def _ray_origins(piece: Mesh) -> NDArray[np.float64]:
    """Centers of the piece's triangles, thinned evenly."""
    every = max(1, len(piece.faces) // RAYS_PER_PIECE)
    centers: NDArray[np.float64] = piece.corners[::every].mean(axis=1)
    return centers
