"""The lip of a lapped shell, measured on the finished solids: its reach beyond the rubber's edge on the board, and the
order in which the pieces come off.

"At least half an inch (13 mm) beyond the rubber's edge", "the second piece overlaps the first": common practice, no
source. Measured with trimesh (level sections, points inside), manifold3d (overlaps), shapely.
"""

from __future__ import annotations

from functools import cache
from pathlib import Path

import geometry_bodies as bodies
import numpy as np
import pytest
import shapely
import trimesh
from coming_off import CHOSEN, TOUCH_MM3, overlap_mm3
from job_meshes import meshes_of
from real_meshes import file_of
from shapely import Polygon
from trimesh.ray.ray_pyembree import RayMeshIntersector

from moldwright.commission.orders import Commission, MoldOrder, OriginalOrder
from moldwright.geometry.mesh import Mesh
from moldwright.geometry.seam_kind import Seam
from moldwright.job.planning import Planned, make_plan
from moldwright.making.demo.original import write_demo
from moldwright.materials import library
from moldwright.mold.lip import lip_reach
from moldwright.mold.shell_settings import ShellSettings
from moldwright.progress import silent
from moldwright.scan import read_with_hash
from moldwright.store.memory import MemoryStore

SOURCE = (
    "Reference libraries trimesh (sections, rays), manifold3d (overlap of solids) and shapely (distances in plan)",
)

LEAST_LIP_MM = 13.0
STRAIGHT_APART = -0.9999
FACING_MM2 = 400.0
"""Rays also meet, within 10 mm, what faces across the seam's edge: less than this is not told from that."""
GAP_MM = 4.0
"""Pieces that face each other across no more than this are laid one against the other."""


def sections(mesh: Mesh, height_mm: float) -> Polygon:
    cut = trimesh.Trimesh(mesh.vertices, mesh.faces, process=False).section([0, 0, 1], [0, 0, height_mm])
    shape = Polygon()
    for ring in cut.discrete if cut is not None else ():
        shape = shape.symmetric_difference(Polygon(np.asarray(ring)[:, :2]).buffer(0))
    return shape


def reach_mm(pieces: list[Mesh], outline: np.ndarray, height_mm: float) -> tuple[np.ndarray, np.ndarray]:
    """Points of the rubber's edge, 2 mm apart, and how far out of rubber and shell each is at a height."""
    rubber = Polygon(outline)
    laid = shapely.union_all([rubber, *(sections(piece, height_mm) for piece in pieces)])
    joined = laid.buffer(GAP_MM / 2, join_style="mitre").buffer(-GAP_MM / 2, join_style="mitre")
    body = max(getattr(joined, "geoms", [joined]), key=lambda part: part.area)
    points = shapely.line_interpolate_point(rubber.exterior, np.arange(0.0, rubber.length, 2.0))
    return shapely.get_coordinates(points), shapely.distance(points, body.exterior)


def check_lip(planned: Planned, pieces: list[Mesh]) -> None:
    """At three heights of the lip: 13 mm all along, or where it is not the plan tells the place and the figure."""
    shell, flange = planned.plan.shell, planned.plan.flange
    outline, foot_mm = np.array(flange.outline), min(piece.bounds_mm[0][2] for piece in pieces)
    top_mm = foot_mm + shell.thickness_mm
    for height_mm in np.linspace(foot_mm + 0.5, top_mm - 1.5, 3):
        points, reach = reach_mm(pieces, outline, float(height_mm))
        short = reach < LEAST_LIP_MM - 0.1
        assert shell.lip is not None
        if not short.any():
            continue
        assert shell.lip.short_mm > 0, f"{reach.min():.1f} mm at {points[reach.argmin()]}"
        assert shell.lip.least_mm <= reach.min() + 1.0
        near = np.linalg.norm(points[reach <= shell.lip.least_mm + 1.0] - np.array(shell.lip.at[:2]), axis=1)
        assert near.min() <= 5.0
        assert any(caution.rule == "short-lip" for caution in planned.plan.cautions)


def check_order(pieces: list[Mesh], draws: list[np.ndarray], gloved: Mesh) -> int:
    """First piece first each is free, rubber and later ones in place. A later one drawn while an earlier one stands
    moves into the lip where that lies on what faces the later one's way. With draws straight apart it does not: that is
    the same motion of one past the other, so either may go first. How many pairs of pieces hold each other."""
    body, solids, holding = bodies.solid(gloved), [bodies.solid(piece) for piece in pieces], 0
    for n, (piece, draw) in enumerate(zip(pieces, draws, strict=True)):
        standing = [body, *solids[n + 1 :]]
        clear = max(float((m.vertices @ draw).max()) for m in (gloved, *pieces)) - float((piece.vertices @ draw).min())
        ways = [0.0, 0.1, 0.3, *np.linspace(1.0, clear + 1.0, 13)]
        for away in ways:
            assert overlap_mm3(solids[n], away * draw, standing) <= TOUCH_MM3, f"piece {n + 1} at {away:.1f} mm"
        for before in range(n):
            held = max(overlap_mm3(solids[n], away * draw, [solids[before]]) for away in ways)
            if float(draws[before] @ draw) < STRAIGHT_APART:
                assert held <= TOUCH_MM3
            elif lapped_mm2(pieces[before], piece, draw) > FACING_MM2:
                assert held > 100.0, f"piece {n + 1} comes off before {before + 1} that lies on it"
            holding += held > 100.0
    return holding


def lapped_mm2(over: Mesh, under: Mesh, way: np.ndarray | None = None) -> float:
    """How much of a piece's surface another lies over within 10 mm, by rays from 20,000 points of it outward; of that
    which faces a way, more than 20 degrees up to it, if one is given."""
    below = trimesh.Trimesh(under.vertices, under.faces, process=False)
    points, faces = trimesh.sample.sample_surface(below, 20000, seed=3)
    out = below.face_normals[faces]
    if way is not None:
        points, out = points[out @ way > 0.34], out[out @ way > 0.34]
    above = RayMeshIntersector(trimesh.Trimesh(over.vertices, over.faces, process=False))
    places, rays, _ = above.intersects_location(points + 0.01 * out, out, multiple_hits=False)
    return float((np.linalg.norm(places - points[rays], axis=1) < 10.0).sum()) / 20000 * below.area


def check_lapped(planned: Planned) -> int:
    shell = planned.plan.shell
    pieces, gloved = [meshes_of(planned)[piece.file] for piece in shell.pieces], meshes_of(planned)["mold/gloved.stl"]
    assert (shell.seam, shell.removal.in_order) == (Seam.LAP, True)
    check_lip(planned, pieces)
    laid_on = sum(lapped_mm2(over, under) for n, over in enumerate(pieces) for under in pieces[n + 1 :])
    assert laid_on > 0.5 * (1.0 - shell.lap_left_out_share) * shell.lap_mm * shell.seam_mm
    return check_order(pieces, [np.array(piece.draw) for piece in shell.pieces], gloved)


def lapped(file: Path, height_mm: float, up: str, pieces: int, store: MemoryStore) -> Planned:
    mold = MoldOrder(pieces=pieces, seam=Seam.LAP)
    order = Commission(OriginalOrder(file.name, height_mm=height_mm, up=up), mold=mold)
    return make_plan(order, read_with_hash(file).scan, library(), store, silent)


@cache
def kept(name: str) -> MemoryStore:
    """The search is made once for both numbers of pieces."""
    return MemoryStore()


@pytest.mark.slow
@pytest.mark.parametrize("pieces", [2, 3])
def test_the_demo_lapped(pieces: int, tmp_path: Path) -> None:
    file = write_demo(tmp_path).parent / "otter.stl"
    assert check_lapped(lapped(file, 190.0, "+z", pieces, kept("demo"))) > 0, "the control: out of order it collides"


@pytest.mark.slow
@pytest.mark.parametrize("pieces", [2, 3])
@pytest.mark.parametrize("name", ["bear.off", "nut.ply"])
def test_a_packaged_mesh_lapped(name: str, pieces: int, tmp_path: Path) -> None:
    piece = CHOSEN[name]
    check_lapped(lapped(file_of(name, tmp_path), piece.height_mm, piece.up, pieces, kept(name)))


@pytest.mark.parametrize(("half_mm", "least_mm"), [(65.0, 15.0), (60.0, 10.0)])
def test_a_lip_that_is_short_is_found(half_mm: float, least_mm: float) -> None:
    """A plate 9 mm thick about a rubber flange of 100 x 100 mm, 15 mm wider but on its right, cut across its middle."""
    plate = bodies.box(65.0 + half_mm, 130.0, 9.0).translate(((half_mm - 65.0) / 2, 0.0, 4.0))
    halves = [plate ^ bodies.box(300.0, 100.0, 40.0).translate((0.0, side * 50.5, 0.0)) for side in (-1, 1)]
    outline = np.array([[-50.0, -50.0], [50.0, -50.0], [50.0, 50.0], [-50.0, 50.0]])
    found = lip_reach([bodies.mesh(half) for half in halves], outline, 4.0, ShellSettings(), 0.5)
    assert found.least_mm == pytest.approx(least_mm, abs=0.05)
    assert found.short_mm == pytest.approx(100.0 if least_mm < LEAST_LIP_MM else 0.0, abs=12.0)
    assert found.at[0] == 50.0 or least_mm == 15.0
    _, reach = reach_mm([bodies.mesh(half) for half in halves], outline, 8.0)
    assert reach.min() == pytest.approx(least_mm, abs=0.05)
