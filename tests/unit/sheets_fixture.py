"""A made-up piece, its mold and its plan for the tests of the sheets: a ball with an arm on a foot."""

from __future__ import annotations

from functools import cache

import manifold3d
import numpy as np
import trimesh

from moldwright.geometry.mesh import Mesh
from moldwright.sheets.pictures import MoldMeshes


def _solid(ball: float, arm: float, foot: float, top: float, fine: int) -> manifold3d.Manifold:
    parts = [
        manifold3d.Manifold.cylinder(90, foot, foot * 0.8, 2 * fine),
        manifold3d.Manifold.sphere(ball, 4 * fine).translate((0, 0, 100)),
        manifold3d.Manifold.cylinder(55, arm, arm, fine).rotate((0, 70, 20)).translate((10, 0, 110)),
        manifold3d.Manifold.sphere(arm * 1.4, 2 * fine).translate((60, 18, 128)),
        manifold3d.Manifold.cylinder(top, arm, 1, fine).translate((0, 0, 130)),
    ]
    return manifold3d.Manifold.batch_boolean(parts, manifold3d.OpType.Add)


def _mesh(solid: manifold3d.Manifold) -> Mesh:
    raw = solid.to_mesh()
    return Mesh(np.asarray(raw.vert_properties[:, :3], np.float64), np.asarray(raw.tri_verts, np.int32))


@cache
def mold_meshes(fine: int = 40) -> MoldMeshes:
    """About 2 k triangles at `fine` 16, 300 k at 250."""
    cube = manifold3d.Manifold.cube((400, 400, 400), True).translate((0, 0, 200))
    original = _solid(40, 9, 30, 30, fine) ^ cube
    flange = manifold3d.Manifold.cube((130, 120, 6), True).translate((0, 0, 3))
    walls = _solid(44, 13, 34, 34, fine) ^ cube
    gloved = walls + flange
    outer = (_solid(50, 19, 40, 40, fine) ^ cube) + manifold3d.Manifold.cube((156, 146, 14), True).translate((0, 0, 7))
    support = outer - gloved
    wave = manifold3d.CrossSection([[(-200, -300), (0, -300), (12, -20), (-12, 20), (0, 300), (-200, 300)]])
    left = manifold3d.Manifold.extrude(wave, 400)
    shell = (support ^ left, support - left)
    spots = ((52.0, 14.0, 105.0), (-20.0, -30.0, 70.0), (25.0, 25.0, 66.0))
    return MoldMeshes(
        _mesh(original), None, _mesh(gloved - original), _mesh(gloved), tuple(_mesh(s) for s in shell),
        ((-1.0, 0.0, 0.0), (1.0, 0.0, 0.0)), spots,
    )  # fmt: skip


def ball(radius_mm: float, subdivisions: int = 4) -> Mesh:
    sphere = trimesh.creation.icosphere(subdivisions=subdivisions, radius=radius_mm)
    return Mesh(np.asarray(sphere.vertices, np.float64), np.asarray(sphere.faces, np.int32))
