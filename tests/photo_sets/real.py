"""The ten packaged meshes of CHECKS.md as originals: closed bodies that stand on a flat base at z = 0 [mm]."""

from __future__ import annotations

import io
from dataclasses import dataclass
from functools import reduce
from pathlib import Path

import manifold3d
import numpy as np
import numpy.typing as npt
import pyvista as pv
import trimesh
from tests.validation.real_meshes import EXAMPLES, meshes

Floats = npt.NDArray[np.float64]
UP = {
    "z": np.eye(3),
    "y": np.array([[1.0, 0, 0], [0, 0, -1], [0, 1, 0]]),
    "x": np.array([[0.0, 1, 0], [0, 0, 1], [1, 0, 0]]),
}


@dataclass(frozen=True, slots=True)
class Packaged:
    """A mesh of a package: which way is up in its file, how long its longest side is made, and which share of its
    height is cut off at the bottom so that it stands."""

    file: str
    up: str
    longest_mm: float
    cut: float = 0.02


PACKAGED = (
    Packaged("bull.off", "y", 190),
    Packaged("bear.off", "y", 90, 0.04),
    Packaged("dino.off", "z", 330, 0.01),
    Packaged("triceratops.off", "y", 380, 0.01),
    Packaged("hand.off", "z", 150, 0.03),
    Packaged("mask_cone.off", "y", 220, 0.03),
    Packaged("bones.off", "y", 240),
    Packaged("knot1.off", "y", 120, 0.05),
    Packaged("rotor.off", "z", 280, 0.02),
    Packaged("nut.ply", "y", 62, 0.02),
)


def packaged(one: Packaged) -> trimesh.Trimesh:
    """The closed body.

    Raises
    ------
    FileNotFoundError : the package is not here (see `tests.validation.real_meshes`).
    """
    raw = _raw(one.file)
    raw.vertices = raw.vertices @ UP[one.up].T
    raw.apply_scale(one.longest_mm / raw.extents.max())
    return standing(raw, one.cut)


def standing(body: trimesh.Trimesh, cut: float) -> trimesh.Trimesh:
    """One closed body: its overlapping parts joined, cut flat at the bottom, set on z = 0; loose parts on a slab."""
    parts = [_manifold(part) for part in body.split(only_watertight=False)]
    whole = reduce(manifold3d.Manifold.__add__, parts)
    low, high = np.array(whole.bounding_box()).reshape(2, 3)
    whole = whole.trim_by_plane((0, 0, 1), float(low[2] + cut * (high[2] - low[2])))
    if len(whole.decompose()) > 1:
        side = (high - low) * [1.06, 1.06, 0.09]
        slab = manifold3d.Manifold.cube(tuple(side), True).translate(
            (*((low + high)[:2] / 2), float(low[2] + side[2] / 2))
        )
        whole = max((whole + slab).decompose(), key=lambda m: m.volume())
    mesh = whole.to_mesh()
    got = trimesh.Trimesh(np.asarray(mesh.vert_properties)[:, :3], np.asarray(mesh.tri_verts))
    got.apply_translation([0, 0, -got.bounds[0, 2]])
    if not got.is_volume:
        raise ValueError("the body is not closed")
    return got


def _raw(file: str) -> trimesh.Trimesh:
    data = (EXAMPLES / file).read_bytes() if (EXAMPLES / file).is_file() else meshes().get(file)
    if data is None:
        raise FileNotFoundError(file)
    return trimesh.load(io.BytesIO(data), file_type=Path(file).suffix[1:])


def _manifold(part: trimesh.Trimesh) -> manifold3d.Manifold:
    """A part, its openings closed flat."""
    if not part.is_watertight:
        drawn = pv.wrap(part).fill_holes(1e9).clean()
        part = trimesh.Trimesh(drawn.points, drawn.faces.reshape(-1, 4)[:, 1:])
        trimesh.repair.fix_normals(part)
    return manifold3d.Manifold(manifold3d.Mesh(part.vertices.astype(np.float32), part.faces.astype(np.uint32)))
