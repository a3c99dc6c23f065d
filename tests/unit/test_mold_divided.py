"""A block with a bore through it, along the draws: a divider parts the halves of the shell in there, and no wall.

The seam is the plane x = 1.5 mm; in the bore it is a disk. Lengths and areas in closed form.
"""

from __future__ import annotations

import geometry_bodies as bodies
import manifold3d as m3
import numpy as np
import pytest
from mold_splits import outline_of, parted

from moldwright.geometry.mesh import Mesh
from moldwright.geometry.solid import solid_of
from moldwright.mold.blank import Blank, lay_out
from moldwright.mold.seam import edges_mm
from moldwright.mold.shell import BuiltShell, build_shell
from moldwright.mold.shell_settings import ShellSettings
from moldwright.mold.space import coarse_grid
from moldwright.mold.split import CoarseSplit

WIDE, DEEP, TALL, BORE_MM, UP_MM = 30.0, 52.0, 60.0, 12.0, 32.0
STEP_MM, SEAM_MM, RUBBER_MM = 1.25, 1.5, 4.0
SHELL = ShellSettings()
IN_IT = ((3.0, 1.0, UP_MM - 1.0),)
BESIDE = DEEP + 2 * TALL + np.pi * SHELL.seam_flange_mm / 2
"""Over the block, as if it had no bore [mm]: area of its seam's flange over the flange's width."""


def bored() -> tuple[Mesh, CoarseSplit]:
    bore = m3.Manifold.cylinder(2 * WIDE, BORE_MM, BORE_MM, 96, True).rotate((0, 90, 0)).translate((0, 0, UP_MM))
    core = bodies.mesh(bodies.box(WIDE, DEEP, TALL) - bore)
    return core, parted(coarse_grid(core, SHELL.seam_flange_mm, 0.0, 2 * SEAM_MM))


def blank(dividers: tuple[tuple[float, float, float], ...]) -> Blank:
    core, split = bored()
    return lay_out(core, outline_of(core), 0.0, split, STEP_MM, SHELL, dividers)


def shell(dividers: tuple[tuple[float, float, float], ...]) -> BuiltShell:
    core, split = bored()
    return build_shell(core, outline_of(core), RUBBER_MM, split, STEP_MM, SHELL, dividers)


def test_what_a_divider_parts_is_no_length_of_the_seam() -> None:
    """Without a divider the disk in the bore counts by its area over the flange's width: pi r^2 / w = 18 mm."""
    disk_mm = np.pi * BORE_MM**2 / SHELL.seam_flange_mm
    whole = sum(edges_mm(blank(()), SHELL.seam_flange_mm))
    parted_there = sum(edges_mm(blank(IN_IT), SHELL.seam_flange_mm))
    assert whole - parted_there == pytest.approx(disk_mm, rel=0.15)
    assert parted_there == pytest.approx(BESIDE, rel=0.03)


def test_a_divider_elsewhere_takes_nothing_off_the_seam() -> None:
    beside = ((0.0, 2 * DEEP, UP_MM),)
    assert not blank(beside).divided.any()


def test_the_halves_leave_room_in_the_bore_for_the_divider_and_its_rubber() -> None:
    """Two coats of 4 mm and a sheet stand between them: in the bore no half is nearer than 4 mm to the seam's plane."""
    gap = m3.Manifold.cylinder(2 * RUBBER_MM, BORE_MM, BORE_MM, 96, True).rotate((0, 90, 0))
    gap = gap.translate((SEAM_MM, 0, UP_MM))
    assert sum((solid_of(piece.mesh) ^ gap).volume() for piece in shell(()).pieces) > 1000
    made = shell(IN_IT)
    assert made.removal.free
    assert sum((solid_of(piece.mesh) ^ gap).volume() for piece in made.pieces) < 20
