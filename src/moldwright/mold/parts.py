"""A printed shell's pieces as parts that a printer's room holds, parted by planes and pinned together again."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import manifold3d as m3
import numpy as np
import shapely
from numpy.typing import NDArray

from moldwright.errors import ComputationFailed, NoSafePlan
from moldwright.geometry.mesh import Mesh
from moldwright.geometry.solid import SPECK_MM3, Solid, bodies_of, exportable, solid_of

MARGIN_MM = 5.0
"""Left free on every side of the printer's room: common practice, no source."""
PIN_MM, PIN_DEEP_MM = 1.9, 8.0
"""Holes for pins cut from 1.75 mm filament, in each of the two parts: our own."""
PIN_WALL_MM, PIN_EVERY_MM, MOST_PINS = 0.5, 25.0, 12
"""Plastic left beside a pin; how far pins stand apart at the least; so many in one cut at the most: our own."""
LOOKED_MM = 1.0
"""How finely places for pins are looked for."""
PIN_HELD = 0.98
"""How much of a pin must lie in the piece: our own."""
MOST_CUTS = 8
"""Deeper is not cut: a part then has an eighth and less of a printer's room; our own."""
YAWS_DEG = (0.0, 45.0, 15.0, 30.0, 60.0, 75.0)
"""By how much a part may be turned on the plate."""

Room = tuple[float, float, float]
Turn = NDArray[np.float64]


@dataclass(frozen=True, slots=True, eq=False)
class PrintedPart:
    """A part in its place in the shell, and as it is printed: turned, its lowest point on the plate, its corner at 0.

    `piece` and `number` count from 1; `pins` : holes for pins in it.
    """

    piece: int
    number: int
    mesh: Mesh
    lying: Mesh
    pins: int

    @property
    def size_mm(self) -> tuple[float, float, float]:
        """How much room it takes as it is printed [mm]."""
        x, y, z = (float(v) for v in self.lying.bounds_mm[1])
        return (x, y, z)


@dataclass(frozen=True, slots=True, eq=False)
class _Raw:
    """What is still to be parted, and every pin so far, each with a thicker one about it."""

    solid: Solid
    pins: tuple[tuple[Solid, Solid], ...] = ()


def parts_of(piece: Mesh, number: int, room: Room) -> tuple[PrintedPart, ...]:
    """The parts of one piece: itself where it fits, else halved across its longest side until all fit.

    Parameters
    ----------
    piece : closed [mm].
    number : of the piece, from 1.
    room : what the printer holds, width, depth and height [mm].

    Raises NoSafePlan ("printer-too-small"). Source: our own.
    """
    free = tuple(side - 2 * MARGIN_MM for side in room[:2])
    inner = (free[0], free[1], room[2] - MARGIN_MM)
    raws = list(_fitting(_Raw(solid_of(piece)), inner, MOST_CUTS, room))
    return tuple(_part(raw, number, n, inner) for n, raw in enumerate(raws, start=1))


def _part(raw: _Raw, piece: int, number: int, inner: Room) -> PrintedPart:
    mesh = exportable(raw.solid, SPECK_MM3)
    turn = _best_turn(mesh, inner)
    if turn is None:
        raise ComputationFailed("part-outgrown", number, None, "", "Report this commission.")
    turned = mesh.vertices @ turn.T
    pins = sum(float((about ^ raw.solid).volume()) > 0.0 for _, about in raw.pins)
    return PrintedPart(piece, number, mesh, Mesh(turned - turned.min(axis=0), mesh.faces), pins)


def _fitting(raw: _Raw, inner: Room, cuts: int, room: Room) -> Iterator[_Raw]:
    vertices = np.asarray(raw.solid.to_mesh64().vert_properties)[:, :3]
    if _turn_that_fits(vertices, inner) is not None:
        yield raw
        return
    if cuts == 0:
        asked = " x ".join(f"{side:g}" for side in room)
        raise NoSafePlan("printer-too-small", asked, None, "mm", "Print it on a larger printer, or lay a shell by hand")
    for half in _halves(raw):
        yield from _fitting(half, inner, cuts - 1, room)


def _halves(raw: _Raw) -> Iterator[_Raw]:
    """Both sides of a plane through the middle of the longest side, each body for itself, pinned where it was cut."""
    low, high = np.array(raw.solid.bounding_box()).reshape(2, 3)
    axis = int(np.argmax(high - low))
    normal, offset = np.eye(3)[axis], float(low[axis] + high[axis]) / 2
    pins = _pins(raw.solid, normal, offset)
    bored = raw.solid - m3.Manifold.batch_boolean([pin for pin, _ in pins], m3.OpType.Add) if pins else raw.solid
    for side in bored.split_by_plane(tuple(normal), offset):
        for body in bodies_of(side, SPECK_MM3):
            yield _Raw(body, (*raw.pins, *pins))


def _pins(solid: Solid, normal: NDArray[np.float64], offset: float) -> list[tuple[Solid, Solid]]:
    """Holes across a plane, in the thick of the section, as far apart as they stand well; each with a thicker one."""
    frame = _frame(normal)
    section = solid.transform(np.column_stack([frame.T, [0.0, 0.0, -offset]])).slice(0.0)
    area = shapely.Polygon()
    for ring in section.to_polygons():
        area = area.symmetric_difference(shapely.Polygon(ring).buffer(0))
    thick = area.buffer(-(PIN_MM / 2 + PIN_WALL_MM))
    chosen: list[NDArray[np.float64]] = []
    for point in _along(thick):
        if len(chosen) < MOST_PINS and all(np.hypot(*(point - other)) >= PIN_EVERY_MM for other in chosen):
            chosen.append(point)
    placed = [[_rod(frame, np.array([*point, offset]), radius) for radius in (PIN_MM / 2, PIN_MM)] for point in chosen]
    return [(pin, about) for pin, about in placed if (pin ^ solid).volume() > PIN_HELD * pin.volume()]


def _rod(frame: NDArray[np.float64], at: NDArray[np.float64], radius_mm: float) -> Solid:
    rod = m3.Manifold.cylinder(2 * PIN_DEEP_MM, radius_mm, radius_mm, 24).translate((0.0, 0.0, -PIN_DEEP_MM))
    return rod.transform(np.column_stack([frame, frame @ at]))


def _frame(normal: NDArray[np.float64]) -> NDArray[np.float64]:
    """(3, 3) columns: two ways in the plane, and its normal."""
    x = np.eye(3)[(int(np.argmax(np.abs(normal))) + 1) % 3]
    return np.column_stack([x, np.cross(normal, x), normal])


def _along(area: shapely.Geometry) -> Iterator[NDArray[np.float64]]:
    """Points along the edge of an area."""
    rings = shapely.get_parts(area.boundary)
    for ring in rings:
        for at in np.arange(0.0, ring.length, LOOKED_MM):
            yield np.array(ring.interpolate(at).coords[0])


def _turns() -> Iterator[Turn]:
    """Every axis downward, and turned on the plate."""
    flips = [np.eye(3), np.diag([1.0, -1.0, -1.0])]
    for axis in (0, 1):
        for sign in (1.0, -1.0):
            flip = np.zeros((3, 3))
            flip[2, axis], flip[axis, 2], flip[1 - axis, 1 - axis] = sign, -sign, 1.0
            flips.append(flip)
    for yaw in np.radians(YAWS_DEG):
        spin = np.array([[np.cos(yaw), -np.sin(yaw), 0.0], [np.sin(yaw), np.cos(yaw), 0.0], [0.0, 0.0, 1.0]])
        yield from (spin @ flip for flip in flips)


def _turn_that_fits(vertices: NDArray[np.float64], inner: Room) -> Turn | None:
    return next((turn for turn in _turns() if (np.ptp(vertices @ turn.T, axis=0) <= inner).all()), None)


def _best_turn(mesh: Mesh, inner: Room) -> Turn | None:
    """Of the turns that fit the one that lies on most of itself; of equals the lower."""
    corners = mesh.corners
    cross = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0]) / 2
    fits = [turn for turn in _turns() if (np.ptp(mesh.vertices @ turn.T, axis=0) <= inner).all()]

    def lies_on(turn: Turn) -> tuple[float, float]:
        high = (corners @ turn[2]).max(axis=1)
        flat = (high < high.min() + 0.3) & (cross @ turn[2] < 0)
        return float(-(cross[flat] @ turn[2]).sum()), -float(np.ptp(mesh.vertices @ turn[2]))

    return max(fits, key=lies_on) if fits else None
