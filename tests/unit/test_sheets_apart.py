"""The mold drawn apart: nothing is in anything's way, and each piece goes along its draw."""

from __future__ import annotations

import geometry_bodies as bodies
import numpy as np
from sheets_fixture import mold_meshes

from moldwright.geometry.mesh import Mesh
from moldwright.sheets.apart import Apart, drawn_apart

UP = np.array([0.0, 0.0, 1.0])


def _of(meshes: tuple[Mesh, ...], draws: tuple[tuple[float, float, float], ...]) -> Apart:
    its = mold_meshes()
    return drawn_apart(its.bare, its.glove, meshes, draws)


def test_the_glove_clears_the_original_and_the_pieces_clear_the_glove() -> None:
    """By manifold3d's booleans: no two solids share any volume."""
    its = mold_meshes()
    apart = _of(its.shell, its.draws)
    moved = [its.original, its.glove.moved(apart.glove)]
    moved += [piece.moved(way) for piece, way in zip(its.shell, apart.pieces, strict=True)]
    solids = [bodies.solid(mesh) for mesh in moved]
    assert all((a ^ b).volume() == 0 for k, a in enumerate(solids) for b in solids[:k])


def test_each_piece_goes_along_its_draw_beside_the_glove() -> None:
    its = mold_meshes()
    apart = _of(its.shell, its.draws)
    for way, draw in zip(apart.pieces, its.draws, strict=True):
        beside = way - apart.glove
        assert beside @ np.array(draw) > 0
        np.testing.assert_allclose(np.cross(beside, draw), 0.0, atol=1e-9)


def test_a_piece_that_draws_up_stands_over_the_glove() -> None:
    its = mold_meshes()
    whole = bodies.mesh(bodies.solid(its.shell[0]) + bodies.solid(its.shell[1]))
    apart = _of((whole,), ((0.0, 0.0, 1.0),))
    top_mm = float((its.glove.vertices + apart.glove)[:, 2].max())
    assert float((whole.vertices + apart.pieces[0])[:, 2].min()) > top_mm
