"""Real meshes from packages, against trimesh reading the same files (reference library)."""

from __future__ import annotations

import numpy as np
import pytest
import trimesh
from real_meshes import EXAMPLES, meshes, real

from moldwright.errors import InputRefused
from moldwright.original.standing.place import place
from moldwright.scan import Limits, Scan, read_with_hash
from moldwright.scan.parse import parse
from moldwright.scan.repairs import RepairCode

SOURCE = ("Reference library trimesh, reading the same files",)
SCULPTURE = ("bull", "bear", "dino", "triceratops", "hand", "mask_cone", "bones", "knot1", "rotor")
BODIES = {"bones": 26, "mask_cone": 2}
OPEN = {"mask_cone": 64}
INSIDE_OUT = ("beam", "boeing", "ellipe0.003", "head", "mesh_with_border", "open_cube", "tetrahedron")


def peer(name: str, data: bytes) -> trimesh.Trimesh:
    mesh = trimesh.load(trimesh.util.wrap_as_stream(data), file_type=name[-3:], process=False, force="mesh")
    mesh.merge_vertices(merge_tex=True, merge_norm=True)
    return mesh


def same_as(scan: Scan, other: trimesh.Trimesh) -> None:
    assert len(scan.mesh.faces) == len(other.faces)
    np.testing.assert_allclose(scan.mesh.bounds_mm, other.bounds, rtol=1e-6, atol=1e-9)
    assert scan.mesh.area_mm2 == pytest.approx(other.area, rel=1e-6)
    if other.is_watertight and other.is_winding_consistent:
        assert scan.watertight
        assert scan.mesh.volume_mm3 == pytest.approx(abs(other.volume), rel=1e-6)


@pytest.mark.parametrize("name", ["nut.ply", "ant.ply", "sphere.ply"])
def test_examples_from_pyvista(name: str) -> None:
    data = (EXAMPLES / name).read_bytes()
    scan, other = read_with_hash(EXAMPLES / name).scan, peer(name, data)
    same_as(scan, other)
    assert scan.bodies == other.body_count


def test_an_open_airplane_in_seven_parts() -> None:
    """pyvista's airplane: its parts and its open edges are counted as VTK counts them."""
    pyvista = pytest.importorskip("pyvista", exc_type=ImportError, reason="VTK needs a desktop's libraries")
    scan = read_with_hash(EXAMPLES / "airplane.ply").scan
    vtk = pyvista.read(EXAMPLES / "airplane.ply")
    sizes = {repair.code: repair.size for repair in scan.repairs}
    assert scan.bodies == len(vtk.clean().split_bodies())
    assert (
        sizes[RepairCode.OPEN_EDGES]
        == vtk.clean()
        .extract_feature_edges(boundary_edges=True, non_manifold_edges=False, feature_edges=False, manifold_edges=False)
        .n_cells
    )
    assert not scan.watertight


@pytest.mark.slow
@pytest.mark.parametrize("name", SCULPTURE)
def test_sculpture_reads_as_the_reference_reads_it(name: str) -> None:
    data = real(f"{name}.off")
    scan = parse(f"{name}.off", data, Limits())
    same_as(scan, peer(f"{name}.off", data))
    assert scan.bodies == BODIES.get(name, 1)
    assert {r.code: r.size for r in scan.repairs}.get(RepairCode.OPEN_EDGES, 0) == OPEN.get(name, 0)


@pytest.mark.slow
@pytest.mark.parametrize("name", SCULPTURE)
@pytest.mark.parametrize("up", ["+x", "-y", "+z"])
def test_sculpture_stands_at_its_height(name: str, up: str) -> None:
    scan = parse(f"{name}.off", real(f"{name}.off"), Limits())
    placed = place(scan, height_mm=160.0, up=up)
    axis = "xyz".index(up[1])
    assert placed.mesh.vertices[:, 2].max() == pytest.approx(160.0)
    low, high = scan.mesh.bounds_mm
    whole = placed.mesh.vertices[:, 2].max() - placed.mesh.vertices[:, 2].min()
    ratio = whole / (high - low)[axis]
    assert placed.mesh.area_mm2 == pytest.approx(scan.mesh.area_mm2 * ratio**2)


@pytest.mark.slow
def test_each_real_mesh_is_read_or_truly_refused() -> None:
    """All files of the package: read as the reference reads them, none refused (clouds and non-meshes apart)."""
    real("bull.off")
    refused = {}
    for name, data in meshes().items():
        try:
            scan = parse(name, data, Limits())
        except InputRefused as error:
            refused[name] = error.code
            continue
        assert np.isfinite(scan.mesh.vertices).all()
        assert scan.mesh.faces.max() < len(scan.mesh.vertices)
    assert refused == {}
    assert len(meshes()) > 100


@pytest.mark.slow
@pytest.mark.parametrize("name", INSIDE_OUT)
def test_meshes_inside_out_are_turned(name: str) -> None:
    """The reference measures a negative volume once its windings are made consistent; so the file is inside out."""
    data = real(f"{name}.off")
    other = peer(f"{name}.off", data)
    assert other.volume < 0
    scan = parse(f"{name}.off", data, Limits())
    assert any(r.code in (RepairCode.TURNED_TO_NEIGHBORS, RepairCode.TURNED_OUTWARD) for r in scan.repairs)
    middle = scan.mesh.vertices.mean(axis=0)
    assert scan.mesh.moved(-middle).volume_mm3 > 0
