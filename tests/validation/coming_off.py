"""Real meshes as they are planned in tests, and a check that their shells come off that shares no code with ours.

Reference libraries: manifold3d for overlaps, trimesh with embreex for rays. Overlap must be 0 mm3 (below 1e-6 mm3,
which is float rounding of the booleans) at 16 offsets from rest until the piece is past the body.
"""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

import geometry_bodies as bodies
import manifold3d as m3
import numpy as np
import pytest
import trimesh
from job_meshes import meshes_of
from real_meshes import file_of
from trimesh.ray.ray_pyembree import RayMeshIntersector

from moldwright.commission.orders import Commission, MoldOrder, OriginalOrder
from moldwright.geometry.mesh import Mesh
from moldwright.job.planning import Planned, make_plan
from moldwright.materials import library
from moldwright.progress import silent
from moldwright.scan import read_with_hash
from moldwright.store.memory import NoStore, Store

OFFSETS = 16
TOUCH_MM3 = 1e-6


@dataclass(frozen=True)
class Piece:
    """Which way up it stands (as its picture shows), how tall, its through-holes, why it is refused ("": planned)."""

    up: str
    height_mm: float
    holes: int = 0
    refused: str = ""


# bones: 26 separate bones of a foot; airplane: engines, wings and tail are surfaces that do not meet; ant: 15 parts
# that only touch. A glove round bodies that do not hang together would copy each apart.
CHOSEN = {
    "bull.off": Piece("+y", 120.0),
    "bear.off": Piece("+y", 160.0),
    "dino.off": Piece("+z", 160.0),
    "triceratops.off": Piece("+y", 110.0),
    "hand.off": Piece("+z", 150.0),
    "mask_cone.off": Piece("+z", 90.0),
    "bones.off": Piece("+y", 80.0, refused="bodies-apart"),
    "knot1.off": Piece("+z", 70.0),
    "rotor.off": Piece("+x", 60.0, holes=1),
    "airplane.ply": Piece("+z", 60.0, refused="bodies-apart"),
    "nut.ply": Piece("+y", 60.0, holes=1),
    "ant.ply": Piece("+y", 80.0, refused="bodies-apart"),
}
PLANNED = [name for name, piece in CHOSEN.items() if not piece.refused]
REFUSED = [name for name, piece in CHOSEN.items() if piece.refused]


def plan(name: str, folder: Path, pieces: int = 0, store: Store | None = None) -> Planned:
    """The plan of a mesh; `pieces` 0: as many as are recommended."""
    piece = CHOSEN[name]
    mold = MoldOrder(pieces=pieces) if pieces else MoldOrder()
    order = Commission(OriginalOrder(name, height_mm=piece.height_mm, up=piece.up), mold=mold)
    scan = read_with_hash(file_of(name, folder)).scan
    return make_plan(order, scan, library(), store or NoStore(), silent)


def overlap_mm3(moving: m3.Manifold, shift: np.ndarray, standing: list[m3.Manifold]) -> float:
    moved = moving.translate(tuple(float(v) for v in shift))
    return max((moved ^ other).volume() for other in standing)


def rays_that_meet(piece: Mesh, draw: np.ndarray, gloved: Mesh) -> int:
    """How many rays from 20,000 points on the piece's surface, along its draw, meet the gloved body."""
    peer = trimesh.Trimesh(piece.vertices, piece.faces, process=False)
    points, _ = trimesh.sample.sample_surface(peer, 20000, seed=11)
    body = RayMeshIntersector(trimesh.Trimesh(gloved.vertices, gloved.faces, process=False))
    return int(body.intersects_any(points, np.broadcast_to(draw, points.shape)).sum())


def check_comes_off(planned: Planned) -> None:
    """Every piece is moved off alone, the other one and the gloved body in place; pushed 3 mm in it collides."""
    gloved = meshes_of(planned)["mold/gloved.stl"]
    pieces = [meshes_of(planned)[piece.file] for piece in planned.plan.shell.pieces]
    draws = [np.array(piece.draw) for piece in planned.plan.shell.pieces]
    body = bodies.solid(gloved)
    solids = [bodies.solid(piece) for piece in pieces]
    for n, (piece, draw) in enumerate(zip(pieces, draws, strict=True)):
        assert np.linalg.norm(draw) == pytest.approx(1.0)
        standing = [body, *(solid for m, solid in enumerate(solids) if m != n)]
        clear = float((gloved.vertices @ draw).max() - (piece.vertices @ draw).min()) + 1.0
        for away in [0.0, 0.1, 0.3, *np.linspace(1.0, clear, OFFSETS - 3)]:
            assert overlap_mm3(solids[n], away * draw, standing) <= TOUCH_MM3, f"piece {n + 1} at {away:.1f} mm"
        assert overlap_mm3(solids[n], -3.0 * draw, [body]) > 100, "pushed in, it must collide"
        assert rays_that_meet(piece, draw, gloved) == 0
