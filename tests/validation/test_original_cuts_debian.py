"""Real watertight animals that cut themselves keep their height, and their surface away from the cuts.

Meshes: those of `real_meshes`. Distances and winding numbers are libigl's.
"""

from __future__ import annotations

from pathlib import Path

import igl
import numpy as np
import pytest
from numpy.typing import NDArray
from peer_distance import peer_distance
from real_meshes import file_of

from moldwright.geometry.mesh import Mesh
from moldwright.geometry.self_cuts import find_self_cuts
from moldwright.original.mending.solid import Standing, stand
from moldwright.original.standing.place import place
from moldwright.scan import read_with_hash

SOURCE = ("Reference library libigl (distances, winding numbers)",)
HEIGHT_MM = 140.0

pytestmark = pytest.mark.slow


def shown(mesh: Mesh) -> NDArray[np.bool_]:
    """Corners just outside of which the exact winding number is 0, as at the surface of what others do not hide."""
    a, b, c = mesh.corners.transpose(1, 0, 2)
    normals = np.cross(b - a, c - a)
    normals /= np.maximum(np.linalg.norm(normals, axis=1, keepdims=True), 1e-30)
    points = np.ascontiguousarray(mesh.corners.mean(axis=1) + 0.01 * normals)
    outside = np.asarray(igl.winding_number(mesh.vertices, mesh.faces.astype(np.int64), points)) < 0.5
    found = np.ones(len(mesh.vertices), bool)
    found[mesh.faces[~outside]] = False
    return found


def in_place(found: Standing, scan: Mesh) -> NDArray[np.float64]:
    """The scan's corners moved as the solid was: by where both have their top."""
    top = np.flatnonzero(found.mesh.vertices[:, 2] > found.mesh.bounds_mm[1][2] - 1e-3)
    high = np.flatnonzero(scan.vertices[:, 2] > scan.vertices[:, 2].max() - 1e-3)
    shift = found.mesh.vertices[top].mean(axis=0) - scan.vertices[high].mean(axis=0)
    return np.asarray(scan.vertices + np.array([shift[0], shift[1], 0.0]))


@pytest.mark.parametrize(("name", "up"), [("cow.off", "+y"), ("bull.off", "+z"), ("camel.off", "+z")])
def test_an_animal_that_cuts_itself(name: str, up: str, tmp_path: Path) -> None:
    """Height within 0.2 mm; 99.9 % of the corners further than 3 steps from a cut within 0.05 step, all within 0.1."""
    scan = place(read_with_hash(file_of(name, tmp_path)).scan, height_mm=HEIGHT_MM, up=up).mesh
    cuts = find_self_cuts(scan)
    assert len(cuts.pairs) > 0
    found = stand(scan)
    assert found.mesh.why_invalid() == ""
    assert len(found.patches) >= 1
    assert not found.exact
    assert found.mesh.bounds_mm[1][2] == pytest.approx(scan.vertices[:, 2].max(), abs=0.2)
    ends = cuts.segments.reshape(-1, 3)
    lines = np.stack([np.arange(0, len(ends), 2), *2 * [np.arange(1, len(ends), 2)]], axis=1).astype(np.int32)
    far = peer_distance(scan.vertices, Mesh(ends, lines)) > 3 * found.step_mm
    far &= shown(scan) & (scan.vertices[:, 2] > 0.5)
    off = peer_distance(in_place(found, scan)[far], found.mesh) / found.step_mm
    assert far.sum() > 1000
    assert np.quantile(off, 0.999) <= 0.05
    assert off.max() <= 0.1
