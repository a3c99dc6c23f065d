"""Real sculpture, planned and proven to come off by a second check that shares no code with the first.

Meshes: those of `real_meshes`.

The check: `coming_off`, with manifold3d for overlaps, trimesh with embreex for rays; vtk (by pyvista) for thickness.
"""

from __future__ import annotations

from pathlib import Path

import geometry_bodies as bodies
import numpy as np
import pytest
import pyvista
import trimesh
from coming_off import CHOSEN, PLANNED, REFUSED, TOUCH_MM3, check_comes_off, overlap_mm3, plan, rays_that_meet
from job_meshes import meshes_of, parts_ml
from packed_places import check_places
from real_meshes import file_of

from moldwright.errors import InputRefused
from moldwright.geometry.mesh import Mesh
from moldwright.job.planning import Planned
from moldwright.sheets.model_files import write_stl

SOURCE = (
    "Reference libraries manifold3d (overlap of solids) and trimesh with embreex (rays)",
    "Reference library vtk through pyvista (distance from a surface)",
)

pytestmark = pytest.mark.slow


def exported(planned: Planned, name: str, folder: Path) -> Mesh:
    """A solid as read back from its STL file, corners joined at equal places."""
    path = folder / "solid.stl"
    write_stl(meshes_of(planned)[name], path)
    read = trimesh.load(path, process=False)
    read.merge_vertices(digits_vertex=6)
    return Mesh(np.asarray(read.vertices, np.float64), np.asarray(read.faces, np.int32))


def check_whole(planned: Planned, folder: Path) -> None:
    """Every solid is closed, one body, consistently wound, positive; the glove's volumes add up within 0.1 %."""
    volume = {}
    for name, mesh in meshes_of(planned).items():
        assert mesh.why_invalid() == "", name
        assert len(bodies.solid(mesh).decompose()) == 1, name
        volume[name] = exported(planned, name, folder).volume_mm3 / 1000
        assert volume[name] == pytest.approx(mesh.volume_ml, rel=1e-5)
    mount = volume.get("mold/mount.stl", 0.0)
    assert volume["mold/glove.stl"] == pytest.approx(
        volume["mold/gloved.stl"] - volume["mold/original.stl"] - mount, rel=1e-3
    )
    glove = planned.plan.glove
    assert parts_ml(glove) == pytest.approx(volume["mold/glove.stl"], rel=1e-3)


def check_thick(planned: Planned) -> None:
    """Nowhere is the glove thinner than ordered by more than its sampling tells: vtk's distance from 40,000 places of
    its outside, over the flange, to the solid inside it."""
    told = planned.plan.glove.thickness
    assert told is not None
    gloved = meshes_of(planned)["mold/gloved.stl"]
    inside = planned.solids.mounted.value.body
    points, _ = trimesh.sample.sample_surface(
        trimesh.Trimesh(gloved.vertices, gloved.faces, process=False), 40000, seed=7
    )
    points = points[points[:, 2] > told.ordered_mm + 0.01]
    peer = pyvista.PolyData.from_regular_faces(inside.vertices, inside.faces)
    thick = np.abs(pyvista.PolyData(points).compute_implicit_distance(peer)["implicit_distance"])
    assert thick.min() >= told.ordered_mm - told.sampled_mm
    assert told.ordered_mm - told.sampled_mm <= told.least.mm <= thick.min() + 0.02
    assert told.most.mm >= thick.max() - 0.5
    at = pyvista.PolyData(np.array([told.least.at])).compute_implicit_distance(peer)["implicit_distance"]
    assert min(abs(float(at[0])), told.least.at[2]) == pytest.approx(told.least.mm, abs=0.01)


@pytest.mark.parametrize("name", PLANNED)
def test_planned_and_comes_off(name: str, tmp_path: Path) -> None:
    planned = plan(name, tmp_path)
    own = planned.plan.shell.removal
    assert own.checked
    assert (own.overlap_mm3, own.rays_blocked) == (0.0, 0)
    assert own.offsets >= 12
    assert len(planned.plan.shell.pieces) == planned.plan.shell.recommended
    assert len(planned.plan.original.holes) >= CHOSEN[name].holes
    check_whole(planned, tmp_path)
    check_places(planned)
    check_thick(planned)
    check_comes_off(planned)


@pytest.mark.parametrize("name", REFUSED)
def test_refused_with_a_true_reason(name: str, tmp_path: Path) -> None:
    """The file holds more than one body (trimesh counts them too)."""
    with pytest.raises(InputRefused) as refused:
        plan(name, tmp_path)
    assert refused.value.code == CHOSEN[name].refused
    assert trimesh.load(file_of(name, tmp_path)).body_count > 1


def test_the_second_check_finds_a_locked_piece() -> None:
    """A ring round a waist: along x it is locked, and the check's own parts say so."""
    plate = bodies.cone(30, 30, 20, 64)
    waist = plate + bodies.cone(12, 12, 60, 64) + plate.translate((0, 0, 40))
    ring = (bodies.cone(25, 25, 16, 64) - bodies.cone(13, 13, 16, 64)).translate((0, 0, 22))
    draw = np.array([1.0, 0.0, 0.0])
    assert overlap_mm3(ring, 0 * draw, [waist]) <= TOUCH_MM3
    assert overlap_mm3(ring, 5 * draw, [waist]) > 100
    assert rays_that_meet(bodies.mesh(ring), draw, bodies.mesh(waist)) > 1000
