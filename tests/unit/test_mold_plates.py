"""A printed shell parted for a printer's room and laid out on plates, loaded again as files."""

from __future__ import annotations

import io
from functools import cache
from itertools import combinations

import numpy as np
import pytest
import trimesh
from bolted_shell import block_shell

from moldwright.errors import NoSafePlan
from moldwright.geometry.solid import solid_of
from moldwright.job.printing import measured_plates, plates_of
from moldwright.making.files.stages import plate_files
from moldwright.mold.parts import MARGIN_MM, PIN_DEEP_MM, PIN_MM, PrintedPart, Room
from moldwright.mold.plates import BETWEEN_MM, LaidPlate, LaidPlates

ROOMS: tuple[Room, ...] = ((220.0, 220.0, 250.0), (95.0, 95.0, 80.0), (80.0, 85.0, 70.0))
PIN_ML = np.pi * (PIN_MM / 2) ** 2 * PIN_DEEP_MM / 1000.0


@cache
def laid(room: Room) -> LaidPlates:
    return plates_of(block_shell(), room)


def plates(room: Room) -> tuple[LaidPlate, ...]:
    return laid(room).plates


def parts(room: Room) -> list[PrintedPart]:
    return [each.part for plate in plates(room) for each in plate.parts]


@pytest.mark.parametrize("room", ROOMS)
def test_every_part_is_one_closed_body_and_lies_on_its_plate_with_room_to_spare(room: Room) -> None:
    for plate in plates(room):
        boxes = []
        for each in plate.parts:
            low, high = each.mesh.bounds_mm
            assert each.mesh.why_invalid() == ""
            assert len(solid_of(each.mesh).decompose()) == 1
            assert low[2] == pytest.approx(0.0, abs=1e-9)
            assert (low[:2] >= MARGIN_MM - 1e-6).all()
            assert (high <= np.array(room) - MARGIN_MM + 1e-6).all()
            boxes.append((low, high))
        for (low_a, high_a), (low_b, high_b) in combinations(boxes, 2):
            gap = np.maximum(low_a - high_b, low_b - high_a)[:2].max()
            assert gap >= BETWEEN_MM - 1e-6


@pytest.mark.parametrize("room", ROOMS)
def test_the_parts_of_a_piece_are_the_piece_less_its_pins(room: Room) -> None:
    """Each pin takes a hole of 1.9 mm, 8 mm deep, from each of two parts; where they cross less than both."""
    made = parts(room)
    for number, piece in enumerate(block_shell().pieces, start=1):
        mine = [part for part in made if part.piece == number]
        lost_ml = piece.mesh.volume_ml - sum(part.mesh.volume_ml for part in mine)
        holes_ml = sum(part.pins for part in mine) * PIN_ML
        assert lost_ml <= holes_ml + 0.02
        assert lost_ml >= 0.8 * holes_ml - 0.02
        whole = solid_of(piece.mesh)
        outside_mm3 = sum(float((solid_of(part.mesh) - whole).volume()) for part in mine)
        assert outside_mm3 < 1e-4 * piece.mesh.volume_mm3, "what writing in single precision moves"
        for a, b in combinations(mine, 2):
            assert float((solid_of(a.mesh) ^ solid_of(b.mesh)).volume()) < 0.1


def test_a_printer_that_holds_it_parts_nothing_and_a_smaller_one_pins_what_it_parts() -> None:
    large, small = parts(ROOMS[0]), parts(ROOMS[2])
    assert [(part.piece, part.number, part.pins) for part in sorted(large, key=lambda p: p.piece)] == [
        (1, 1, 0),
        (2, 1, 0),
    ]
    assert len(small) > 2
    assert all(part.pins >= 2 for part in small)
    measured = measured_plates(laid(ROOMS[2]))
    assert 2 * measured.pins == sum(part.pins for part in small)
    assert measured.volume_ml == pytest.approx(sum(part.mesh.volume_ml for part in small))


def test_turned_on_the_plate_a_part_keeps_its_size() -> None:
    for part in parts(ROOMS[1]):
        assert part.lying.volume_ml == pytest.approx(part.mesh.volume_ml, rel=1e-9)


def test_a_printer_that_is_too_small_is_told() -> None:
    with pytest.raises(NoSafePlan, match="printer-too-small"):
        plates_of(block_shell(), (12.0, 12.0, 12.0))


def test_a_plates_file_is_read_by_another_library_in_millimeters_with_its_names() -> None:
    """trimesh reads each part closed, as large as it was laid."""
    files = plate_files(laid(ROOMS[2]))
    assert list(files.contents) == [f"mold/plate-{n}.3mf" for n in range(1, len(plates(ROOMS[2])) + 1)]
    for plate, content in zip(plates(ROOMS[2]), files.contents.values(), strict=True):
        scene = trimesh.load_scene(io.BytesIO(content), file_type="3mf")
        assert scene.units == "millimeter"
        for each in plate.parts:
            read = scene.geometry[f"shell-{each.part.piece} part {each.part.number}"]
            assert read.is_watertight
            assert read.volume == pytest.approx(each.mesh.volume_mm3, rel=1e-4)
