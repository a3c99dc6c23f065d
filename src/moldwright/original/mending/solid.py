"""From a placed scan to the one closed solid that stands on the board."""

from __future__ import annotations

from dataclasses import dataclass

import manifold3d as m3
import numpy as np

from moldwright.errors import InputRefused, NoSafePlan
from moldwright.geometry.clip import above_plane, capped, open_borders, patched, snapped
from moldwright.geometry.connected import connected_parts
from moldwright.geometry.field import signed_band, standing_grid
from moldwright.geometry.mesh import Mesh
from moldwright.geometry.outline import section
from moldwright.geometry.slabs import standing_surfaces
from moldwright.geometry.solid import Solid, above, bodies_of, exportable, mesh_of, solid_of
from moldwright.scan.repairs import Repair, RepairCode

SNAP_MM = 0.3
SNAP_SHARE = 0.003
LEAST_BODY_SHARE = 0.01
SMOOTH_SHARE, EXACT_SHARE, THIN_SHARE, OVERLAP_SHARE = 0.25, 0.05, 0.02, 0.1
CUT_MM = 1e-5
LEAST_HOLLOW_ML = 1.0
LEAST_HOLLOW_SHARE = 0.01
FOOT_MM = 0.05


@dataclass(frozen=True, slots=True, eq=False)
class Standing:
    """The original as one closed solid on the board z = 0, its footprint's box centered at x = y = 0.

    `step_mm` is the sampling step, `error_mm` how far its surface may lie from the scan's; `exact` where it is the
    scan's own surface, else it is a level set whose sharp edges are rounded by about a step.
    """

    mesh: Mesh
    step_mm: float
    error_mm: float
    exact: bool
    repairs: tuple[Repair, ...]
    was_closed: bool


def step_for(size_mm: float) -> float:
    """Sampling step of the original and its coats: size / 100, at most 1 mm up to 250 mm; above it grows slowly.

    Above 250 mm it is (size / 250)^0.5 mm: half again as fine in a life-size bust as in proportion to its size.

    >>> step_for(20.0), step_for(160.0), step_for(250.0), step_for(1000.0)
    (0.2, 1.0, 1.0, 2.0)
    """
    return min(size_mm / 100, 1.0) if size_mm <= 250 else float(np.sqrt(size_mm / 250))


def stand(placed: Mesh) -> Standing:
    """Cut a scan at the board z = 0, close it there, and make it one solid through its signed distance field.

    Open, overlapping, self-intersecting and multi-body scans are allowed; what was mended is listed with its size.
    Raises InputRefused (nothing above the board, bodies apart) and NoSafePlan (a closed hollow).
    """
    _, high = placed.bounds_mm
    snap = min(SNAP_MM, SNAP_SHARE * float(high[2]))
    cut = above_plane(placed, snap)
    if len(cut.faces) == 0:
        raise _nothing_left()
    step = step_for(float((cut.bounds_mm[1] - cut.bounds_mm[0]).max()))
    grid = standing_grid(cut, step, 3 * step)
    whole = patched(cut)
    closed = capped(whole)
    surface = standing_surfaces(grid, lambda part: [signed_band(whole, part, 3 * step, closed)], 3 * step)[0]
    if surface is None:
        raise _nothing_left()
    holes = _hole_mends(cut)
    filled, hollows = _without_hollows(surface, step**3)
    firm, pockets = _without_pockets(filled)
    sampled, dropped = _one_body(firm)
    repairs = (*holes, *_largest_mends([*hollows, *pockets]), *dropped)
    exact = None if repairs else _as_scanned(placed, snap, step, sampled)
    mesh = _in_the_middle(sampled if exact is None else exact)
    error = max(_moved(placed, snap), (SMOOTH_SHARE if exact is None else EXACT_SHARE) * step)
    return Standing(mesh, step, error, exact is not None, repairs, not holes)


def _moved(placed: Mesh, snap_mm: float) -> float:
    """How far setting an uneven foot on the board moves it at most [mm]."""
    z = np.abs(placed.vertices[:, 2])
    return float(z[z <= snap_mm].max(initial=0.0))


def _as_scanned(placed: Mesh, snap_mm: float, step_mm: float, sampled: Mesh) -> Mesh | None:
    """The scan's own triangles cut at the board, where they already are one sound solid; else None.

    Sound: closed, one body, and of the sampled solid's volume (overlaps would count twice). Triangles are thinned
    by far less than a twentieth of the step.
    """
    raw = m3.Manifold(m3.Mesh64(snapped(placed, snap_mm).vertices, placed.faces.astype(np.uint64)))
    if raw.status() != m3.Error.NoError or raw.is_empty():
        return None
    solid = raw.trim_by_plane((0.0, 0.0, 1.0), CUT_MM).translate((0.0, 0.0, -CUT_MM)).simplify(THIN_SHARE * step_mm)
    if solid.is_empty() or len(solid.decompose()) != 1:
        return None
    if abs(solid.volume() - sampled.volume_mm3) > OVERLAP_SHARE * step_mm * sampled.area_mm2:
        return None
    mesh = mesh_of(solid)
    mesh.vertices[np.abs(mesh.vertices[:, 2]) < 1e-9, 2] = 0.0
    return mesh


def _nothing_left() -> InputRefused:
    return InputRefused(
        "nothing-above-board", 0, 1, "bodies", "Set the board lower, or check which way is up: nothing is left."
    )


def _hole_mends(cut: Mesh) -> tuple[Repair, ...]:
    """The scan's open borders away from the board, each with the length of its edge."""
    edges, border = open_borders(cut)
    if len(edges) == 0:
        return ()
    length = np.linalg.norm(cut.vertices[edges[:, 0]] - cut.vertices[edges[:, 1]], axis=1)
    sums = np.bincount(border, weights=length)
    largest = np.sort(sums)[::-1]
    told = tuple(Repair(RepairCode.HOLE_CLOSED, round(float(s), 1), "mm") for s in largest[:10])
    if len(largest) <= 10:
        return told
    return (
        *told,
        Repair(RepairCode.HOLE_CLOSED, round(float(largest[10:].sum()), 1), "mm", len(largest) - 10),
    )


def _without_hollows(surface: Mesh, cell_mm3: float) -> tuple[Solid, list[Repair]]:
    """Fill spaces that the outside does not reach; a large one that the board does not close is refused.

    A hollow is a part of the surface that is wound inward; all outward parts are united, which fills them.
    """
    parts = connected_parts(surface)
    outward = [solid_of(part) for part in parts if part.volume_mm3 > 0]
    hollows = [part for part in parts if part.volume_mm3 < -cell_mm3]
    if not outward:
        raise _nothing_left()
    body = m3.Manifold.batch_boolean(outward, m3.OpType.Add)
    body_ml = max(solid.volume() for solid in outward) / 1000
    limit_ml = max(LEAST_HOLLOW_ML, LEAST_HOLLOW_SHARE * body_ml)
    repairs = []
    for hollow in hollows:
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
            )
        code = RepairCode.BOARD_HOLLOW_FILLED if on_board else RepairCode.HOLLOW_FILLED
        repairs.append(Repair(code, round(volume, 3), "ml"))
    return above(body, 0.0), [repair for repair in repairs if repair.size > 0]


def _without_pockets(body: Solid) -> tuple[Solid, list[Repair]]:
    """Fill spaces under the piece that only the board closes: air over the board that the outside does not reach."""
    if not any(foot.interiors for foot in section(body, FOOT_MM).geoms):
        return body, []
    x, y, _, wide, deep, tall = body.bounding_box()
    size = (wide - x + 2.0, deep - y + 2.0, tall + 1.0)
    air = m3.Manifold.cube(size).translate((x - 1.0, y - 1.0, 0.0)) - body
    pockets = [part for part in bodies_of(air, 1.0) if part.bounding_box()[5] < tall]
    repairs = [Repair(RepairCode.BOARD_HOLLOW_FILLED, round(pocket.volume() / 1000, 3), "ml") for pocket in pockets]
    return m3.Manifold.batch_boolean([body, *pockets], m3.OpType.Add), repairs


def _largest_mends(repairs: list[Repair], most: int = 5) -> tuple[Repair, ...]:
    ordered = sorted(repairs, key=lambda repair: -repair.size)
    rest = sum(repair.size for repair in ordered[most:])
    if len(ordered) <= most:
        return tuple(ordered)
    return (*ordered[:most], Repair(RepairCode.HOLLOW_FILLED, round(rest, 3), "ml", len(ordered) - most))


def _one_body(solid: Solid) -> tuple[Mesh, tuple[Repair, ...]]:
    """The largest body; specks are dropped and told, a second real body is refused."""
    bodies = bodies_of(solid)
    if not bodies:
        raise _nothing_left()
    volumes = [body.volume() / 1000 for body in bodies]
    if len(bodies) > 1 and volumes[1] > LEAST_BODY_SHARE * volumes[0]:
        raise InputRefused(
            "bodies-apart",
            sum(volume > LEAST_BODY_SHARE * volumes[0] for volume in volumes),
            1,
            "bodies",
            "Above the board the scan falls apart: join its parts in the scan, or plan them one at a time.",
        )
    if len(bodies) == 1:
        return mesh_of(bodies[0]), ()
    return mesh_of(bodies[0]), (Repair(RepairCode.SPECKS_DROPPED, round(sum(volumes[1:]), 3), "ml", len(bodies) - 1),)


def _in_the_middle(mesh: Mesh) -> Mesh:
    """The mesh with its footprint's box centered at x = y = 0, in single precision."""
    foot = mesh.vertices[mesh.vertices[:, 2] <= 1e-6]
    base = foot if len(foot) else mesh.vertices
    middle = (base.min(axis=0) + base.max(axis=0)) / 2
    return exportable(solid_of(mesh.moved((-middle[0], -middle[1], 0.0))))
