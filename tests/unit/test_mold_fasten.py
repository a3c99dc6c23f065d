"""Bolt holes and keys of a printed shell, measured on its solids."""

from __future__ import annotations

import numpy as np
import pytest
from bolted_shell import EDGE, PRINTED, block_shell
from bolts_looked_at import wrong_at

from moldwright.geometry.solid import solid_of
from moldwright.mold.bolt_places import EVERY_MM
from moldwright.mold.bolt_seat import BOLT_MM, bolt_for_mm
from moldwright.mold.fasten import fastened
from moldwright.mold.removal import check_removal


def test_every_piece_is_one_closed_body_that_still_comes_off() -> None:
    """The project's own proof, run on the bored and keyed pieces, and its control."""
    shell = block_shell()
    assert [piece.mesh.why_invalid() for piece in shell.pieces] == ["", ""]
    assert shell.removal.free
    assert shell.removal.overlap_mm3 == 0.0
    assert shell.removal.control_overlap_mm3 > 0.0


def test_holes_and_sockets_are_all_that_is_taken_and_keys_all_that_is_added() -> None:
    """A seam of 230 mm round the block: a bolt every 60 mm. The flange is as thick as the wall less the clearance."""
    plain, bored = block_shell(bolted=False), block_shell()
    assert bored.fasteners is not None
    bolts, keys, base = len(bored.bolts), bored.fasteners.keys, bored.fasteners.base_bolts
    assert abs(bolts - plain.seam_mm / EVERY_MM) <= 1.0
    assert keys in (bolts, bolts - 1)
    assert base >= 4
    before, after = ([solid_of(p.mesh) for p in shell.pieces] for shell in (plain, bored))
    round_mm2 = np.pi * (BOLT_MM / 2) ** 2
    flange_mm = PRINTED.wall_mm - plain.clearance_mm
    taken = [float((old - new).volume()) for old, new in zip(before, after, strict=True)]
    added = [float((new - old).volume()) for old, new in zip(before, after, strict=True)]
    holes = bolts * round_mm2 * flange_mm
    base_most = base * round_mm2 * PRINTED.wall_mm
    assert holes * 0.97 <= taken[0] <= holes + base_most
    assert taken[1] > holes + keys * 20.0, "sockets are on the other piece"
    assert added[0] > keys * 30.0
    assert added[1] < 1.0


def test_a_bolt_goes_through_both_flanges_sits_and_comes_in() -> None:
    """Each place is looked at by rays of another library (trimesh), on the bored meshes; control: on plain ones, where
    no hole is, and on a bored one whose other piece is moved by the play of a washer."""
    plain = block_shell(bolted=False)
    meshes, draws = [piece.mesh for piece in plain.pieces], [piece.draw for piece in plain.pieces]
    made = fastened(meshes, draws, plain.seam, plain.gloved, EDGE, 0.0, PRINTED)
    assert len(made.bolts) == made.fasteners.seam_bolts > 0
    for place in made.bolts:
        assert wrong_at(place, made.meshes, plain.gloved, 20.0) == ""
        assert wrong_at(place, meshes, plain.gloved, 20.0) != ""
        off = made.meshes[0], made.meshes[1].moved((0.0, 3.0, 3.0))
        assert wrong_at(place, off, plain.gloved, 20.0) != ""


def test_a_bolt_is_long_enough_and_the_next_shorter_one_would_hardly_be() -> None:
    """Two washers of 1.1 mm at the most, a nut of 4.7 mm and a turn of 0.8 mm (ISO 7089, ISO 4032, ISO 261; from
    memory) beside the two flanges: 4 mm less the clearance each and the gap. M5 are made 12, 16, 20 and 25 mm long (ISO
    4017): 16 mm hold 8.3 mm, 20 mm hold 12.3."""
    bored = block_shell()
    assert bored.fasteners is not None
    assert bored.fasteners.bolt_mm == 20.0
    for place in bored.bolts:
        assert place.grip_mm == pytest.approx(2 * place.thick_mm + max(place.gap_mm, 0.0), abs=0.3)
        assert 7.0 < place.grip_mm <= 12.3
    assert [bolt_for_mm(wall_mm) for wall_mm in (3.0, 3.6, 3.7, 5.6, 5.7)] == [16.0, 16.0, 20.0, 20.0, 25.0]


def test_stretches_between_bolts_are_the_seam() -> None:
    bored = block_shell()
    assert bored.fasteners is not None
    stretches = bored.fasteners.stretches
    assert sum(stretch.long_mm for stretch in stretches) == pytest.approx(2 * 90 + 50, rel=0.03), "up, over and down"
    assert sum(stretch.held_ends for stretch in stretches) == 2 * len(bored.bolts)
    assert max(stretch.long_mm for stretch in stretches if stretch.held_ends == 2) <= 1.3 * EVERY_MM


def test_a_hole_of_the_base_has_a_washers_seat_in_one_piece() -> None:
    """Bored pieces: of the base's holes none is cut by the seam, and a washer of 10 mm lies flat round each."""
    plain, bored = block_shell(bolted=False), block_shell()
    assert bored.fasteners is not None
    lip_mm = PRINTED.wall_mm - 0.5
    rings = 0
    for old, new in zip(plain.pieces, bored.pieces, strict=True):
        flat = [solid_of(mesh).slice(lip_mm).area() for mesh in (old.mesh, new.mesh)]
        rings += round((flat[0] - flat[1]) / (np.pi * (BOLT_MM / 2) ** 2))
    assert rings == bored.fasteners.base_bolts


def test_a_key_without_a_socket_locks() -> None:
    """Control: the keyed piece does not come off the one without sockets, along a way across the seam's face."""
    plain, bored = block_shell(bolted=False), block_shell()
    mixed = (bored.pieces[0].mesh, plain.pieces[1].mesh)
    draws = tuple(piece.draw for piece in plain.pieces)
    assert check_removal(mixed, draws, plain.gloved).overlap_mm3 > 1.0


def test_a_shell_that_is_laid_has_none() -> None:
    assert block_shell(bolted=False).fasteners is None
    assert PRINTED.wall_mm == pytest.approx(4.0)
