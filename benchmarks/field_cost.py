"""The signed field of 1 M triangles in a band of a 256^3 grid, against libigl's signed distance on the same points.

Like is set against like: closed solids (sign by counting crossings) against libigl's pseudonormal, which is its
quickest sign and right for closed meshes only; scans with pinholes (sign by winding number) against libigl's fast
winding number. libigl is given only the points in the band, and the band as its bounds. CPU is of the whole process,
all threads.
"""

from __future__ import annotations

import time
from collections.abc import Callable
from typing import Any, TypeVar

import igl
import numpy as np

from benchmarks.originals import otter_of
from benchmarks.report import line
from moldwright.geometry.field import solid_band
from moldwright.geometry.grid import Field, Grid
from moldwright.geometry.mesh import Mesh
from moldwright.original.mending.sampled import banded
from moldwright.progress import silent

TRIANGLES = 1_000_000
POINTS = 256
BANDS_MM = (2.5, 5.0)
LIMIT = 0.5
PINHOLES = 1_000
"""One triangle in so many is missing in a scan: holes far smaller than a step, through which no sign spreads."""
Ours = Callable[[Mesh, Grid, float], Field]


def scan_band(scan: Mesh, grid: Grid, band_mm: float) -> Field:
    """Distance and sign about a scan as mending asks for them, made one field."""
    distance, _, inside = banded(scan, scan, grid, band_mm, silent)
    np.minimum(distance, np.float32(band_mm), out=distance)
    np.negative(distance, out=distance, where=inside)
    return distance


PAIRS: tuple[tuple[str, Ours, Any], ...] = (
    ("closed solid", solid_band, igl.SignedDistanceType.SIGNED_DISTANCE_TYPE_PSEUDONORMAL),
    ("scan", scan_band, igl.SignedDistanceType.SIGNED_DISTANCE_TYPE_FAST_WINDING_NUMBER),
)
Result = TypeVar("Result")


def run() -> bool:
    original, small = otter_of(TRIANGLES), otter_of(20_000)
    print(f"field: {len(original.faces):,} triangles, {POINTS}^3 grid")
    for _, ours, _ in PAIRS:
        ours(small, grid_about(small, 64), 10.0)  # compiled before the clock starts
    bodies = (original, pricked(original))
    kept = [compare(body, band_mm, *pair) for body, pair in zip(bodies, PAIRS, strict=True) for band_mm in BANDS_MM]
    return all(kept)


def pricked(mesh: Mesh) -> Mesh:
    """The mesh with pinholes: it is not closed, so that winding numbers are asked."""
    return Mesh(mesh.vertices, mesh.faces[np.arange(len(mesh.faces)) % PINHOLES > 0])


def compare(original: Mesh, band_mm: float, what: str, ours: Ours, sign: Any) -> bool:
    grid = grid_about(original, POINTS)
    field, ours_s = timed(lambda: ours(original, grid, band_mm))
    band = np.argwhere(np.abs(field) < 0.98 * band_mm)
    points, faces = grid.at(band), original.faces.astype(np.int64)
    theirs, theirs_s = timed(lambda: igl.signed_distance(points, original.vertices, faces, sign, -band_mm, band_mm)[0])
    apart = np.abs(field[tuple(band.T)] - theirs) / grid.step_mm
    most, farthest = np.nanpercentile(apart, 99), np.nanmax(apart)
    print(
        f"  {what}, band {band_mm} mm: {len(band):,} points, ours {ours_s:.2f}, libigl {theirs_s:.2f} CPU-s; ", end=""
    )
    print(f"apart at 99 % of the points by less than {most:.3f} of the step, at most {farthest:.3f}")
    return line(f"field CPU, ours / libigl, {what}, band {band_mm} mm", ours_s / theirs_s, LIMIT, "x")


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
