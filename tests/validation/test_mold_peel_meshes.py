"""Real sculpture: every mesh is told how its glove comes off; ways over the surface against edges, handles
against Euler.

Meshes: those of `real_meshes`. Reference libraries: scipy (Dijkstra along edges, never shorter than a way over the
surface but for its error of an edge, and longer by a detour at most), trimesh (Euler's number of the body) and vtk
through pyvista (distance from a surface). Stretch on two meshes within 15 %, of loops that both have: texture counts.
"""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest
import pyvista
import trimesh
from real_meshes import file_of
from scipy.sparse import coo_matrix
from scipy.sparse.csgraph import dijkstra
from test_mold_removal_debian import CHOSEN, PLANNED

from moldwright.geometry.mesh import Mesh
from moldwright.job.standing import mounted_on, settle
from moldwright.mold import peel_surface as surfaces
from moldwright.mold.peel_places import Peeled, peeled_of, tight_places
from moldwright.mold.slit_path import corner_costs, opened, slit_paths
from moldwright.original.mending.through_holes import through_holes
from moldwright.progress import silent
from moldwright.scan import read_with_hash

SOURCE = (
    "Reference libraries scipy (Dijkstra along edges) and trimesh (Euler's number)",
    "Reference library vtk through pyvista (distance from a surface)",
)

pytestmark = pytest.mark.slow

DETOUR = 1.5
"""A path along edges is longer than a straight one by sqrt(2) at most in squares with one diagonal; these are worse."""
LIMB_MM = 25.0
"""Shorter loops are texture on the coarse mesh."""


def body_of(name: str, folder: Path) -> Mesh:
    piece = CHOSEN[name]
    scan = read_with_hash(file_of(name, folder)).scan
    return mounted_on(settle(scan, piece.height_mm, None, piece.up, None, silent), 20.0, 0.1).body


def edges_mm(peeled: Peeled) -> np.ndarray:
    """Each corner's way along edges from the board."""
    mesh = peeled.surface.mesh
    edges = np.concatenate([mesh.faces[:, [0, 1]], mesh.faces[:, [1, 2]], mesh.faces[:, [2, 0]]])
    length = np.linalg.norm(mesh.vertices[edges[:, 0]] - mesh.vertices[edges[:, 1]], axis=1)
    graph = coo_matrix((length, (edges[:, 0], edges[:, 1])), shape=(len(mesh.vertices),) * 2).tocsr()
    graph = graph.minimum(graph.T)
    found: np.ndarray = dijkstra(graph, indices=np.flatnonzero(mesh.vertices[:, 2] <= 1e-6), min_only=True)
    return found


@pytest.mark.parametrize("name", PLANNED)
def test_every_mesh_is_told_how_its_glove_comes_off(name: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    body = body_of(name, tmp_path)
    divided = [hole.at for hole in through_holes(body, 0.5)]
    found = peeled_of(surfaces.peel_surface(body, body, 13.0), divided)
    along, away = edges_mm(found), found.surface.away_mm
    reached = np.isfinite(away)
    assert reached.mean() > 0.99
    assert (away[reached] <= along[reached] + found.surface.edge_mm).all()
    assert (along[reached] <= DETOUR * away[reached] + 8 * found.surface.edge_mm).all()
    euler = trimesh.Trimesh(body.vertices, body.faces, process=False).euler_number
    if euler == 2:
        assert not [part for part in found.parts.all if part.handle]
    elif CHOSEN[name].holes:
        assert [part for part in found.parts.all if part.handle]
    monkeypatch.setattr(surfaces, "TRIANGLES", 10_000)
    coarse = peeled_of(surfaces.peel_surface(body, body, 13.0), divided)
    assert of_limbs(coarse) == pytest.approx(of_limbs(found), rel=0.15)
    places = tight_places(found)
    assert not places or places[0].stretch == found.stretch.max()
    allowed = 1.0 + (found.stretch.max() - 1.0) / 2
    tight = np.flatnonzero(found.stretch > allowed)
    if len(tight):
        check_slit(found, tight, allowed)


def of_limbs(peeled: Peeled) -> float:
    """The greatest stretch of loops that both meshes have."""
    long = np.array([part.loops[0].length_mm >= LIMB_MM for part in peeled.parts.all])
    return float(peeled.stretch[long].max(initial=1.0))


def check_slit(found: Peeled, tight: np.ndarray, allowed: float) -> None:
    """The cuts lie on the surface and reach past every loop that is too tight; what stays closed is slack enough."""
    paths = slit_paths(found, tight, corner_costs(found, [], None))
    mesh = trimesh.Trimesh(found.surface.mesh.vertices, found.surface.mesh.faces, process=False)
    for path in paths:
        off = pyvista.PolyData(path).compute_implicit_distance(pyvista.wrap(mesh))["implicit_distance"]
        assert np.abs(off).max() < 0.05
    assert min(path[0, 2] for path in paths) < 1e-6
    assert found.stretch[~opened(found, tight)].max() <= allowed
