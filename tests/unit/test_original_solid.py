"""From scans as they come to one closed solid on the board: what is mended, what is told, what is refused."""

from __future__ import annotations

from pathlib import Path

import geometry_bodies as bodies
import igl
import numpy as np
import pytest
from original_files import off

from moldwright.errors import InputRefused, NoSafePlan
from moldwright.geometry.mesh import Mesh
from moldwright.mold.mouth import MouthLimits, mount
from moldwright.original.mending.solid import Standing, stand, step_for
from moldwright.original.standing.place import place
from moldwright.scan import read_scan
from moldwright.scan.repairs import RepairCode


def standing(body: Mesh) -> Standing:
    found = stand(place(bodies.scan(body)).mesh)
    assert found.mesh.why_invalid() == ""
    assert len(bodies.solid(found.mesh).decompose()) == 1
    assert found.mesh.bounds_mm[0][2] == pytest.approx(0, abs=1e-6)
    return found


def repairs_of(found: Standing) -> dict[RepairCode, float]:
    return {repair.code: repair.size for repair in found.repairs}


def stump(height: float = 50.0) -> Mesh:
    return bodies.mesh(bodies.cone(20, 12, height, 48).refine_to_length(2.0))


STUMP_ML = bodies.solid(stump()).volume() / 1000


def test_a_sound_scan_needs_no_mending() -> None:
    """Its volume is manifold3d's within 0.3 %: edges are cut off by up to a step of 0.5 mm."""
    found = standing(stump())
    assert found.repairs == ()
    assert found.was_closed
    assert found.mesh.volume_ml == pytest.approx(STUMP_ML, rel=0.003)
    low, high = found.mesh.bounds_mm
    assert low[:2] == pytest.approx(-high[:2], abs=0.02)
    assert high[2] == pytest.approx(50.0, abs=0.02)


def test_an_open_bottom_is_closed_by_the_board_and_is_no_hole() -> None:
    body = stump()
    found = standing(bodies.without(body, body.corners[:, :, 2].max(axis=1) < 1e-6))
    assert found.mesh.volume_ml == pytest.approx(STUMP_ML, rel=0.003)
    assert repairs_of(found) == {}


def test_an_open_bottom_with_a_ragged_rim_is_cut_above_it() -> None:
    """The rim is uneven by 1 mm: the board is set just above it, and the placing says so."""
    body = stump()
    open_ = bodies.without(body, body.corners[:, :, 2].max(axis=1) < 1e-6)
    rough = open_.vertices.copy()
    foot = rough[:, 2] < 1e-6
    rough[foot, 2] += np.random.default_rng(2).uniform(0, 1.0, int(foot.sum()))
    placed = place(bodies.scan(Mesh(rough, open_.faces), watertight=False))
    assert any(key == "original.board" and "rim" in value for key, value, _ in placed.said)
    found = stand(placed.mesh)
    assert found.mesh.why_invalid() == ""
    assert repairs_of(found) == {}
    assert found.mesh.volume_ml == pytest.approx(STUMP_ML, rel=0.06)


def test_a_hole_in_the_side_is_closed_and_told_with_its_edge() -> None:
    body = stump()
    middle = body.corners.mean(axis=1)
    gone = (middle[:, 0] > 8) & (np.abs(middle[:, 1]) < 5) & (np.abs(middle[:, 2] - 25) < 8)
    found = standing(bodies.without(body, gone))
    told = repairs_of(found)
    assert not found.was_closed
    assert len(told) == 1
    ((what, edge),) = told.items()
    assert what is RepairCode.HOLE_CLOSED
    assert 30 < edge < 90
    assert found.mesh.volume_ml == pytest.approx(STUMP_ML, rel=0.01)


def test_a_hole_that_runs_down_to_the_board_is_closed() -> None:
    """A notch in the side from the foot up to 20 mm, 10 mm wide."""
    body = stump()
    middle = body.corners.mean(axis=1)
    gone = (middle[:, 0] > 8) & (np.abs(middle[:, 1]) < 5) & (middle[:, 2] < 20) & (middle[:, 2] > 1e-6)
    found = stand(place(bodies.scan(bodies.without(body, gone)), board_mm=0.0).mesh)
    assert found.mesh.why_invalid() == ""
    assert not found.was_closed
    assert found.mesh.volume_ml == pytest.approx(STUMP_ML, rel=0.03)


def test_many_holes_are_closed_and_the_small_ones_told_together() -> None:
    body = bodies.mesh(bodies.cone(20, 12, 50, 48).refine_to_length(2.0))
    high = np.flatnonzero((body.corners[:, :, 2].min(axis=1) > 1) & (body.corners[:, :, 2].max(axis=1) < 49))
    gone = np.zeros(len(body.faces), bool)
    gone[high[:: len(high) // 17]] = True
    found = standing(bodies.without(body, gone))
    assert gone.sum() > 11
    assert len(found.repairs) == 11
    assert found.mesh.volume_ml == pytest.approx(STUMP_ML, rel=0.004)


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


def standing_cut(body: Mesh, board_mm: float) -> Standing:
    found = stand(place(bodies.scan(body), board_mm=board_mm).mesh)
    assert found.mesh.why_invalid() == ""
    return found


def test_a_small_closed_hollow_is_filled_and_told() -> None:
    """A bubble of radius 4 mm (0.27 ml) is under 1 ml."""
    body = bodies.mesh(bodies.cone(20, 12, 50, 48) - bodies.ball(4, 32, (0, 0, 25)))
    found = standing(body)
    ((what, size),) = repairs_of(found).items()
    assert what == RepairCode.HOLLOW_FILLED
    assert size == pytest.approx(4 / 3 * np.pi * 4**3 / 1000, rel=0.05)
    assert found.mesh.volume_ml == pytest.approx(bodies.cone(20, 12, 50, 48).volume() / 1000, rel=0.003)


def test_a_large_closed_hollow_is_refused() -> None:
    body = bodies.mesh(bodies.cone(20, 12, 50, 48) - bodies.ball(9, 48, (0, 0, 25)))
    with pytest.raises(NoSafePlan) as refused:
        standing(body)
    assert refused.value.code == "closed-hollow"
    assert refused.value.actual == pytest.approx(4 / 3 * np.pi * 9**3 / 1000, abs=0.15)
    assert refused.value.limit == 1.0


def test_a_hollow_that_the_board_closes_is_filled_and_told() -> None:
    body = bodies.mesh(bodies.cone(20, 12, 50, 48) - bodies.ball(12, 48))
    ((what, size),) = repairs_of(standing(body)).items()
    assert what is RepairCode.BOARD_HOLLOW_FILLED
    assert size == pytest.approx(2 / 3 * np.pi * 12**3 / 1000, rel=0.05)


def test_hollows_under_the_piece_are_filled_each_by_itself_and_a_ring_stays_open() -> None:
    two = bodies.cone(20, 12, 50, 48) - bodies.ball(6, 48, (8, 0, 0)) - bodies.ball(5, 48, (-8, 0, 0))
    found = standing(bodies.mesh(two))
    sizes = [repair.size for repair in found.repairs]
    assert sizes == pytest.approx([2 / 3 * np.pi * r**3 / 1000 for r in (6, 5)], rel=0.05)
    assert found.mesh.volume_ml == pytest.approx(bodies.cone(20, 12, 50, 48).volume() / 1000, rel=0.003)
    ring = bodies.torus(20, 6).translate((0, 0, 4)).trim_by_plane((0, 0, 1), 0)
    found = standing(bodies.mesh(ring))
    assert found.repairs == ()
    assert found.mesh.volume_mm3 == pytest.approx(ring.volume(), rel=0.005)


def test_specks_inside_and_outside_are_dropped() -> None:
    """A chip of 2 mm beside the piece is dropped and told; one within it changes nothing."""
    chip = bodies.mesh(bodies.ball(2, 16))
    found = standing(bodies.soup(stump(), chip.moved((0.0, 0.0, 20.0)), chip.moved((26.0, 0.0, 30.0))))
    assert list(repairs_of(found)) == [RepairCode.SPECKS_DROPPED]
    assert found.mesh.volume_ml == pytest.approx(STUMP_ML, rel=0.003)


def from_file(tmp_path: Path, body: Mesh) -> Standing:
    """Written as an OFF file and read by the real reader, standing as it lies."""
    path = tmp_path / "piece.off"
    path.write_bytes(off(body.vertices, body.faces))
    return stand(place(read_scan(path), unit="mm", up="+z").mesh)


def test_a_file_inside_out_gives_the_same_solid(tmp_path: Path) -> None:
    right = standing(stump())
    found = from_file(tmp_path, bodies.flipped(stump()))
    assert found.mesh.why_invalid() == ""
    assert found.mesh.volume_mm3 == pytest.approx(right.mesh.volume_mm3, rel=1e-6)


def test_a_part_inside_out_is_still_part_of_the_piece(tmp_path: Path) -> None:
    """A ball that crosses the stump's top, wound inward in the file: the union's volume by manifold3d."""
    ball = bodies.ball(14, 48, (0, 0, 52))
    found = from_file(tmp_path, bodies.soup(stump(), bodies.flipped(bodies.mesh(ball))))
    exact = (bodies.solid(stump()) + ball).volume()
    assert found.mesh.volume_mm3 == pytest.approx(exact, rel=0.003)


def test_specks_within_change_nothing(tmp_path: Path) -> None:
    """Fifty crumbs inside the piece, half of them inside out, as scanners leave them."""
    random = np.random.default_rng(4)
    crumb = bodies.mesh(bodies.ball(0.8, 8))
    turns = [crumb, bodies.flipped(crumb)]
    crumbs = [turns[n % 2].moved(random.uniform((-7, -7, 4), (7, 7, 44))) for n in range(50)]
    found = from_file(tmp_path, bodies.soup(stump(), *crumbs))
    assert found.mesh.volume_ml == pytest.approx(STUMP_ML, rel=0.003)
    assert len(bodies.solid(found.mesh).decompose()) == 1


def test_two_bodies_apart_are_refused() -> None:
    with pytest.raises(InputRefused) as refused:
        standing(bodies.soup(stump(), bodies.mesh(bodies.ball(12, 32, (50, 0, 12)))))
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
        stand(stump().moved((0.0, 0.0, -60.0)))
    assert refused.value.code == "nothing-above-board"


@pytest.mark.parametrize("size", [20.0, 60.0, 100.0, 250.0, 600.0])
def test_the_step_is_what_the_issue_asks(size: float) -> None:
    """At most 1 mm up to 250 mm, size / 100 under 40 mm."""
    step = step_for(size)
    assert step <= (1.0 if size <= 250 else size / 100)
    if size <= 40:
        assert step == pytest.approx(size / 100)


def test_a_small_original_is_sampled_finer() -> None:
    """20 mm: a step of 0.2 mm keeps a groove of 0.8 mm."""
    body = bodies.cone(6, 6, 20, 48) - (bodies.cone(9, 9, 0.8, 48) - bodies.cone(5, 5, 0.8, 48)).translate((0, 0, 12))
    found = standing(bodies.mesh(body))
    assert found.step_mm == pytest.approx(0.2)
    assert found.mesh.volume_mm3 == pytest.approx(body.volume(), rel=0.005)


def furthest_mm(found: Standing, body: Mesh) -> float:
    """How far points of the scan over the board lie from the solid at most (libigl, reference library)."""
    fine = bodies.mesh(bodies.solid(place(bodies.scan(body)).mesh).refine_to_length(1.5)).vertices
    fine = fine[fine[:, 2] > 0.5 * found.step_mm]
    faces = found.mesh.faces.astype(np.int64)
    return float(np.sqrt(igl.point_mesh_squared_distance(fine, found.mesh.vertices, faces)[0].max()))


def test_a_sound_scan_keeps_its_own_surface() -> None:
    """Edges stay sharp; a foot that was set on the board counts as moved."""
    ball = bodies.mesh(bodies.ball(25, 96, (0, 0, 20)).trim_by_plane((0, 0, 1), 0))
    found = standing(ball)
    assert found.exact
    assert furthest_mm(found, ball) <= found.error_mm
    box = bodies.mesh(bodies.box(30, 40, 50))
    found = standing(box)
    assert found.exact
    assert furthest_mm(found, box) <= found.error_mm < 0.06 * found.step_mm
    assert found.mesh.volume_mm3 == pytest.approx(60_000, rel=1e-5)


def test_a_mended_surface_lies_as_near_as_the_plan_says() -> None:
    """With a triangle missing, smooth: within a quarter step; a box's corner, with faces on the lattice: 1.2 steps."""
    ball = bodies.mesh(bodies.ball(25, 96, (0, 0, 20)).trim_by_plane((0, 0, 1), 0))
    found = standing(torn(ball))
    assert not found.exact
    assert furthest_mm(found, ball) <= found.error_mm
    box = bodies.mesh(bodies.box(30, 40, 50))
    found = standing(torn(box))
    assert not found.exact
    assert furthest_mm(found, box) <= 1.2 * found.step_mm


def torn(mesh: Mesh) -> Mesh:
    """The mesh without its highest triangle."""
    highest = int(np.argmax(mesh.corners[:, :, 2].min(axis=1)))
    return Mesh(mesh.vertices, np.delete(mesh.faces, highest, axis=0))


def test_a_thin_plate_keeps_its_thickness() -> None:
    """2 mm thick, step 0.6 mm: both faces are planes, so the volume is right but for the edges (1 %)."""
    found = standing(bodies.mesh(bodies.box(50, 2, 60)))
    assert found.mesh.volume_mm3 == pytest.approx(6000, rel=0.01)
    low, high = found.mesh.bounds_mm
    assert float((high - low)[1]) == pytest.approx(2.0, abs=0.01)


def test_a_sphere_on_a_point_gets_a_plinth() -> None:
    """The plinth's top rises round the ball; together they are one body, and the plinth is its own solid."""
    found = standing(bodies.mesh(bodies.ball(25, 64, (0, 0, 25))))
    mounted = mount(found.mesh, MouthLimits())
    assert mounted.mouth.narrowest_mm < 20
    assert mounted.plinth is not None
    assert mounted.plinth.why_invalid() == ""
    assert mounted.body.why_invalid() == ""
    parts = mounted.plinth.volume_mm3 + mounted.original.volume_mm3
    assert mounted.body.volume_mm3 == pytest.approx(parts, rel=1e-6)
    foot = bodies.solid(mounted.body).slice(0.01)
    assert foot.area() >= 0.1 * np.pi * 25**2
    assert len(bodies.solid(mounted.body).decompose()) == 1


def test_four_legs_stand_on_one_plinth() -> None:
    """Mouth of the bare original: four circles of radius 5 mm (24 sides: 99 % of pi r^2)."""
    mounted = mount(standing(bodies.table()).mesh, MouthLimits())
    assert mounted.mouth.loops == 4
    assert mounted.mouth.area_mm2 == pytest.approx(4 * np.pi * 25, rel=0.03)
    assert mounted.mouth.narrowest_mm == pytest.approx(10, abs=0.2)
    assert mounted.plinth is not None
    assert len(bodies.solid(mounted.plinth).decompose()) == 1
    assert len(bodies.solid(mounted.body).slice(0.01).to_polygons()) == 1


def test_a_broad_foot_needs_no_plinth() -> None:
    mounted = mount(standing(stump()).mesh, MouthLimits())
    assert mounted.plinth is None
    assert mounted.mouth.loops == 1
    assert mounted.mouth.narrowest_mm == pytest.approx(40, abs=0.5)
    assert mounted.mouth.area_mm2 == pytest.approx(np.pi * 400, rel=0.02)
    assert mounted.body is mounted.original
