"""The demo's sculpture: closed, one body, one hole, flat footing. Euler's V - E + F = 2 - 2g is textbook topology."""

from __future__ import annotations

import tomllib
from pathlib import Path

import numpy as np
import pytest
from scipy.sparse import coo_matrix
from scipy.sparse.csgraph import connected_components
from scipy.spatial import ConvexHull, cKDTree
from skimage.measure import marching_cubes

from moldwright.commission.reading import commission_from_toml
from moldwright.geometry.mesh import Mesh
from moldwright.making.demo import original
from moldwright.making.demo.original import otter_mesh, write_demo


@pytest.fixture(scope="module")
def otter() -> Mesh:
    return otter_mesh()


def bodies(vertices: int, faces: np.ndarray) -> tuple[int, np.ndarray]:
    ends = np.concatenate([faces[:, :2], faces[:, 1:]])
    links = coo_matrix((np.ones(len(ends)), ends.T), shape=(vertices, vertices))
    return connected_components(links, directed=False)


def genus(vertices: int, faces: np.ndarray) -> float:
    edges = np.unique(np.sort(np.concatenate([faces[:, :2], faces[:, 1:], faces[:, [2, 0]]]), axis=1), axis=0)
    return 1 - (vertices - len(edges) + len(faces)) / 2


def heights_over(mesh: Mesh, x: float, y: float) -> np.ndarray:
    """Where the upright line through (x, y) meets the mesh, lowest first (barycentric, plane geometry)."""
    a, b, c = (mesh.corners[:, i] for i in range(3))
    area = np.cross(b - a, c - a)[:, 2]
    here = np.array([x, y, 0.0])
    u, v = (np.cross(q - p, here - p)[:, 2] for p, q in ((b, c), (c, a)))
    with np.errstate(divide="ignore", invalid="ignore"):
        u, v = u / area, v / area
        hit = (u > 0) & (v > 0) & (u + v < 1)
    u, v = u[hit], v[hit]
    return np.sort(u * a[hit, 2] + v * b[hit, 2] + (1 - u - v) * c[hit, 2])


def test_it_is_one_closed_body_with_one_hole(otter: Mesh) -> None:
    assert otter.why_invalid() == ""
    assert bodies(len(otter.vertices), otter.faces)[0] == 1
    assert genus(len(otter.vertices), otter.faces) == 1


def test_size_and_triangles(otter: Mesh) -> None:
    low, high = otter.bounds_mm
    assert low[2] == 0.0
    assert high[2] == pytest.approx(190, abs=0.5)
    assert 150_000 <= len(otter.faces) <= 250_000


def test_it_stands_on_a_wide_flat_base(otter: Mesh) -> None:
    flat = otter.faces[(otter.vertices[otter.faces, 2] == 0.0).all(axis=1)]
    area_mm2 = Mesh(otter.vertices, flat).area_mm2
    footprint = ConvexHull(otter.vertices[:, :2]).volume  # of a plane hull, the area
    assert area_mm2 > 10_000
    assert area_mm2 > 0.6 * footprint


def test_the_hole_at_the_tail_stays_open_for_a_ball_of_12_mm(otter: Mesh) -> None:
    """Grown by 6 mm all round, the outer surface still has its hole."""
    step, reach = 2.0, 6.5  # half a millimeter more, as the distance is taken to vertices and the lattice is coarse
    low, high = otter.bounds_mm
    axes = [np.arange(a - 12, b + 12, step) for a, b in zip(low, high, strict=True)]
    nodes = np.stack(np.meshgrid(*axes, indexing="ij"), axis=-1)
    away, _ = cKDTree(otter.vertices).query(nodes.reshape(-1, 3), distance_upper_bound=reach + 2 * step)
    field = np.minimum(away, reach + 2 * step).reshape(nodes.shape[:3])
    vertices, faces, _, _ = marching_cubes(field, reach)
    _, label = bodies(len(vertices), faces)
    outer = label == label[np.argmax(vertices[:, 2])]
    shell = faces[outer[faces[:, 0]]]
    assert genus(int(outer.sum()), shell) == 1


@pytest.mark.parametrize(("x", "y", "gap_mm"), [(-5.7, -27.6, 20.0), (0.3, -14.4, 5.0)], ids=["chin", "belly"])
def test_there_is_air_under_chin_and_belly(otter: Mesh, x: float, y: float, gap_mm: float) -> None:
    z = heights_over(otter, x, y)
    assert len(z) % 2 == 0
    assert (z[2::2] - z[1:-1:2]).max() > gap_mm


def test_twice_the_same() -> None:
    first, second = otter_mesh(3.0), otter_mesh(3.0)
    assert first.vertices.tobytes() == second.vertices.tobytes()
    assert first.faces.tobytes() == second.faces.tobytes()


def test_the_folder_holds_a_commission_that_can_be_read(
    otter: Mesh, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(original, "otter_mesh", lambda: otter)  # made once for this file
    path = write_demo(tmp_path / "demo")
    order = commission_from_toml(path.read_text(encoding="utf-8"))
    assert (path.parent / order.original.file).stat().st_size > 84 + 50 * 150_000  # binary STL: 84 + 50 bytes each
    assert (order.original.height_mm, order.edition.count, order.mold.thickness_mm) == (190, 24, 4)
    assert (order.cast.powder, order.cast.skin_mm, order.shop.temperature_c) == ("bronze", 4, 22)
    assert tomllib.loads(path.read_text(encoding="utf-8"))["mold"]["shell"] == "plaster bandage"
