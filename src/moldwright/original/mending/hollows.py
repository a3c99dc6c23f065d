"""Spaces in the piece that the outside does not reach: small ones are filled, a large one is refused."""

from __future__ import annotations

import manifold3d as m3
import numpy as np

from moldwright.errors import NoSafePlan
from moldwright.found_at import FoundAt
from moldwright.geometry.connected import connected_parts
from moldwright.geometry.mesh import Mesh
from moldwright.geometry.on_body import found_on
from moldwright.geometry.solid import Solid, above, mesh_of, solid_of
from moldwright.original.mending.bodies import nothing_left
from moldwright.original.mending.footing import middle_of_foot
from moldwright.scan.repairs import Repair, RepairCode

LEAST_HOLLOW_ML = 1.0
LEAST_HOLLOW_SHARE = 0.01


def without_hollows(surface: Mesh, cell_mm3: float) -> tuple[Solid, list[Repair]]:
    """The solid over the board with its hollows filled, and each filling.

    A hollow is a part of the surface that is wound inward; all outward parts are united, which fills them. Raises
    NoSafePlan for a hollow above 1 ml and 1 % of the largest body that the board does not close (common practice, no
    source).

    Parameters
    ----------
    surface : a closed level set that may run on below z = 0 [mm].
    cell_mm3 : volume of a grid cell: smaller hollows are not told [mm3].

    Source: our own.
    """
    parts = connected_parts(surface)
    outward = [part for part in parts if part.volume_mm3 > 0]
    if not outward:
        raise nothing_left()
    limit_ml = max(LEAST_HOLLOW_ML, LEAST_HOLLOW_SHARE * max(part.volume_mm3 for part in outward) / 1000)
    hollows = [part for part in parts if part.volume_mm3 < -cell_mm3]
    repairs = [_filled(hollow, limit_ml, surface) for hollow in hollows]
    inward = [part for part in parts if part.volume_mm3 <= 0]
    return above(_united(outward, inward), 0.0), [repair for repair in repairs if repair.size > 0]


def _united(outward: list[Mesh], inward: list[Mesh]) -> Solid:
    """The outward parts of a level set, which do not cross: only those that may lie in a hollow need a boolean."""
    boxes = [np.concatenate(part.bounds_mm) for part in inward]
    free: list[Solid] = []
    nested: list[Solid] = []
    for part in outward:
        low, high = part.bounds_mm
        held = any((box[:3] <= low).all() and (high <= box[3:]).all() for box in boxes)
        (nested if held else free).append(solid_of(part))
    return m3.Manifold.batch_boolean([m3.Manifold.compose(free), *nested], m3.OpType.Add)


def _filled(hollow: Mesh, limit_ml: float, surface: Mesh) -> Repair:
    on_board = float(hollow.vertices[:, 2].min()) < 0
    volume = above(solid_of(Mesh(hollow.vertices, hollow.faces[:, ::-1])), 0.0).volume() / 1000
    if not on_board and volume > limit_ml:
        raise NoSafePlan(
            "closed-hollow",
            round(volume, 1),
            round(limit_ml, 1),
            "ml",
            "No rubber reaches a hollow that is closed all round, and no cast would have it: "
            "fill the hollow in the scan (the cast is then solid), or open it to the outside.",
            place=_place_of(hollow, surface),
        )
    code = RepairCode.BOARD_HOLLOW_FILLED if on_board else RepairCode.HOLLOW_FILLED
    return Repair(code, round(volume, 3), "ml")


def _place_of(hollow: Mesh, surface: Mesh) -> FoundAt:
    """Where a hollow is, in the piece as it stands, its hollows still open."""
    body = mesh_of(above(solid_of(surface), 0.0))
    x, y = middle_of_foot(body)
    low, high = hollow.bounds_mm
    middle = (low + high) / 2 - np.array([x, y, 0.0])
    return found_on(body.moved((-x, -y, 0.0)), middle, float((high - low).max()))


def largest_fillings(repairs: list[Repair], most: int = 5) -> tuple[Repair, ...]:
    """The largest fillings each by itself, the rest together.

    Parameters
    ----------
    repairs : all fillings.
    most : how many are told each by itself.

    Source: our own.
    """
    ordered = sorted(repairs, key=lambda repair: -repair.size)
    rest = sum(repair.size for repair in ordered[most:])
    if len(ordered) <= most:
        return tuple(ordered)
    return (*ordered[:most], Repair(RepairCode.HOLLOW_FILLED, round(rest, 3), "ml", len(ordered) - most))
