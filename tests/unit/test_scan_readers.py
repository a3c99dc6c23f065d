"""Every format gives the same box: 20 x 30 x 40, volume 24 000, area 5200 (exact)."""

from __future__ import annotations

import io
from pathlib import Path

import numpy as np
import pytest
import trimesh
from original_files import (
    QUADS,
    ascii_stl,
    box,
    box_3mf,
    every_format,
    glb,
    mesh_xml,
    model,
    obj,
    off,
    ply,
    stl,
    threemf,
)
from original_scans import read, repairs_of

from moldwright.scan import read_with_hash
from moldwright.scan.repairs import RepairCode
from moldwright.scan.weld import merge_equal

FILES = every_format()


@pytest.mark.parametrize("name", FILES)
def test_every_format_gives_the_same_box(name: str) -> None:
    scan = read(name, FILES[name])
    assert scan.mesh.volume_mm3 == pytest.approx(24_000, rel=1e-12)
    assert scan.mesh.area_mm2 == pytest.approx(5_200, rel=1e-12)
    assert (len(scan.mesh.vertices), len(scan.mesh.faces), scan.bodies, scan.watertight) == (8, 12, 1, True)
    assert scan.mesh.why_invalid() == ""
    assert scan.repairs == ()
    assert scan.format == name[-3:]


@pytest.mark.parametrize("name", ["box.stl", "box.ply", "box.obj", "box.off", "box.glb", "box.3mf"])
def test_sizes_agree_with_a_reference_library(name: str) -> None:
    """trimesh reads the same bytes."""
    peer = trimesh.load(io.BytesIO(FILES[name]), file_type=name[-3:], force="mesh")
    scan = read(name, FILES[name])
    np.testing.assert_allclose(scan.mesh.bounds_mm, peer.bounds, rtol=1e-6)
    assert scan.mesh.volume_mm3 == pytest.approx(peer.volume, rel=1e-6)


def test_files_written_by_a_reference_library_read_back(tmp_path: Path) -> None:
    """A sphere written by trimesh in six formats, through the child process."""
    sphere = trimesh.creation.icosphere(2, 30.0)
    for kind in ("stl", "ply", "obj", "off", "glb", "3mf"):
        sphere.export(tmp_path / f"sphere.{kind}")
        scan = read_with_hash(tmp_path / f"sphere.{kind}").scan
        assert scan.mesh.volume_mm3 == pytest.approx(sphere.volume, rel=1e-5)
        assert (len(scan.mesh.faces), scan.bodies, scan.watertight) == (320, 1, True)


@pytest.mark.parametrize(("unit", "short"), [("micron", "um"), ("inch", "in"), ("foot", "ft"), ("meter", "m")])
def test_3mf_unit_is_honored(unit: str, short: str) -> None:
    scan = read("box.3mf", box_3mf(unit))
    assert (scan.unit, scan.up) == (short, (0.0, 0.0, 1.0))


def test_glb_is_in_meters_with_y_up() -> None:
    scan = read("box.glb", FILES["box.glb"])
    assert (scan.unit, scan.up) == ("m", (0.0, 1.0, 0.0))


@pytest.mark.parametrize("name", ["box.stl", "box.ply", "box.obj", "box.off"])
def test_other_formats_tell_neither_unit_nor_up(name: str) -> None:
    scan = read(name, FILES[name])
    assert (scan.unit, scan.up) == (None, None)


def test_3mf_components_and_transforms() -> None:
    """Two boxes by components, one twice as large and mirrored: 24 000 x (1 + 8); the unused third is left out."""
    resources = (
        f'<object id="1" type="model">{mesh_xml(*box())}</object>'
        '<object id="2"><components><component objectid="1" transform="1 0 0 0 1 0 0 0 1 100 0 0"/>'
        '<component objectid="1" transform="-2 0 0 0 2 0 0 0 2 0 0 0"/></components></object>'
        f'<object id="3">{mesh_xml(*box())}</object>'
    )
    scan = read("two.3mf", threemf(model(resources, '<item objectid="2" transform="0 1 0 -1 0 0 0 0 1 0 0 5"/>')))
    assert scan.mesh.volume_mm3 == pytest.approx(9 * 24_000)
    assert scan.bodies == 2
    np.testing.assert_allclose(scan.mesh.bounds_mm, [(-60, -40, 5), (0, 120, 85)])


def test_3mf_components_in_another_part() -> None:
    """The production extension: a component whose object lies in another part of the archive."""
    space = "http://schemas.microsoft.com/3dmanufacturing/production/2015/06"
    use = f'<component xmlns:p="{space}" p:path="/3D/Objects/box.model" objectid="5"/>'
    root = model(f'<object id="1"><components>{use}</components></object>', unit="inch")
    part = model(f'<object id="5">{mesh_xml(*box())}</object>', "")
    scan = read("parts.3mf", threemf(root, **{"3D/Objects/box.model": part.encode()}))
    assert (scan.mesh.volume_mm3, scan.unit) == (pytest.approx(24_000), "in")


def test_glb_strips_and_fans() -> None:
    """A tetrahedron as one strip of four triangles, legs 30 long: volume 30^3 / 6 = 4500 (exact)."""
    points = np.array([(0, 0, 0), (30, 0, 0), (0, 30, 0), (0, 0, 30)], float)
    order = np.array([(0, 1, 2), (3, 0, 1)])
    meshes = [{"primitives": [{"attributes": {"POSITION": 0}, "indices": 1, "mode": 5}, {"attributes": {}, "mode": 1}]}]
    scan = read("strip.glb", glb(points, order, meshes=meshes))
    assert scan.mesh.volume_mm3 == pytest.approx(4_500)
    assert (len(scan.mesh.faces), scan.watertight) == (4, True)


def test_glb_nodes_and_mirrors() -> None:
    """A child node, mirrored and moved, keeps its outside out."""
    nodes = [
        {"children": [1, 2], "scale": [2, 2, 2]},
        {"mesh": 0},
        {"mesh": 0, "matrix": [-1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1, 0, -50, 0, 0, 1]},
    ]
    scan = read("two.glb", glb(*box(), nodes=nodes))
    assert scan.mesh.volume_mm3 == pytest.approx(2 * 8 * 24_000)
    assert scan.bodies == 2
    np.testing.assert_allclose(scan.mesh.bounds_mm, [(-140, 0, 0), (40, 60, 80)])


def test_parts_that_touch_stay_two_bodies() -> None:
    """Two boxes of one 3MF that share a whole side are two closed bodies of 48 000 together."""
    items = '<item objectid="1"/><item objectid="1" transform="1 0 0 0 1 0 0 0 1 20 0 0"/>'
    text = model(f'<object id="1">{mesh_xml(*box())}</object>', items)
    scan = read("touching.3mf", threemf(text))
    assert (scan.bodies, scan.watertight) == (2, True)
    assert scan.mesh.volume_mm3 == pytest.approx(48_000)


def test_obj_negative_indices_slashes_and_other_statements() -> None:
    points, _ = box()
    rows = ["# a box", "mtllib other.mtl", "o piece", "g side"]
    rows += [f"v {x} {y} {z}" for x, y, z in points] + ["vt 0 0", "vn 0 0 1", "usemtl red", "s off"]
    rows += ["f " + " ".join(f"{k - 8}/1/1" for k in quad) for quad in QUADS[:3]]
    rows += ["f " + " ".join(f"{k + 1}//1" for k in quad) for quad in QUADS[3:]]
    scan = read("box.obj", "\r\n".join(rows).encode())
    assert scan.mesh.volume_mm3 == pytest.approx(24_000)
    assert repairs_of(scan) == {RepairCode.MATERIALS_IGNORED: 1}


def test_obj_lines_may_go_on() -> None:
    data = obj(box()[0], QUADS).replace(b"f 1 3 4 2", b"f 1 3 \\\n4 2")
    assert read("box.obj", data).mesh.volume_mm3 == pytest.approx(24_000)


@pytest.mark.parametrize("word", ["COFF", "NOFF", "OFF"])
def test_off_variants_comments_and_colors(word: str) -> None:
    points, _ = box()
    more = {"COFF": " 255 0 0 255", "NOFF": " 0 0 1", "OFF": ""}[word]
    rows = [word + " # a word", "# counts", "8 6 0", ""] + [f"{x} {y} {z}{more} # vertex" for x, y, z in points]
    rows += ["4 " + " ".join(map(str, quad)) + (" 0.5 0.25 1" if k % 2 else "") for k, quad in enumerate(QUADS)]
    assert read("box.off", "\n".join(rows).encode()).mesh.volume_mm3 == pytest.approx(24_000)


def test_off_counts_may_stand_beside_the_word() -> None:
    data = off(*box()).replace(b"OFF\n8", b"OFF 8")
    assert read("box.off", data).mesh.volume_mm3 == pytest.approx(24_000)


@pytest.mark.parametrize("gap", ["\n", " ", "\r\n\t"])
def test_ascii_stl_in_any_layout(gap: str) -> None:
    data = ascii_stl(*box(), gap=gap).replace(b"vertex", b"VERTEX")
    assert read("box.stl", data).mesh.volume_mm3 == pytest.approx(24_000)


def test_binary_stl_may_begin_with_solid() -> None:
    assert read("box.stl", stl(*box(), header=b"solid piece")).mesh.volume_mm3 == pytest.approx(24_000)


def test_stl_vertices_merge_bit_by_bit_only() -> None:
    """A gap of one last place of float32 stays open."""
    points, faces = box()
    corners = points[faces].astype(np.float32)
    corners[0, 0] = np.nextafter(np.float32(0), np.float32(1))
    apart = stl(corners.reshape(-1, 3).astype(float), np.arange(36).reshape(-1, 3))
    scan = read("box.stl", apart)
    assert len(scan.mesh.vertices) == 9
    assert not scan.watertight
    assert repairs_of(scan)[RepairCode.OPEN_EDGES] == 4


def test_minus_zero_is_zero() -> None:
    points, faces = box()
    corners = points[faces]
    corners[::2][corners[::2] == 0] = -0.0
    scan = read("box.stl", stl(corners.reshape(-1, 3), np.arange(36).reshape(-1, 3)))
    assert len(scan.mesh.vertices) == 8


def test_merging_survives_marks_that_agree(monkeypatch: pytest.MonkeyPatch) -> None:
    """Where different rows get one mark, rows are compared themselves; numpy.unique is the reference."""
    rows = np.random.default_rng(1).integers(0, 4, (200, 3)).astype(np.float64)
    monkeypatch.setattr("moldwright.scan.weld._mixed", lambda bits: np.zeros(len(bits), np.uint64))
    first, place = merge_equal(rows)
    np.testing.assert_array_equal(rows[first][place], rows)
    assert len(first) == len(np.unique(rows, axis=0))
    assert (np.diff(first) > 0).all()


def test_concave_polygons_are_cut_inside_themselves() -> None:
    """A prism over an L of area 4 and girth 10, 4 high, times 10: volume 16 000, area 800 + 4000 (exact)."""
    ring = [(1, 1), (1, 3), (0, 3), (0, 0), (2, 0), (2, 1)]
    points = np.array([(x, y, z) for z in (0, 4) for x, y in ring], float) * 10
    low, high = tuple(range(6)), tuple(range(11, 5, -1))
    sides = [(k, k + 6, (k + 1) % 6 + 6, (k + 1) % 6) for k in range(6)]
    for name, data in {"l.off": off(points, [low, high, *sides]), "l.ply": ply(points, [low, high, *sides])}.items():
        scan = read(name, data)
        assert scan.mesh.volume_mm3 == pytest.approx(16_000)
        assert scan.mesh.area_mm2 == pytest.approx(4_800)
        assert scan.watertight


def test_a_large_scan_in_pieces_of_text(monkeypatch: pytest.MonkeyPatch) -> None:
    """Blocks of a few lines give what one block gives, negative indices included."""
    sphere = trimesh.creation.icosphere(2, 30.0)
    text = obj(sphere.vertices, sphere.faces - len(sphere.vertices) - 1)
    whole = read("s.obj", text)
    monkeypatch.setattr("moldwright.scan.text.blocks.__defaults__", (500,))
    pieces = read("s.obj", text)
    np.testing.assert_array_equal(pieces.mesh.corners, whole.mesh.corners)
    assert whole.mesh.volume_mm3 == pytest.approx(sphere.volume)
    ascii_pieces = read("s.stl", ascii_stl(sphere.vertices, sphere.faces))
    assert ascii_pieces.mesh.volume_mm3 == pytest.approx(sphere.volume)
