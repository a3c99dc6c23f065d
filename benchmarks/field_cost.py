"""The signed field of 1 M triangles in a band of a 256^3 grid, against libigl's signed distance on the same points.

libigl is given only the points in the band, and the band as its bounds; its sign is its default for closed meshes
(pseudonormal), the quickest it has. CPU is of the whole process, all threads.
"""

from __future__ import annotations

import time
from collections.abc import Callable
from typing import TypeVar

import igl
import numpy as np

from benchmarks.originals import otter_of
from benchmarks.report import line
from moldwright.geometry.field import signed_band
from moldwright.geometry.grid import Grid
from moldwright.geometry.mesh import Mesh

TRIANGLES = 1_000_000
POINTS = 256
BANDS_MM = (2.5, 5.0)
LIMIT = 0.5
Result = TypeVar("Result")


def run() -> bool:
    original = otter_of(TRIANGLES)
    print(f"field: {len(original.faces):,} triangles, {POINTS}^3 grid")
    small = otter_of(20_000)
    signed_band(small, grid_about(small, 64), 10.0)  # compiled before the clock starts
    kept = [compare(original, band_mm) for band_mm in BANDS_MM]
    return all(kept)


def compare(original: Mesh, band_mm: float) -> bool:
    grid = grid_about(original, POINTS)
    ours, ours_s = timed(lambda: signed_band(original, grid, band_mm))
    band = np.argwhere(np.abs(ours) < 0.98 * band_mm)
    points, faces = grid.at(band), original.faces.astype(np.int64)
    kind = igl.SignedDistanceType.SIGNED_DISTANCE_TYPE_PSEUDONORMAL
    theirs, theirs_s = timed(lambda: igl.signed_distance(points, original.vertices, faces, kind, -band_mm, band_mm)[0])
    apart = np.abs(ours[tuple(band.T)] - theirs) / grid.step_mm
    most, farthest = np.nanpercentile(apart, 99), np.nanmax(apart)
    print(f"  band {band_mm} mm: {len(band):,} points, ours {ours_s:.2f} CPU-s, libigl {theirs_s:.2f} CPU-s; ", end="")
    print(f"apart at 99 % of the points by less than {most:.3f} of the step, at most {farthest:.3f}")
    return line(f"field CPU, ours / libigl, band {band_mm} mm", ours_s / theirs_s, LIMIT, "x")


def grid_about(mesh: Mesh, points: int) -> Grid:
    """A cube of `points`^3 about the mesh with a margin of 4 steps."""
    low, high = mesh.bounds_mm
    step_mm = float((high - low).max()) / (points - 9)
    origin = (low + high) / 2 - step_mm * (points - 1) / 2
    return Grid((float(origin[0]), float(origin[1]), float(origin[2])), step_mm, (points, points, points))


def timed(work: Callable[[], Result]) -> tuple[Result, float]:
    start = time.process_time()
    result = work()
    return result, time.process_time() - start
