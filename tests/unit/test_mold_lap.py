"""A lapped shell about bodies of known shape, parted in the plane x = 1.5: its lip, and the order that it forces."""

from __future__ import annotations

from functools import cache

import geometry_bodies as bodies
import manifold3d as m3
import numpy as np
import pytest
from mold_splits import outline_of, parted

from moldwright.geometry.mesh import Mesh
from moldwright.geometry.seam_kind import Seam
from moldwright.mold.removal import Removal, check_removal
from moldwright.mold.shell import BuiltShell, build_shell
from moldwright.mold.shell_settings import ShellSettings
from moldwright.mold.space import coarse_grid

STEP_MM, SEAM_MM = 1.25, 1.5
LAP = ShellSettings(seam=Seam.LAP, lap_mm=30.0)
WALL = ShellSettings()
WIDE, DEEP, TALL = 100.0, 24.0, 40.0
TILT = np.radians(24.0)
ASLANT = np.array([[np.cos(TILT), 0.0, np.sin(TILT)], [-np.cos(TILT), 0.0, np.sin(TILT)]])
"""Both draws open upward, as for most pieces that stand on a board."""


def block() -> m3.Manifold:
    return bodies.box(WIDE, DEEP, TALL).translate((SEAM_MM, 0, 0))


def dome() -> m3.Manifold:
    """A ball on a drum: its outside falls away behind the seam everywhere."""
    return bodies.cone(30, 30, 30, 96) + bodies.ball(30, 96, (0, 0, 30))


BODIES = {"block": block, "dome": dome}


@cache
def built(name: str, s: ShellSettings) -> BuiltShell:
    core = bodies.mesh(BODIES[name]())
    grid = coarse_grid(core, s.seam_flange_mm, 0.0, 2 * SEAM_MM)
    return build_shell(core, outline_of(core), 0.0, parted(grid, ASLANT), STEP_MM, s)


def pieces(shell: BuiltShell) -> tuple[Mesh, ...]:
    return tuple(piece.mesh for piece in shell.pieces)


def backward(shell: BuiltShell) -> Removal:
    """The same check with piece 2 off first, while piece 1 stands."""
    draws = tuple(piece.draw for piece in shell.pieces)
    return check_removal(pieces(shell)[::-1], draws[::-1], shell.gloved, in_order=True)


@pytest.mark.parametrize("name", BODIES)
def test_each_piece_is_one_closed_body(name: str) -> None:
    for mesh in pieces(built(name, LAP)):
        assert mesh.why_invalid() == ""
        assert len(bodies.solid(mesh).decompose()) == 1


@pytest.mark.parametrize("name", BODIES)
def test_piece_1_comes_off_first_and_piece_2_only_then(name: str) -> None:
    """Both draws open upward: piece 2, drawn first, meets the lip that lies over it; flanges meet in either order."""
    assert built(name, LAP).removal.free
    assert backward(built(name, LAP)).overlap_mm3 > 1000.0
    assert built(name, WALL).removal.free
    assert backward(built(name, WALL)).free


def test_the_lip_is_as_wide_and_as_thick_as_told() -> None:
    """Of a block, parted in its middle, piece 1 less its half without a lip is what lies over the wall: width of lap
    and root by thickness and gap by length. In section: up one side, over the top, down the other, quarter rings at the
    two edges; counted on points half a millimeter apart, within 10 %."""
    shell, gap = built("block", LAP), 2 * built("block", LAP).clearance_mm
    one, two = pieces(shell)
    y, z = np.meshgrid(np.arange(-50, 50, 0.5) + 0.25, np.arange(0, 70, 0.5) + 0.25, indexing="ij")
    out_y, up = np.maximum(np.abs(y) - DEEP / 2, 0), np.maximum(z - TALL, 0)
    away = np.hypot(out_y, up)
    base = (np.abs(y) <= DEEP / 2 + 15) & (z <= 9)
    near = np.minimum(away - 9, np.where(base, -1.0, np.hypot(np.maximum(np.abs(y) - DEEP / 2 - 15, 0),
                                                              np.maximum(z - 9, 0))))  # fmt: skip
    on_top = z > shell.clearance_mm
    lip_mm2 = ((near > gap) & (near <= gap + 3) & on_top).sum() / 4
    root_mm2 = ((near > 0) & (near <= gap + 3) & on_top).sum() / 4
    exact_mm3 = lip_mm2 * LAP.lap_mm + root_mm2 * LAP.wall_mm
    assert one.volume_mm3 - two.volume_mm3 == pytest.approx(exact_mm3, rel=0.10)
    assert shell.lap_left_out_share < 0.1
    assert one.bounds_mm[0][0] == pytest.approx(SEAM_MM - LAP.lap_mm, abs=1.5)
    assert two.bounds_mm[1][0] == pytest.approx(SEAM_MM - shell.clearance_mm, abs=0.5)


def test_what_would_hook_is_left_out() -> None:
    """Level with the draw, the outside of a ball of radius R falls b^2 / 2 R at b from the seam: a lip 3 mm thick ends
    where that is 3 mm, at half of the 30 mm or nearer (R = 39 mm: 15.3 mm)."""
    core = bodies.mesh(dome())
    grid = coarse_grid(core, LAP.seam_flange_mm, 0.0, 2 * SEAM_MM)
    shell = build_shell(core, outline_of(core), 0.0, parted(grid), STEP_MM, LAP)
    assert shell.removal.free
    over = pieces(shell)[0].vertices
    high = over[over[:, 2] > 30.0]
    assert 5.0 < SEAM_MM - high[:, 0].min() < 15.3 + 2.0
    assert 0.4 < shell.lap_left_out_share < 0.8


def test_piece_2_is_the_same_half_without_a_flange() -> None:
    """Neither piece of a lapped shell reaches farther than its wall, but for the lip; against a wall both do."""
    for name in BODIES:
        walled, lapped = pieces(built(name, WALL))[1], pieces(built(name, LAP))[1]
        assert walled.bounds_mm[1][2] - lapped.bounds_mm[1][2] == pytest.approx(25.0 - 9.0, abs=1.5)
