"""Where a look is refused because up or size is not clear: the ways that the piece may stand."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from moldwright.commission.orders import OriginalOrder, ScanUnit
from moldwright.errors import InputRefused
from moldwright.original.standing.candidates import candidates
from moldwright.original.standing.direction import direction_of, in_commission, name_of
from moldwright.original.standing.file_units import SIZE_UNCLEAR
from moldwright.original.standing.opening import LARGE_HOLE
from moldwright.original.standing.place import place
from moldwright.original.standing.upright import UP_UNCLEAR
from moldwright.scan.scan import Scan
from moldwright.sheets.look_picture import Stood, look_picture

SHOWN = (UP_UNCLEAR, LARGE_HOLE, SIZE_UNCLEAR)
"""Refusals that a picture of the ways to stand helps to answer."""
ANY_HEIGHT_MM = 100.0


@dataclass(frozen=True, slots=True, eq=False)
class WayToStand:
    """One way that a piece may stand.

    `up` : what the direction is called.
    `stood` : the piece as it would stand, to be drawn.
    """

    up: str
    stood: Stood


def ways_to_stand(refused: InputRefused, scan: Scan, order: OriginalOrder) -> tuple[WayToStand, ...]:
    """Each way to stand that can be drawn, the likeliest first; none where the look was refused for something else.

    Parameters
    ----------
    refused : why the look was refused.
    scan : what was read.
    order : how the maker wants it to stand.
    """
    return tuple(_ways(scan, order)) if refused.code in SHOWN else ()


def sizes_to_be(refused: InputRefused, scan: Scan, order: OriginalOrder) -> tuple[tuple[ScanUnit, float], ...]:
    """How tall the piece would be [mm] by each unit that its numbers may be in; none where its size is no question.

    Parameters
    ----------
    refused : why the look was refused.
    scan : what was read.
    order : how the maker wants it to stand.
    """
    if refused.code != SIZE_UNCLEAR:
        return ()
    way = direction_of(order.up) if order.up else next(iter(candidates(scan)))
    x, y, z = (float(part) for part in way)
    return tuple(_sized(scan, (x, y, z)))


def _sized(scan: Scan, way: tuple[float, float, float]) -> Iterator[tuple[ScanUnit, float]]:
    for unit in ScanUnit:
        try:
            mesh = place(scan, None, unit, way, None).mesh
        except InputRefused:
            continue
        yield unit, float(mesh.bounds_mm[1][2] - mesh.bounds_mm[0][2])


def drawn(ways: tuple[WayToStand, ...]) -> bytes:
    """PNG bytes of one way to stand, or of several side by side.

    Parameters
    ----------
    ways : at least one.
    """
    return look_picture([way.stood for way in ways])


def _ways(scan: Scan, order: OriginalOrder) -> Iterator[WayToStand]:
    """In no known unit where nothing tells the size."""
    sized = bool(order.height_mm or order.unit or scan.unit)
    height = order.height_mm if sized else ANY_HEIGHT_MM
    told = (direction_of(order.up),) if order.up else candidates(scan)
    for way in told:
        x, y, z = (float(part) for part in way)
        try:
            placed = place(scan, height, order.unit, (x, y, z), order.board_mm if sized else None)
        except InputRefused:
            continue
        yield WayToStand(name_of(way), Stood(placed.mesh, f"up = {in_commission(way)}", sized))
