"""A scan is scaled, turned and stood on the board."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from moldwright.errors import InputRefused
from moldwright.geometry.mesh import Mesh
from moldwright.original.standing.direction import name_of, rotation_to_z
from moldwright.original.standing.file_units import (
    LARGEST_MM,
    SIZE_UNCLEAR,
    SMALLEST_MM,
    THINNEST_MM,
    scale_of,
    unclear,
)
from moldwright.original.standing.hull import Hull, hull_of, width_of
from moldwright.original.standing.opening import hole_refused, large_holes, ways_on_rims
from moldwright.original.standing.rim import Rim, base_rim, rims_of_scan
from moldwright.original.standing.specks import Specks, without_specks
from moldwright.original.standing.stance import BoardBy, Placed, ScaleBy, Stance
from moldwright.original.standing.upright import Up, find_up
from moldwright.original.standing.ways import distinct
from moldwright.scan.repairs import Repair, RepairCode
from moldwright.scan.scan import Scan, Vector

Points = NDArray[np.float64]
FLAT = 1e-6


def place(
    scan: Scan,
    height_mm: float | None = None,
    unit: str | None = None,
    up: str | Vector | None = None,
    board_mm: float | None = None,
) -> Placed:
    """Stand a scan on the board: z up, the cut plane at z = 0, the box of what is above it centered at x = y = 0.

    Holes in the scan are told where they are closed: `original.mending`.

    Parameters
    ----------
    scan : what was read.
    height_mm : true height from the board to the top, after the cut [mm].
    unit : unit of the file's numbers; goes before the format's own.
    up : the file's direction that points up; left out: the format's, or as the piece stands best.
    board_mm : height of the cut above the lowest point [mm]; left out: 0, or just above the rim of an open base.

    Source: our own.
    """
    scan, specks = without_specks(scan)
    hull, rims = _solid_hull(scan.mesh), rims_of_scan(scan)
    if height_mm is None and unit is None and scan.unit is None:
        raise unclear(*_size(scan, hull, rims, up))
    _check_numbers(height_mm, board_mm)
    chosen = find_up(scan, hull, rims, up)
    turn = rotation_to_z(chosen.direction)
    turned = scan.mesh.vertices @ turn.T
    turned_rims = tuple(rim.turned(turn) for rim in rims)
    factor, board = _scale_and_board(turned, turned_rims, scan, height_mm, unit, board_mm)
    _check_size(turned, hull, board, factor)
    if not chosen.told:
        _check_holes(scan.mesh, rims, turned_rims, chosen, float(turned[:, 2].min()) + board)
    mesh = Mesh(_standing(turned, scan.mesh, board, factor), scan.mesh.faces)
    stance = _stance(chosen, factor, board, (height_mm, unit, board_mm))
    return Placed(mesh, stance, (*scan.repairs, *_told(specks, factor)))


def _told(specks: Specks, factor: float) -> tuple[Repair, ...]:
    if not specks.count:
        return ()
    return (Repair(RepairCode.SPECKS_DROPPED, float(f"{specks.largest * factor:.3g}"), "mm", specks.count),)


def _solid_hull(mesh: Mesh) -> Hull:
    hull = hull_of(mesh.vertices)
    size = float(np.ptp(mesh.vertices, axis=0).max())
    if hull is None or (hull.room <= FLAT * size and width_of(hull) <= FLAT * size):
        raise InputRefused(
            "flat", 0, THINNEST_MM, "mm", "The scan has no thickness: give a piece with a front and a back."
        )
    return hull


def _check_holes(mesh: Mesh, rims: tuple[Rim, ...], turned_rims: tuple[Rim, ...], chosen: Up, cut: float) -> None:
    """A large hole away from the board is closed only where the maker said which way is up."""
    surface = mesh.area_mm2
    holes = large_holes(turned_rims, cut, surface)
    if holes:
        ways = distinct((chosen.direction, *ways_on_rims(rims, mesh.vertices, surface)))
        raise hole_refused(holes[0], surface, ways)


def _size(scan: Scan, hull: Hull, rims: tuple[Rim, ...], up: str | Vector | None) -> tuple[float, str]:
    """How tall it is in file units, or how large where up is not clear either."""
    try:
        direction = find_up(scan, hull, rims, up).direction
    except InputRefused:
        return float(np.ptp(scan.mesh.vertices, axis=0).max()), "at its longest"
    return float(np.ptp(scan.mesh.vertices @ direction)), "tall"


def _check_numbers(height_mm: float | None, board_mm: float | None) -> None:
    if height_mm is not None and not (0 < height_mm < np.inf):
        raise InputRefused("height-not-possible", height_mm, 0, "mm", "Give the height from the board to the top.")
    if board_mm is not None and not (0 <= board_mm < np.inf):
        raise InputRefused("board-not-possible", board_mm, 0, "mm", "Give the cut's height above the lowest point.")


def _scale_and_board(
    turned: Points, rims: tuple[Rim, ...], scan: Scan, height_mm: float | None, unit: str | None, board_mm: float | None
) -> tuple[float, float]:
    """Millimeters in a file unit, and the cut's height above the lowest point in file units.

    With the cut given in mm and the height in mm, s = (height + board) / whole: no iteration is needed.
    """
    low, high = turned.min(axis=0), turned.max(axis=0)
    whole = float(high[2] - low[2])
    if board_mm is None:
        board = base_rim(rims, low, high) or 0.0
        return _known(scale_of(whole - board, height_mm, unit, scan.unit)), board
    by_unit = scale_of(1.0, None, unit, scan.unit)
    if by_unit is not None:
        _check_above(whole, board_mm / by_unit, by_unit)
        scale_of(whole - board_mm / by_unit, height_mm, unit, scan.unit)
    factor = _known(by_unit) if height_mm is None else (height_mm + board_mm) / whole
    return factor, board_mm / factor


def _known(factor: float | None) -> float:
    if factor is None:
        raise InputRefused(SIZE_UNCLEAR, "neither unit nor height", None, "", "Say the unit or the true height.")
    return factor


def _check_above(whole: float, board: float, factor: float) -> None:
    if board >= whole * (1 - 1e-9):
        raise InputRefused(
            "nothing-above-board",
            round(board * factor, 3),
            round(whole * factor, 3),
            "mm",
            "The cut lies above the top of the piece: set the board lower, or check the unit.",
        )


def _check_size(turned: Points, hull: Hull, board: float, factor: float) -> None:
    low, high = turned.min(axis=0), turned.max(axis=0)
    _check_above(float(high[2] - low[2]), board, factor)
    sides = (high - low) * factor
    sides[2] -= board * factor
    largest, thinnest = float(sides.max()), float(sides.min())
    hint = "Check the unit, the height and the board."
    if largest < SMALLEST_MM:
        raise InputRefused("too-small", round(largest, 3), SMALLEST_MM, "mm", hint)
    if largest > LARGEST_MM:
        raise InputRefused("too-large", round(largest, 1), LARGEST_MM, "mm", hint)
    if hull.room * factor < THINNEST_MM:
        thinnest = min(thinnest, width_of(hull) * factor)
    if thinnest < THINNEST_MM:
        raise InputRefused("too-thin", round(thinnest, 4), THINNEST_MM, "mm", f"It is a sheet, not a piece. {hint}")


def _standing(turned: Points, mesh: Mesh, board: float, factor: float) -> Points:
    cut = float(turned[:, 2].min()) + board
    above = turned[:, 2] >= cut
    touched = np.zeros(len(turned), bool)
    touched[mesh.faces[above[mesh.faces].any(axis=1)]] = True
    low, high = turned[touched].min(axis=0), turned[touched].max(axis=0)
    shift = np.array([(low[0] + high[0]) / 2, (low[1] + high[1]) / 2, cut])
    placed: Points = (turned - shift) * factor
    return placed


def _stance(chosen: Up, factor: float, board: float, given: tuple[float | None, str | None, float | None]) -> Stance:
    height_mm, unit, board_mm = given
    scale_by = ScaleBy.HEIGHT if height_mm is not None else ScaleBy.UNIT if unit else ScaleBy.FORMAT
    found_by = BoardBy.RIM if board > 0 else BoardBy.LOWEST
    return Stance(
        up=name_of(chosen.direction),
        up_by=chosen.by,
        mm_per_unit=factor,
        scale_by=scale_by,
        board_mm=board * factor,
        board_by=BoardBy.COMMISSION if board_mm is not None else found_by,
    )
