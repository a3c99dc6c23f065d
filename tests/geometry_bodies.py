"""Bodies of known shape for the tests of the geometry, made by manifold3d (a reference library)."""

from __future__ import annotations

import manifold3d as m3
import numpy as np

from moldwright.geometry.mesh import Mesh
from moldwright.scan.repairs import Repair
from moldwright.scan.scan import Scan


def mesh(solid: m3.Manifold) -> Mesh:
    """The triangles of a manifold3d solid."""
    raw = solid.to_mesh64()
    return Mesh(np.array(raw.vert_properties[:, :3], dtype=np.float64), np.array(raw.tri_verts, dtype=np.int32))


def solid(body: Mesh) -> m3.Manifold:
    """A mesh as a manifold3d solid; fails where manifold3d does not accept it as closed."""
    made = m3.Manifold(m3.Mesh64(np.ascontiguousarray(body.vertices), body.faces.astype(np.uint64)))
    assert made.status() == m3.Error.NoError
    return made


def ball(radius: float, sides: int = 64, at: tuple[float, float, float] = (0, 0, 0)) -> m3.Manifold:
    return m3.Manifold.sphere(radius, sides).translate(at)


def box(x: float, y: float, z: float) -> m3.Manifold:
    """A box on the board, its middle over the origin."""
    return m3.Manifold.cube((x, y, z), False).translate((-x / 2, -y / 2, 0.0))


def cone(low: float, high: float, height: float, sides: int = 48) -> m3.Manifold:
    """A frustum on the board (`high` 0: a cone; `low` = `high`: a cylinder)."""
    return m3.Manifold.cylinder(height, low, high, sides)


def torus(ring: float, tube: float, sides: int = 96, around: int = 48) -> m3.Manifold:
    """A torus about the z axis, its middle in the origin."""
    turn = 2 * np.pi * np.arange(around) / around
    outline = np.stack([ring + tube * np.cos(turn), tube * np.sin(turn)], axis=1)
    return m3.CrossSection([outline]).revolve(sides)


def stump() -> Mesh:
    """A stump of 50 mm in triangles of 2 mm."""
    return mesh(cone(20, 12, 50, 48).refine_to_length(2.0))


def figure(foot: m3.Manifold) -> m3.Manifold:
    """A foot of 40 mm with a head off its axis and an arm aslant, 58 mm tall; no symmetry, undercuts."""
    return foot + ball(16, 32, (2, 1, 42)) + cone(4, 4, 30, 16).rotate((0, 65, 20)).translate((0, 0, 30))


def table() -> Mesh:
    """A slab on four legs of radius 5 mm, 50 mm tall."""
    top = box(60, 40, 6).translate((0, 0, 44))
    for x in (-24, 24):
        for y in (-14, 14):
            top += cone(5, 5, 46, 24).translate((x, y, 0))
    return mesh(top)


def soup(*bodies: Mesh) -> Mesh:
    """All triangles of several bodies, crossing each other as they may."""
    first = np.cumsum([0, *(len(body.vertices) for body in bodies[:-1])])
    faces = [body.faces + np.int32(start) for body, start in zip(bodies, first, strict=True)]
    return Mesh(np.concatenate([body.vertices for body in bodies]), np.concatenate(faces))


def flipped(body: Mesh) -> Mesh:
    return Mesh(body.vertices, np.ascontiguousarray(body.faces[:, ::-1]))


def turned(body: Mesh, degrees: float) -> Mesh:
    """Turned about the z axis."""
    c, s = np.cos(np.radians(degrees)), np.sin(np.radians(degrees))
    return Mesh(body.vertices @ np.array([[c, s, 0], [-s, c, 0], [0, 0, 1.0]]), body.faces)


def mirrored(body: Mesh) -> Mesh:
    """Its twin on the other side of the plane x = 0."""
    return flipped(Mesh(body.vertices * np.array([-1.0, 1.0, 1.0]), body.faces))


def without(body: Mesh, faces: np.ndarray) -> Mesh:
    """The mesh less the marked triangles."""
    return Mesh(body.vertices, body.faces[~faces])


def open_below(body: Mesh) -> Mesh:
    """The mesh without the triangles that lie on the board."""
    return without(body, body.corners[:, :, 2].max(axis=1) < 1e-6)


def holed(body: Mesh) -> Mesh:
    """The mesh with a hole toward +x, 10 mm wide, from 17 to 33 mm up."""
    middle = body.corners.mean(axis=1)
    return without(body, (middle[:, 0] > 8) & (np.abs(middle[:, 1]) < 5) & (np.abs(middle[:, 2] - 25) < 8))


def scan(body: Mesh, repairs: tuple[Repair, ...] = (), watertight: bool = True) -> Scan:
    """A scan in millimeters with z up, as a reader would give it."""
    return Scan(body, "mm", (0.0, 0.0, 1.0), 1, "off", repairs, watertight)
