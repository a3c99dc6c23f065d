"""The stand for pouring: boards that bear a turned shell by its flange."""

from __future__ import annotations

from dataclasses import replace
from math import atan2, degrees

import geometry_bodies as bodies
import pytest
from manifold3d import Manifold
from steps_context import context, measures, step_of

from moldwright.geometry.mesh import Mesh
from moldwright.geometry.solid import mesh_of, solid_of
from moldwright.mold.stand import BOARDS, lowest_over, stand_for
from moldwright.mold.stand_found import Load, StandFound, tilt_deg
from moldwright.mold.stand_solid import stand_solid, turned_over
from moldwright.plan.seam import ViewSide
from moldwright.plan.stand import NoStand, StandBoard
from moldwright.quantities.stand import sheets_of, stand_plan

WALL_MM, FLANGE_MM = 5.0, 12.0
"""Thickness of the made-up shell and of the rubber's flange under it [mm]."""


def body() -> Mesh:
    """A dome of radius 45 over a cylinder 60 high: it cannot stand upside down."""
    dome = Manifold.sphere(45.0, 96).translate((0.0, 0.0, 60.0)).trim_by_plane((0.0, 0.0, 1.0), 60.0)
    return mesh_of(Manifold.cylinder(60.0, 45.0, 45.0, 96) + dome)


def shell() -> Mesh:
    """A shell about it, its flange 60 mm wide, flat 17 mm over the board."""
    outer = Manifold.sphere(50.0, 96).translate((0.0, 0.0, 60.0)).trim_by_plane((0.0, 0.0, 1.0), 60.0)
    outer += Manifold.cylinder(60.0, 50.0, 50.0, 96)
    whole = outer + Manifold.cylinder(FLANGE_MM + WALL_MM, 110.0, 110.0, 96)
    rubber = Manifold.cylinder(FLANGE_MM, 120.0, 120.0, 96)
    return mesh_of(whole - solid_of(body()) - rubber)


@pytest.fixture(scope="module")
def found() -> StandFound:
    """The made-up shell's stand."""
    made = stand_for([shell()], body(), body(), FLANGE_MM + WALL_MM).found
    assert isinstance(made, StandFound)
    return made


def test_the_shell_goes_straight_down_into_it_and_hangs_by_its_flange(found: StandFound) -> None:
    stand = solid_of(stand_solid(found))
    for up_mm in (0.2, 1.0, 10.0, 40.0, 120.0, 300.0):
        assert (turned_over(shell(), found.mouth_mm + up_mm) ^ stand).volume() == 0.0
    touched = turned_over(shell(), found.mouth_mm - 1.0) ^ stand
    low, high = touched.bounding_box()[2], touched.bounding_box()[5]
    assert touched.volume() > 8 * 12.0 * 18.0 * 0.8
    assert high - low < 1.01, "nothing but the flange touches"


def test_it_bears_all_round_as_high_as_the_shell_is_deep(found: StandFound) -> None:
    # arithmetic: 40 free, 6 gap, a dome of 110 over a flange at 17
    assert found.mouth_mm == pytest.approx(40.0 + 6.0 + 110.0, abs=0.1)
    assert [len(board.bears) for board in found.boards] == [2, 2, 2, 2]
    for board in found.boards:
        assert board.high_mm == pytest.approx(found.mouth_mm - 17.0, abs=0.11)
        assert min(high for _, high in board.edge) >= BOARDS.under_mm - 8.0


def test_slots_of_two_boards_meet_halfway(found: StandFound) -> None:
    across, along = (board for board in found.boards if board.across), (b for b in found.boards if not b.across)
    for one, other in zip(across, along, strict=True):
        mine = next(slot for slot in one.slots if slot.at_mm == other.at_mm)
        its = next(slot for slot in other.slots if slot.at_mm == one.at_mm)
        assert mine.low_mm == its.high_mm
        assert 2 * mine.low_mm <= lowest_over(one, other.at_mm, 18.0) + 0.1


def test_it_tilts_as_a_block_on_a_base_does() -> None:
    # CHECKS 25: half base 60 mm, center of mass 200 mm up: 16.70 deg
    corners = ((-60.0, -60.0, 0.0), (60.0, -60.0, 0.0), (60.0, 60.0, 0.0), (-60.0, 60.0, 0.0))
    assert tilt_deg((0.0, 0.0, 200.0), corners) == pytest.approx(16.70, abs=0.005)
    assert tilt_deg((61.0, 0.0, 200.0), corners) < 0.0


def test_the_heavier_the_cast_the_more_its_middle_counts() -> None:
    corners = ((-60.0, -60.0, 0.0), (60.0, -60.0, 0.0), (60.0, 60.0, 0.0), (-60.0, 60.0, 0.0))
    low, high = Load(100.0, (0.0, 0.0, 100.0)), Load(100.0, (20.0, 0.0, 300.0))
    made = StandFound((), 0.0, 0.0, 400.0, corners, corners, low, low, (high,))
    # statics: 200 g at 100 mm and 100 g x rho at 300 mm, 20 mm aside
    for rho in (0.5, 2.0):
        mass, x, z = 200.0 + 100.0 * rho, 100.0 * rho * 20.0, 200.0 * 100.0 + 100.0 * rho * 300.0
        told = degrees(atan2(60.0 - x / mass, z / mass))
        assert made.tips_deg(1.0, 1.0, rho) == pytest.approx(told)


def test_a_flat_topped_shell_needs_none() -> None:
    block, hood = bodies.mesh(bodies.box(60, 60, 50)), Manifold.cube((70.0, 70.0, 55.0)).translate((-35.0, -35.0, 0.0))
    made = stand_for([mesh_of(hood - solid_of(block))], block, block, 5.0).found
    assert isinstance(made, StandFound)
    assert made.boards == ()
    plan = stand_plan(made, 300.0, 200.0, 1.1)
    assert plan is not None
    # statics: 35 mm of half base; middles at 25 to 30 mm
    assert 45.0 <= plan.tips_deg <= 60.0


def test_a_dome_without_a_flange_is_borne_by_no_board() -> None:
    dome = body()
    assert stand_for([dome], dome, dome, 5.0).found is NoStand.NOT_BORNE


def test_a_flange_hidden_under_a_belly_bears_nothing() -> None:
    """A ball of radius 100 on a neck: turned over, nothing of a flange of radius 105 is bare by a seat's 12 mm."""
    ball = Manifold.sphere(100.0, 96).translate((0.0, 0.0, 120.0)) + Manifold.cylinder(60.0, 40.0, 40.0, 96)
    shell_ = mesh_of(ball + Manifold.cylinder(FLANGE_MM + WALL_MM, 105.0, 105.0, 96))
    wide = mesh_of(ball + Manifold.cylinder(FLANGE_MM + WALL_MM, 160.0, 160.0, 96))
    whole = mesh_of(ball)
    assert stand_for([shell_], whole, whole, FLANGE_MM + WALL_MM).found is NoStand.NOT_BORNE
    assert isinstance(stand_for([wide], whole, whole, FLANGE_MM + WALL_MM).found, StandFound)


def test_a_mold_whose_middle_is_beside_its_flange_falls_over() -> None:
    """A bar that reaches 600 mm out of a narrow flange: its middle of mass is beside all that bears it."""
    column = Manifold.cylinder(200.0, 30.0, 30.0, 96)
    bar = Manifold.cube((600.0, 40.0, 40.0)).translate((0.0, -20.0, 160.0))
    leaning = column + bar
    shell_ = mesh_of(leaning + Manifold.cylinder(FLANGE_MM + WALL_MM, 90.0, 90.0, 96))
    sought = stand_for([shell_], mesh_of(leaning), mesh_of(leaning), FLANGE_MM + WALL_MM)
    assert sought.found is NoStand.FALLS_OVER
    assert stand_plan(sought.found, 300.0, 200.0, 1.1) is None


@pytest.mark.parametrize(
    ("why", "said"), [(NoStand.NOT_BORNE, "at fewer than three places"), (NoStand.FALLS_OVER, "less than 10 degrees")]
)
def test_where_there_is_none_the_step_says_why(why: NoStand, said: str) -> None:
    step = step_of(context(volumes=replace(measures(), stand=why)), "stand")
    assert [text for text in step.texts if said in text], step.texts
    assert [text for text in step.texts if "into its cradle" in text]


def test_no_reason_is_said_where_it_stands_or_nobody_looked(found: StandFound) -> None:
    for stand in (found, None):
        told = " ".join(step_of(context(volumes=replace(measures(), stand=stand)), "stand").texts)
        assert "No stand of boards" not in told


def test_sheets_of_board_go_by_area() -> None:
    board = StandBoard(ViewSide.FRONT, 0.0, ((0.0, 300.0), (600.0, 300.0)), (), ())
    # arithmetic: 0.18 m2 each of 0.72 m2, of which seven tenths are used
    assert [sheets_of([board] * n) for n in (2, 4, 6)] == [1, 2, 3]
