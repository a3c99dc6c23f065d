"""The file of solids for the screen: written, read again, and held against trimesh on meshes that are not ours."""

from __future__ import annotations

import io

import geometry_bodies as bodies
import numpy as np
import pytest
import pyvista as pv
import trimesh
from tests.photo_sets.real import PACKAGED, packaged

from moldwright.errors import ComputationFailed
from moldwright.geometry.mesh import Mesh
from moldwright.geometry.shaded import shaded
from moldwright.geometry.simplified import simplified
from moldwright.making.screen.packed_parts import ScreenMold, drawable, mold_of_bytes, packed_mold

FILES = ("bear.off", "hand.off", "nut.ply")
MOST_OFF = 65534 * 2
"""A place is off by half a step at most, a step is the extent by 65534 (the form's own words)."""


def foreign(name: str) -> trimesh.Trimesh:
    try:
        return packaged(next(each for each in PACKAGED if each.file == name))
    except FileNotFoundError:
        pytest.skip(f"{name}: its package is not here")


def ours(mesh: trimesh.Trimesh) -> Mesh:
    return Mesh(np.array(mesh.vertices, np.float64), np.array(mesh.faces, np.int32))


def there_and_back(mesh: Mesh) -> ScreenMold:
    return mold_of_bytes(packed_mold(ScreenMold((drawable("original", "original", mesh),), 0.125)))


@pytest.mark.parametrize("name", FILES)
def test_a_body_comes_back_as_it_was(name: str) -> None:
    body = foreign(name)
    read = there_and_back(ours(body)).parts[0]
    again = trimesh.Trimesh(read.vertices, read.faces, process=False)
    off = body.extents.max() / MOST_OFF
    assert len(read.faces) == len(body.faces)
    np.testing.assert_allclose(
        np.sort(again.triangles_center, axis=0), np.sort(body.triangles_center, axis=0), atol=1.01 * off
    )
    assert again.volume == pytest.approx(body.volume, rel=1e-3)
    assert again.area == pytest.approx(body.area, rel=1e-3)
    again.merge_vertices(merge_norm=True)
    assert again.is_watertight


@pytest.mark.parametrize("name", FILES)
def test_normals_lie_with_the_triangles_around_a_corner(name: str) -> None:
    """A corner's normal is within the bend of an edge, 40 degrees, of each of its triangles' (trimesh's), and a little
    for eight bits and for averages at corners of many small triangles."""
    body = foreign(name)
    read = there_and_back(ours(body)).parts[0]
    again = trimesh.Trimesh(read.vertices, read.faces, process=False)
    turned = np.einsum("fij,fj->fi", read.normals[read.faces], again.face_normals)
    whole = again.area_faces > np.percentile(again.area_faces, 5)
    assert np.percentile(turned[whole], 1) > np.cos(np.radians(45.0))


def test_a_ball_s_normals_point_from_its_middle() -> None:
    made = trimesh.creation.icosphere(4, 30.0)
    read = there_and_back(ours(made)).parts[0]
    assert len(read.vertices) == len(made.vertices)
    np.testing.assert_allclose(read.normals, read.vertices / 30.0, atol=0.02)


def test_a_cube_s_corners_are_split_at_its_edges() -> None:
    ready = shaded(bodies.mesh(bodies.box(10, 20, 30)))
    assert len(ready.vertices) == 24
    assert sorted({tuple(row) for row in np.abs(ready.normals).tolist()}) == [(0, 0, 127), (0, 127, 0), (127, 0, 0)]


def test_a_corner_is_first_used_in_the_order_in_which_it_lies() -> None:
    faces = shaded(ours(trimesh.creation.icosphere(3, 5.0))).faces.ravel()
    _, first = np.unique(faces, return_index=True)
    assert (np.diff(first) > 0).all()


def test_quantities_come_back_and_nothing_stays_nothing() -> None:
    part = drawable("rubber", "rubber", ours(trimesh.creation.icosphere(3, 5.0)))
    told = np.linspace(0.0, 8.0, len(part.vertices))
    told[::7] = np.nan
    sent = ScreenMold(
        (type(part)(part.id, part.kind, part.vertices, part.normals, part.faces, {"thickness": told}),), 0.0
    )
    back = mold_of_bytes(packed_mold(sent)).parts[0].quantities["thickness"]
    assert np.array_equal(np.isnan(back), np.isnan(told))
    np.testing.assert_allclose(back, told, atol=8.0 / MOST_OFF * 1.01)


@pytest.mark.parametrize("cut", [3, 40, -7])
def test_a_torn_file_is_told(cut: int) -> None:
    raw = packed_mold(ScreenMold((drawable("a", "coat", bodies.mesh(bodies.box(1, 1, 1))),), 0.0))
    with pytest.raises(ComputationFailed, match="screen-file-torn"):
        mold_of_bytes(raw[:cut])


def test_fewer_triangles_are_off_by_no_more_than_is_told() -> None:
    """VTK measures how far corners of the full ball are off the simple one; what is told is of those looked at."""
    full = ours(trimesh.creation.icosphere(6, 50.0))
    made = simplified([full], 20_000)
    simple = made.meshes[0]
    assert len(simple.faces) <= 20_000
    few = full.vertices[::40]
    surface = pv.make_tri_mesh(simple.vertices, simple.faces)
    away = np.abs(pv.PolyData(few).compute_implicit_distance(surface)["implicit_distance"])
    assert 0.0 < made.off_mm < 1.0
    assert away.max() <= made.off_mm * 1.2


def test_what_is_few_enough_stays_as_it_is() -> None:
    full = bodies.mesh(bodies.box(1, 2, 3))
    made = simplified([full], 12)
    assert made.meshes == (full,)
    assert made.off_mm == 0.0
    assert io.BytesIO(packed_mold(ScreenMold((), made.off_mm))).read(4) == b"MWS1"
