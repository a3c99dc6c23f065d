"""The solids and numbers of one real plan hang together: volumes add up, solids are whole, the shell comes off."""

from __future__ import annotations

import io

import geometry_bodies as bodies
import numpy as np
import pytest
import trimesh
from conftest import Job
from job_meshes import meshes_of, parts_ml
from packed_places import check_places
from peer_distance import peer_distance

from moldwright.mold.removal import check_removal
from moldwright.sheets.model_files import write_stl


def named(job: Job, name: str):  # type: ignore[no-untyped-def]
    return meshes_of(job.planned)[f"mold/{name}.stl"]


def through_stl(job: Job, name: str, folder) -> trimesh.Trimesh:  # type: ignore[no-untyped-def]
    """The solid as another program reads it from the plan's STL file."""
    path = folder / f"{name}.stl"
    write_stl(named(job, name), path)
    return trimesh.load(io.BytesIO(path.read_bytes()), file_type="stl")


def test_every_solid_is_whole(small_job: Job) -> None:
    """Closed, consistently wound, one body, positive volume; that also by manifold3d."""
    assert set(meshes_of(small_job.planned)) == {
        f"mold/{name}.stl" for name in ("original", "mount", "glove", "gloved", "shell-1", "shell-2")
    }
    for name, mesh in meshes_of(small_job.planned).items():
        assert mesh.why_invalid() == "", name
        parts = bodies.solid(mesh).decompose()
        assert len(parts) == 1, name
        assert parts[0].volume() == pytest.approx(mesh.volume_mm3, rel=1e-9), name


def test_every_solid_is_whole_in_its_file(small_job: Job, tmp_path) -> None:  # type: ignore[no-untyped-def]
    """trimesh reads the STL files' solids with the volumes of the plan: float32 corners cost 1e-6 of them."""
    for name in ("original", "mount", "glove", "gloved", "shell-1", "shell-2"):
        read = through_stl(small_job, name, tmp_path)
        assert read.is_watertight, name
        assert read.is_winding_consistent, name
        assert read.volume == pytest.approx(named(small_job, name).volume_mm3, rel=1e-5), name


def test_the_glove_is_gloved_less_original_less_plinth(small_job: Job, tmp_path) -> None:  # type: ignore[no-untyped-def]
    read = {name: through_stl(small_job, name, tmp_path).volume for name in ("gloved", "original", "mount", "glove")}
    assert read["glove"] == pytest.approx(read["gloved"] - read["original"] - read["mount"], rel=1e-3)


def test_coats_flange_and_fill_are_the_glove(small_job: Job, tmp_path) -> None:  # type: ignore[no-untyped-def]
    glove = small_job.planned.plan.glove
    parts = parts_ml(glove)
    assert parts == pytest.approx(through_stl(small_job, "glove", tmp_path).volume / 1000, rel=1e-3)
    assert parts == pytest.approx(glove.volume_ml.likely, rel=1e-3)
    assert min(coat.volume_ml for coat in glove.coats) > 0
    assert glove.flange.volume_ml > 0
    assert glove.fill.volume_ml >= 0


def test_coats_are_as_thick_as_ordered(small_job: Job) -> None:
    assert sum(coat.thickness_mm for coat in small_job.planned.plan.glove.coats) == pytest.approx(4.0)


def test_the_plan_says_what_the_solids_measure(small_job: Job) -> None:
    plan = small_job.planned.plan
    original = named(small_job, "original")
    assert plan.original.volume_ml == pytest.approx(original.volume_mm3 / 1000)
    assert plan.original.height_mm == pytest.approx(58.0, abs=0.3)
    for piece in plan.shell.pieces:
        assert piece.volume_ml == pytest.approx(meshes_of(small_job.planned)[piece.file].volume_mm3 / 1000)
    assert plan.mouth.plinth is not None
    assert plan.mouth.plinth.volume_ml == pytest.approx(named(small_job, "mount").volume_mm3 / 1000)
    low, _ = original.bounds_mm
    lifted = plan.mouth.plinth.height_mm - 2.0
    assert low[2] == pytest.approx(lifted, abs=0.01)
    assert plan.mouth.narrowest_mm == pytest.approx(18, abs=0.5)


def test_solids_that_must_not_overlap_do_not(small_job: Job) -> None:
    """Original, plinth, rubber and both pieces share no volume (1 mm3 for float rounding in the booleans)."""
    names = ("original", "mount", "glove", "shell-1", "shell-2")
    solid = {name: bodies.solid(named(small_job, name)) for name in names}
    for n, one in enumerate(names):
        for other in names[n + 1 :]:
            assert (solid[one] ^ solid[other]).volume() < 1.0, (one, other)


def test_the_rubber_is_as_thick_as_ordered_everywhere(small_job: Job) -> None:
    """From points on the glove's outside the original or plinth is never nearer than 4 mm less a quarter step."""
    gloved = named(small_job, "gloved")
    body = bodies.mesh(bodies.solid(named(small_job, "original")) + bodies.solid(named(small_job, "mount")))
    centers = gloved.corners.mean(axis=1)
    centers = centers[centers[:, 2] > 4.5][::7]
    distance = peer_distance(centers, body)
    assert distance.min() > 4.0 - 0.25


def test_the_shell_covers_the_rubber_but_for_the_clearance(small_job: Job) -> None:
    """Most of the gloved surface over the flange has a piece within 1.5 mm (clearance 0.5 and a step)."""
    gloved = named(small_job, "gloved")
    shell = bodies.soup(named(small_job, "shell-1"), named(small_job, "shell-2"))
    centers = gloved.corners.mean(axis=1)
    centers = centers[centers[:, 2] > 6.0][::11]
    assert float((peer_distance(centers, shell) < 1.5).mean()) > 0.95


def test_the_control_collides_and_a_locked_piece_is_found(small_job: Job) -> None:
    """Drawn along its draw each piece is free; along the other piece's draw, or up, or pushed in, it is not."""
    pieces = tuple(named(small_job, f"shell-{n}") for n in (1, 2))
    draws = tuple(piece.draw for piece in small_job.planned.plan.shell.pieces)
    gloved = named(small_job, "gloved")
    free = check_removal(pieces, draws, gloved)
    assert free.free
    assert (free.overlap_mm3, free.rays_blocked) == (0.0, 0)
    assert free.offsets >= 12
    assert free.control_overlap_mm3 > 100
    swapped = check_removal(pieces, draws[::-1], gloved)
    assert not swapped.free
    assert swapped.overlap_mm3 > 100
    assert swapped.rays_blocked > 0
    plan = small_job.planned.plan.shell.removal
    assert (plan.checked, plan.overlap_mm3, plan.rays_blocked) == (True, 0.0, 0)


def test_the_draws_are_unit_vectors_that_open_wide(small_job: Job) -> None:
    first, second = (np.array(piece.draw) for piece in small_job.planned.plan.shell.pieces)
    assert np.linalg.norm([first, second], axis=1) == pytest.approx(1.0)
    assert first @ second < np.cos(np.radians(100))


def test_nothing_is_packed_under_the_shell(small_job: Job) -> None:
    """The shell stands on the rubber flange: what lies lower needs no packing."""
    thickness = sum(coat.thickness_mm for coat in small_job.planned.plan.glove.coats)
    assert all(spot.at[2] > thickness for spot in small_job.planned.plan.glove.spots)


def test_each_place_that_is_packed_lies_on_the_glove(small_job: Job) -> None:
    assert small_job.planned.plan.glove.small_spots
    check_places(small_job.planned)
