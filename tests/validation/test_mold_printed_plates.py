"""The demo in a printed shell, as files: loaded again, whole, apart, each part in its printer.

Two numbers of pieces, two printers. Everything is read back by trimesh, met by manifold3d.
"""

from __future__ import annotations

import io
from functools import cache
from itertools import combinations
from math import fsum

import geometry_bodies as bodies
import manifold3d as m3
import numpy as np
import pytest
import trimesh
from bolts_looked_at import wrong_at

from moldwright.commission.orders import Commission, MoldOrder, OriginalOrder
from moldwright.geometry.mesh import Mesh
from moldwright.job.planning import shell_settings
from moldwright.job.solids_chain import KeptSolids, body_for, solids_for
from moldwright.job.strategies import hook_mm
from moldwright.making.demo.original import otter_mesh
from moldwright.making.files.stages import plate_files
from moldwright.materials import library
from moldwright.materials.peel_limits import allowed_stretch
from moldwright.mold.parts import PIN_DEEP_MM, PIN_MM
from moldwright.progress import silent
from moldwright.quantities.quantities import basis_of
from moldwright.ranges import Range
from moldwright.store.memory import MemoryStore

SOURCE = ("Reference libraries trimesh (3MF read again, closed) and manifold3d (volumes, overlaps)",)

pytestmark = pytest.mark.slow

CASES = ((2, 180.0, 5.0), (4, 250.0, 4.0))
"""Pieces, the printer's sides, the wall [mm]."""
PIN_ML = np.pi * (PIN_MM / 2) ** 2 * PIN_DEEP_MM / 1000.0


STORE = MemoryStore()


@cache
def built(pieces: int, room_mm: float, wall_mm: float) -> KeptSolids:
    """The solids as a plan makes them."""
    mold = MoldOrder(flange_mm=40.0, pieces=pieces, shell="printed", printed_wall_mm=wall_mm)
    order = Commission(OriginalOrder("demo", height_mm=190.0, up="+z"), mold=mold)
    basis, at = basis_of(order, library()), (STORE, silent)
    rubber, coats_mm = basis.chosen.rubber, tuple(coat.thickness_mm for coat in basis.coats)
    settings, room = shell_settings(basis.chosen.shell, mold), (room_mm,) * 3
    peels = rubber.glove_mm.high, allowed_stretch(rubber.elongation_pct.range), hook_mm(rubber)
    scan = bodies.scan(otter_mesh(1.5))
    body = body_for(scan, order.original, mold, *at)
    sure = Range.exactly(1.0), lambda *_: pieces
    solids = solids_for(scan, body, mold, coats_mm, order.cast.skin_mm, settings, room, *peels, *sure, *at)
    assert len(solids.shell.value.pieces) == pieces
    return solids


def solid(mesh: trimesh.Trimesh | Mesh) -> m3.Manifold:
    corners, faces = np.ascontiguousarray(mesh.vertices, float), np.ascontiguousarray(mesh.faces, np.uint64)
    return m3.Manifold(m3.Mesh64(corners, faces))


@pytest.mark.parametrize("case", CASES)
def test_pieces_meet_nowhere_and_nowhere_the_rubber(case: tuple[int, float, float]) -> None:
    shell = built(*case).shell.value
    every = [solid(shell.gloved), *(solid(piece.mesh) for piece in shell.pieces)]
    assert max((one ^ other).volume() for one, other in combinations(every, 2)) == 0.0


@pytest.mark.parametrize("case", CASES)
def test_plates_open_with_whole_parts_in_their_printer(case: tuple[int, float, float]) -> None:
    """Together they are the shell less what is bored for pins."""
    solids = built(*case)
    volumes_ml = []
    for content in plate_files(solids.plates.value).contents.values():
        parts = trimesh.load_scene(io.BytesIO(content), file_type="3mf").dump()
        assert all(part.is_watertight and part.is_winding_consistent and part.volume > 0.0 for part in parts)
        assert min(part.bounds.min() for part in parts) >= -1e-4
        assert max(part.bounds.max() for part in parts) <= case[1]
        assert all((solid(one) ^ solid(other)).volume() == 0.0 for one, other in combinations(parts, 2))
        volumes_ml += [part.volume / 1000.0 for part in parts]
    told = solids.printed.value
    assert len(volumes_ml) == sum(len(plate) for plate in told.plates) >= case[0]
    whole_ml = fsum(piece.mesh.volume_ml for piece in solids.shell.value.pieces)
    assert fsum(volumes_ml) == pytest.approx(whole_ml - 2 * told.pins * PIN_ML, rel=1e-3)


@pytest.mark.parametrize("case", CASES)
def test_bolts_go_through_sit_and_come_in(case: tuple[int, float, float]) -> None:
    """Looked at by trimesh's rays on the finished pieces; control: the same places on pieces that are moved."""
    shell = built(*case).shell.value
    meshes = [piece.mesh for piece in shell.pieces]
    assert len(shell.bolts) >= 6
    bolt_mm = {4.0: 20.0, 5.0: 20.0}[case[2]]
    assert [wrong_at(place, meshes, shell.gloved, bolt_mm) for place in shell.bolts] == [""] * len(shell.bolts)
    moved = [mesh.moved((3.0, 3.0, 3.0)) for mesh in meshes]
    assert all(wrong_at(place, moved, shell.gloved, bolt_mm) for place in shell.bolts)
