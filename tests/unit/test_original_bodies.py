"""Scans of several bodies: specks, parts inside out, bodies apart."""

from __future__ import annotations

from pathlib import Path

import geometry_bodies as bodies
import numpy as np
import pytest
from original_files import off
from original_scans import repairs_of
from original_stands import STUMP_ML, standing, standing_cut

from moldwright.errors import InputRefused
from moldwright.geometry.mesh import Mesh
from moldwright.original.mending.solid import Standing, stand
from moldwright.original.standing.place import place
from moldwright.scan import read_with_hash
from moldwright.scan.repairs import RepairCode


def test_two_balls_that_cross_are_their_union() -> None:
    """Two balls r 20 at distance d 22, less their lens: 2 (4/3 pi r^3) - pi (4 r + d) (2 r - d)^2 / 12 (closed form).

    Within 0.3 %: the balls are polyhedra of 96 sides (0.1 %), the step is 0.6 mm.
    """
    r, d, low = 20.0, 22.0, 15.0
    crossing = bodies.soup(*(bodies.mesh(bodies.ball(r, 96, (x, 0, low))) for x in (-d / 2, d / 2)))
    found = standing_cut(crossing, r - low)
    lens = np.pi * (4 * r + d) * (2 * r - d) ** 2 / 12
    # Under the board are two caps of height h = r - low and their common part, which manifold3d measures.
    both = bodies.ball(r, 192, (-d / 2, 0, low)) + bodies.ball(r, 192, (d / 2, 0, low))
    below = both.trim_by_plane((0, 0, -1), 0).volume()
    exact = 2 * 4 / 3 * np.pi * r**3 - lens - below
    assert found.mesh.volume_mm3 == pytest.approx(exact, rel=0.003)
    assert found.repairs == ()


def test_specks_inside_and_outside_are_dropped() -> None:
    """A chip of 2 mm beside the piece is dropped and told; one within it changes nothing."""
    chip = bodies.mesh(bodies.ball(2, 16))
    found = standing(bodies.soup(bodies.stump(), chip.moved((0.0, 0.0, 20.0)), chip.moved((26.0, 0.0, 30.0))))
    assert list(repairs_of(found)) == [RepairCode.SPECKS_DROPPED]
    assert found.mesh.volume_ml == pytest.approx(STUMP_ML, rel=0.003)


def from_file(tmp_path: Path, body: Mesh) -> Standing:
    """Written as an OFF file and read by the real reader, standing as it lies."""
    path = tmp_path / "piece.off"
    path.write_bytes(off(body.vertices, body.faces))
    return stand(place(read_with_hash(path).scan, unit="mm", up="+z").mesh)


def test_a_file_inside_out_gives_the_same_solid(tmp_path: Path) -> None:
    right = standing(bodies.stump())
    found = from_file(tmp_path, bodies.flipped(bodies.stump()))
    assert found.mesh.why_invalid() == ""
    assert found.mesh.volume_mm3 == pytest.approx(right.mesh.volume_mm3, rel=1e-6)


def test_a_part_inside_out_is_still_part_of_the_piece(tmp_path: Path) -> None:
    """A ball that crosses the stump's top, wound inward in the file: the union's volume by manifold3d."""
    ball = bodies.ball(14, 48, (0, 0, 52))
    found = from_file(tmp_path, bodies.soup(bodies.stump(), bodies.flipped(bodies.mesh(ball))))
    exact = (bodies.solid(bodies.stump()) + ball).volume()
    assert found.mesh.volume_mm3 == pytest.approx(exact, rel=0.003)


def test_specks_within_change_nothing(tmp_path: Path) -> None:
    """Fifty crumbs inside the piece, half of them inside out, as scanners leave them."""
    random = np.random.default_rng(4)
    crumb = bodies.mesh(bodies.ball(0.8, 8))
    turns = [crumb, bodies.flipped(crumb)]
    crumbs = [turns[n % 2].moved(random.uniform((-7, -7, 4), (7, 7, 44))) for n in range(50)]
    found = from_file(tmp_path, bodies.soup(bodies.stump(), *crumbs))
    assert found.mesh.volume_ml == pytest.approx(STUMP_ML, rel=0.003)
    assert len(bodies.solid(found.mesh).decompose()) == 1


def test_two_bodies_apart_are_refused() -> None:
    with pytest.raises(InputRefused) as refused:
        standing(bodies.soup(bodies.stump(), bodies.mesh(bodies.ball(12, 32, (50, 0, 12)))))
    assert refused.value.code == "bodies-apart"
    assert (refused.value.actual, refused.value.limit) == (2, 1)


def test_two_bodies_that_the_board_parts_are_refused() -> None:
    """An arch cut above its feet's bridge below: two columns remain."""
    u = bodies.box(60, 10, 50) - bodies.box(30, 20, 60).translate((0, 0, 10))
    with pytest.raises(InputRefused) as refused:
        standing_cut(bodies.mesh(u), 15.0)
    assert refused.value.code == "bodies-apart"


def test_nothing_above_the_board_is_refused() -> None:
    with pytest.raises(InputRefused) as refused:
        stand(bodies.stump().moved((0.0, 0.0, -60.0)))
    assert refused.value.code == "nothing-above-board"
