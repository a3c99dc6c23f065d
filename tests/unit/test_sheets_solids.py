"""STL and 3MF are read back by readers that have no part in writing them: trimesh, and the 3MF consortium's lib3mf."""

from __future__ import annotations

import struct
from dataclasses import replace
from pathlib import Path

import geometry_bodies as bodies
import numpy as np
import pytest
import trimesh
from sheets_fixture import ball, mold_meshes

from moldwright.errors import ComputationFailed
from moldwright.geometry.mesh import Mesh
from moldwright.sheets.model_files import NamedSolid, body_bytes, package_bytes, read_again, stl_bytes, write_stl


def _solids() -> list[NamedSolid]:
    meshes = mold_meshes()
    shell = [NamedSolid(f"shell {k}", mesh, "#d9d5ca") for k, mesh in enumerate(meshes.shell, start=1)]
    return [
        NamedSolid("original", meshes.original, "#2a3a35"),
        NamedSolid('glove <&">', meshes.glove, "#4279bd"),
        *shell,
    ]


def test_stl_is_the_format_and_reads_back(tmp_path: Path) -> None:
    """Size by the format: 84 bytes and 50 a triangle."""
    mesh, path = mold_meshes().glove, tmp_path / "glove.stl"
    write_stl(mesh, path)
    raw = path.read_bytes()
    assert len(raw) == 84 + 50 * len(mesh.faces)
    assert struct.unpack("<I", raw[80:84])[0] == len(mesh.faces)
    assert not raw.startswith(b"solid")
    back = trimesh.load_mesh(path)
    assert back.is_watertight
    assert back.volume == pytest.approx(mesh.volume_mm3, rel=1e-5)
    assert np.allclose(back.bounds, mesh.bounds_mm, atol=1e-4)


def test_3mf_reads_back_by_trimesh_with_names_and_volumes(tmp_path: Path) -> None:
    path = tmp_path / "mold.3mf"
    path.write_bytes(package_bytes(_solids(), "mold"))
    back = trimesh.load_scene(path)
    assert back.units == "millimeter"
    volumes = {name: float(mesh.volume) for name, mesh in back.geometry.items()}
    assert volumes == pytest.approx({s.name: s.mesh.volume_mm3 for s in _solids()}, rel=1e-5)
    assert np.allclose(back.bounds, np.array([_bounds(_solids())]).reshape(2, 3), atol=1e-4)


def _bounds(solids: list[NamedSolid]) -> tuple[np.ndarray, np.ndarray]:
    moved = np.concatenate([solid.mesh.vertices + np.array(solid.way_mm) for solid in solids])
    return moved.min(axis=0), moved.max(axis=0)


def _apart() -> list[NamedSolid]:
    ways = ((0.0, 0.0, 0.0), (0.0, 0.0, 150.25), (-120.5, 3.0, 150.25), (120.5, -3.0, 150.25))
    return [replace(solid, way_mm=way) for solid, way in zip(_solids(), ways, strict=True)]


def test_3mf_drawn_apart_shows_each_solid_moved_by_its_way(tmp_path: Path) -> None:
    """By trimesh, which knows nothing of ways: each solid's own box, as the scene places it."""
    path = tmp_path / "apart.3mf"
    path.write_bytes(package_bytes(_apart(), "mold drawn apart"))
    scene = trimesh.load_scene(path)
    assert np.allclose(scene.bounds, _bounds(_apart()), atol=1e-4)
    placed = {scene.graph[node][1]: scene.graph[node][0] for node in scene.graph.nodes_geometry}
    for solid in _apart():
        assert placed[solid.name][:3, 3] == pytest.approx(solid.way_mm, abs=1e-4)
        assert np.allclose(placed[solid.name][:3, :3], np.eye(3))


def test_3mf_builds_one_object_whose_components_are_the_solids(tmp_path: Path) -> None:
    """3MF Core Specification 1.3, chapter 4.2 (components, from memory), by the consortium's reader in strict mode."""
    lib3mf = pytest.importorskip("lib3mf")
    path = tmp_path / "apart.3mf"
    path.write_bytes(package_bytes(_apart(), "mold drawn apart"))
    model = lib3mf.get_wrapper().CreateModel()
    reader = model.QueryReader("3mf")
    reader.SetStrictModeActive(True)
    reader.ReadFromFile(str(path))
    assert reader.GetWarningCount() == 0
    items = model.GetBuildItems()
    assert items.Count() == 1
    items.MoveNext()
    whole = items.GetCurrent().GetObjectResource()
    assert whole.IsComponentsObject()
    assert whole.GetName() == "mold drawn apart"
    parts = [whole.GetComponent(k) for k in range(whole.GetComponentCount())]
    assert [part.GetObjectResource().GetName() for part in parts] == [solid.name for solid in _apart()]
    ways = [list(part.GetTransform().Fields[3]) for part in parts]
    assert np.allclose(ways, [solid.way_mm for solid in _apart()], atol=1e-4)


def test_3mf_is_accepted_by_the_consortiums_reader(tmp_path: Path) -> None:
    """3MF Core Specification through lib3mf in strict mode: no warning; unit, names, colors, counts."""
    lib3mf = pytest.importorskip("lib3mf")
    path = tmp_path / "mold.3mf"
    path.write_bytes(package_bytes(_solids(), "mold"))
    model = lib3mf.get_wrapper().CreateModel()
    reader = model.QueryReader("3mf")
    reader.SetStrictModeActive(True)
    reader.ReadFromFile(str(path))
    assert reader.GetWarningCount() == 0
    assert model.GetUnit() == lib3mf.ModelUnit.MilliMeter
    objects = model.GetMeshObjects()
    names, counts = [], []
    while objects.MoveNext():
        its = objects.GetCurrentMeshObject()
        assert its.IsManifoldAndOriented()
        names.append(its.GetName())
        counts.append(its.GetTriangleCount())
    assert names == [s.name for s in _solids()]
    assert counts == [len(s.mesh.faces) for s in _solids()]
    groups = model.GetBaseMaterialGroups()
    assert groups.MoveNext()
    group = groups.GetCurrentBaseMaterialGroup()
    colors = [group.GetDisplayColor(k) for k in group.GetAllPropertyIDs()]
    assert [f"#{c.Red:02x}{c.Green:02x}{c.Blue:02x}" for c in colors] == [s.color for s in _solids()]


def test_same_solid_same_bytes(tmp_path: Path) -> None:
    for name in ("a", "b"):
        write_stl(ball(20.0), tmp_path / f"{name}.stl")
    assert (tmp_path / "a.stl").read_bytes() == (tmp_path / "b.stl").read_bytes()
    first, second = (package_bytes([NamedSolid("ball", ball(20.0), "#112233")], "ball") for _ in range(2))
    assert first == second


def test_no_solids_are_refused() -> None:
    with pytest.raises(ComputationFailed):
        package_bytes([], "none")


def test_a_file_is_read_again_and_refused_where_it_holds_more_than_one_body() -> None:
    """Also two bodies that come to touch only when corners are rounded to single precision."""
    one = ball(20.0)
    single = Mesh(one.vertices.astype(np.float32).astype(np.float64), one.faces)
    assert body_bytes(single, "one.stl") == stl_bytes(single)
    two = bodies.soup(one, ball(20.0).moved((50.0, 0.0, 0.0)))
    with pytest.raises(ComputationFailed) as fault:
        body_bytes(two, "two.stl")
    assert fault.value.code == "file-not-one-body"
    near = bodies.soup(*(bodies.mesh(bodies.box(2, 2, 2)).moved((x, x, 0.0)) for x in (500.0, 502.0 + 1e-7)))
    with pytest.raises(ComputationFailed):
        body_bytes(near, "near.stl")


def test_what_is_read_again_is_what_another_reader_sees(tmp_path: Path) -> None:
    path = tmp_path / "glove.stl"
    write_stl(mold_meshes().glove, path)
    found, back = read_again(path.read_bytes()), trimesh.load_mesh(path)
    assert len(found.vertices) == len(back.vertices)
    assert found.volume_mm3 == pytest.approx(back.volume, rel=1e-9)
