"""From a placed scan to the one closed solid that stands on the board."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from moldwright.geometry.clip import above_plane
from moldwright.geometry.field import standing_grid
from moldwright.geometry.mesh import Mesh
from moldwright.geometry.solid import exportable, mesh_of, solid_of
from moldwright.original.mending.as_scanned import AsScanned, Patch, as_scanned
from moldwright.original.mending.bodies import nothing_left, one_body
from moldwright.original.mending.budget import check_budget
from moldwright.original.mending.closing import closed_at_board
from moldwright.original.mending.footing import middle_of_foot
from moldwright.original.mending.holes import hole_repairs
from moldwright.original.mending.hollows import largest_fillings, without_hollows
from moldwright.original.mending.pockets import without_pockets
from moldwright.original.mending.sampled import BAND_STEPS, sample
from moldwright.original.mending.seen import seen_from_outside
from moldwright.progress import Progress, silent
from moldwright.scan.repairs import Repair

SNAP_MM = 0.3
SNAP_SHARE = 0.003
SMOOTH_SHARE, EXACT_SHARE = 0.25, 0.05
STAGE = "mend the scan"


@dataclass(frozen=True, slots=True, eq=False)
class Standing:
    """The original as one closed solid on the board z = 0, its footprint's box centered at x = y = 0.

    Parameters
    ----------
    mesh : the solid [mm].
    step_mm : the sampling step [mm].
    error_mm : how far its surface may lie from the scan's [mm], but for the patches; where it is a level set, but for
        sharp edges, which are rounded by about a step.
    exact : whether all of it is the scan's own surface, holes closed by fans.
    repairs : what was mended.
    was_closed : whether the scan had no holes away from the board.
    patches : where a scan that cuts itself was replaced by a level set, its edges there rounded by about a step; none
        where the surface is exact or is a level set as a whole.
    """

    mesh: Mesh
    step_mm: float
    error_mm: float
    exact: bool
    repairs: tuple[Repair, ...]
    was_closed: bool
    patches: tuple[Patch, ...] = ()


def step_for(size_mm: float) -> float:
    """Sampling step of the original and its coats: size / 100, at most 1 mm up to 250 mm; above it grows slowly.

    Above 250 mm it is (size / 250)^0.5 mm: half again as fine in a life-size bust as in proportion to its size.

    Parameters
    ----------
    size_mm : the longest side of what stands on the board [mm].

    >>> step_for(20.0), step_for(160.0), step_for(250.0), step_for(1000.0)
    (0.2, 1.0, 1.0, 2.0)

    Source: our own.
    """
    return min(size_mm / 100, 1.0) if size_mm <= 250 else float(np.sqrt(size_mm / 250))


def stand(placed: Mesh, progress: Progress = silent) -> Standing:
    """Cut a scan at the board z = 0, close it there, and make it one solid.

    Open, overlapping, self-intersecting and multi-body scans are allowed; what was mended is listed with its size.
    The solid's form is decided by the scan's signed distance field; its surface is the scan's own wherever that can be
    united to the same solid.

    Raises InputRefused (nothing above the board, bodies apart, more parts or holes than can be mended) and NoSafePlan
    (a closed hollow).

    Parameters
    ----------
    placed : triangles of the scan, z up, the board at z = 0 [mm].
    progress : told what is done; it may raise to cancel.

    Source: our own; winding numbers after Jacobson et al. 2013 and Barill et al. 2018.
    """
    snap = min(SNAP_MM, SNAP_SHARE * float(placed.bounds_mm[1][2]))
    cut = above_plane(placed, snap)
    if len(cut.faces) == 0:
        raise nothing_left()
    progress(STAGE, 0.0)
    step = step_for(float((cut.bounds_mm[1] - cut.bounds_mm[0]).max()))
    grid = standing_grid(cut, step, BAND_STEPS * step)
    check_budget(cut, grid)
    holes = hole_repairs(cut)
    seen = seen_from_outside(cut, grid, progress)
    filled, hollows = without_hollows(sample(seen, grid, progress), step**3)
    firm, pockets = without_pockets(filled)
    sampled, dropped = one_body(firm)
    repairs = (*holes, *largest_fillings([*hollows, *pockets]), *dropped)
    progress(STAGE, 0.5)
    closed = closed_at_board(seen)
    own = None if closed is None else as_scanned(closed, sampled, grid, progress)
    moved_mm = _moved(placed, snap)
    if own is None:
        mesh, _ = _in_the_middle(mesh_of(sampled))
        return Standing(mesh, step, max(moved_mm, SMOOTH_SHARE * step), False, repairs, not holes)
    mesh, patches = _centered(own)
    return Standing(mesh, step, max(moved_mm, EXACT_SHARE * step), not patches, repairs, not holes, patches)


def _moved(placed: Mesh, snap_mm: float) -> float:
    """How far setting an uneven foot on the board moves it at most [mm]."""
    z = np.abs(placed.vertices[:, 2])
    return float(z[z <= snap_mm].max(initial=0.0))


def _centered(own: AsScanned) -> tuple[Mesh, tuple[Patch, ...]]:
    mesh, (x, y) = _in_the_middle(own.mesh)
    return mesh, tuple(Patch((p.at[0] + x, p.at[1] + y, p.at[2]), p.radius_mm) for p in own.patches)


def _in_the_middle(mesh: Mesh) -> tuple[Mesh, tuple[float, float]]:
    """The mesh with its footprint's box centered at x = y = 0, in single precision, and how it was moved."""
    x, y = middle_of_foot(mesh)
    shift = (-x, -y)
    return exportable(solid_of(mesh.moved((*shift, 0.0)))), shift
