"""No back-fill behind a neck that it does not pass: the core of real meshes against a flood that shares no code.

Sections by manifold3d at half the step, filled row by row, give a mask of the body; scipy's distance transform its
depth; scipy's labels what hangs together with the mouth. One flood passes narrower necks than a plan may, one only
wider ones: the plan's core lies between them, within 2 % of the cavity's core for the mask's own coarseness.
"""

from __future__ import annotations

from pathlib import Path

import geometry_bodies as bodies
import numpy as np
import pytest
from numpy.typing import NDArray
from real_meshes import file_of
from scipy.ndimage import distance_transform_edt, label

from moldwright.geometry.mesh import Mesh
from moldwright.job.standing import mounted_on, settle
from moldwright.mold.skin import skin_of
from moldwright.progress import silent
from moldwright.scan import read_with_hash

SOURCE = ("Reference libraries scipy.ndimage (distance transform, labels) and manifold3d (sections)",)

SKIN_MM, PASSES_MM = 4.0, 3.0
"""Width that a back-fill passes: common practice, no source."""
BEYOND = 0.25
"""How far behind a surface the middle of the nearest cell outside lies, in steps: 0.5 for a level one, 0 for most."""

MESHES = {
    "bull.off": ("+y", 120.0),
    "bear.off": ("+y", 160.0),
    "dino.off": ("+z", 160.0),
    "triceratops.off": ("+y", 110.0),
    "hand.off": ("+z", 150.0),
    "mask_cone.off": ("+z", 90.0),
    "knot1.off": ("+z", 70.0),
    "rotor.off": ("+x", 60.0),
}


def filled(rings: list[NDArray[np.float64]], shape: tuple[int, int]) -> NDArray[np.bool_]:
    """The pixels within rings of corners in pixels: along each row of x, every crossing of a ring changes the side."""
    sides = np.zeros((shape[0], shape[1] + 1), np.int64)
    for ring in rings:
        (x0, y0), (x1, y1) = ring.T, np.roll(ring, -1, axis=0).T
        first, last = np.ceil(np.minimum(x0, x1)).astype(int), np.ceil(np.maximum(x0, x1)).astype(int)
        rows = last - first
        edge = np.repeat(np.arange(len(ring)), rows)
        x = np.arange(rows.sum()) - np.repeat(np.cumsum(rows) - rows, rows) + first[edge]
        y = y0[edge] + (x - x0[edge]) / (x1 - x0)[edge] * (y1 - y0)[edge]
        np.add.at(sides, (x, np.ceil(y).astype(int)), 1)
    return np.asarray(np.cumsum(sides, axis=1)[:, :-1] % 2 == 1)


def mask_of(body: Mesh, step_mm: float) -> tuple[NDArray[np.bool_], int]:
    """Which cells of a grid have their middle in the body, some layers mirrored below the board; how many of those."""
    solid, (low, high) = bodies.solid(body), body.bounds_mm
    shape = tuple(int(n) + 6 for n in np.ceil((high - low) / step_mm))
    start = low[:2] - 3 * step_mm
    whole = np.zeros(shape, bool)
    for k in range(shape[2]):
        rings = [(np.asarray(ring) - start) / step_mm - 0.5 for ring in solid.slice((k + 0.5) * step_mm).to_polygons()]
        whole[:, :, k] = filled(rings, shape[:2])
    below = int(np.ceil(2 * SKIN_MM / step_mm))
    return np.concatenate([whole[:, :, below - 1 :: -1], whole], axis=2), below


def flooded_ml(deep_mm: NDArray[np.float64], board: int, step_mm: float, radius_mm: float, swept_mm: float) -> float:
    """What a ball reaches from the mouth, over layer `board`, in the part deeper than the skin [ml]."""
    parts, _ = label(deep_mm > SKIN_MM + radius_mm)
    reached = (parts > 0) & np.isin(parts, np.unique(parts[:, :, board]))
    if not reached.any():
        return 0.0
    near = distance_transform_edt(~reached, sampling=step_mm) <= swept_mm
    return float((near & (deep_mm > SKIN_MM))[:, :, board:].sum() * step_mm**3 / 1000)


def check(name: str, up: str, height_mm: float, folder: Path) -> None:
    settled = settle(read_with_hash(file_of(name, folder)).scan, height_mm, None, up, None, silent)
    mounted, step = mounted_on(settled, 20.0, 0.1), settled.standing.step_mm
    found = skin_of(mounted.body, SKIN_MM, mounted.plinth_height_mm, step)
    core_ml = mounted.body.volume_ml - found.whole_ml
    fine = step / 2
    whole, board = mask_of(mounted.body, fine)
    deep = np.asarray(distance_transform_edt(whole, sampling=fine) - BEYOND * fine)
    all_ml = float((deep[:, :, board:] > SKIN_MM).sum() * fine**3 / 1000)
    most = flooded_ml(deep, board, fine, PASSES_MM / 2 - fine, PASSES_MM / 2 + 1.5 * step)
    least = flooded_ml(deep, board, fine, PASSES_MM / 2 + 1.2 * step, PASSES_MM / 2 + 1.2 * step)
    assert least - 0.02 * all_ml - 0.2 <= core_ml <= most + 0.02 * all_ml + 0.2
    assert core_ml + found.closed_ml == pytest.approx(all_ml, rel=0.03, abs=0.3)


@pytest.mark.slow
@pytest.mark.parametrize("name", MESHES)
def test_no_back_fill_beyond_a_closed_neck(name: str, tmp_path: Path) -> None:
    check(name, *MESHES[name], tmp_path)


def test_a_packaged_mesh_that_is_always_here(tmp_path: Path) -> None:
    check("nut.ply", "+y", 60.0, tmp_path)
