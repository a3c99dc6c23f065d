"""Stages: a printed shell parted and laid out on plates, and what is measured on them."""

from __future__ import annotations

from moldwright.mold.measures import PrintMeasures
from moldwright.mold.parts import Room, parts_of
from moldwright.mold.plates import LaidPlates, laid_on_plates
from moldwright.mold.shell import BuiltShell


def plates_of(shell: BuiltShell, room: Room) -> LaidPlates:
    """The plates of all pieces.

    Parameters
    ----------
    shell : the finished shell.
    room : what the printer holds, width, depth and height [mm].

    Raises NoSafePlan ("printer-too-small").
    """
    parts = [part for number, piece in enumerate(shell.pieces, 1) for part in parts_of(piece.mesh, number, room)]
    return laid_on_plates(parts, room)


def measured_plates(plates: LaidPlates) -> PrintMeasures:
    """What a plan tells of the plates, without their solids.

    Parameters
    ----------
    plates : laid out.
    """
    every = [laid.part for plate in plates.plates for laid in plate.parts]
    return PrintMeasures(
        plates=tuple(tuple((laid.part.piece, laid.part.number) for laid in plate.parts) for plate in plates.plates),
        pins=sum(part.pins for part in every) // 2,
        volume_ml=sum(part.mesh.volume_ml for part in every),
    )
