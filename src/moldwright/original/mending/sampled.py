"""The scan as a level set: its signed distance sampled on a grid, whatever its faults."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from moldwright.geometry.clip import capped, patched
from moldwright.geometry.distance import unsigned_band
from moldwright.geometry.grid import Field, Grid
from moldwright.geometry.mesh import Mesh
from moldwright.geometry.sign import Mask, inside_solid, inside_soup
from moldwright.geometry.slabs import standing_surfaces
from moldwright.original.mending.bodies import nothing_left
from moldwright.original.mending.budget import in_short_pieces
from moldwright.progress import Progress

STAGE = "sample the scan"
STAGE_NEAR, STAGE_SIGN = "find the scan's surface", "tell inside from outside"
POINTS_AT_ONCE = 6_000_000
BAND_STEPS = 3
OFF_ZERO = 2e-4


def sample(cut: Mesh, grid: Grid, progress: Progress) -> Mesh:
    """The zero level set of the signed distance to a scan, continued below the board.

    The scan may be open, crossing and in many bodies. Distance and sign are found apart (docs/decisions/0006). A
    point that lies on a sheet inside the piece counts as inside, so that no sheet parts the piece.

    Parameters
    ----------
    cut : the scan over the board [mm].
    grid : where to sample, from the board up.
    progress : told at every slab of layers; it may raise to cancel.

    Source: our own.
    """
    whole = patched(cut)
    closed = capped(whole)
    band, top = BAND_STEPS * grid.step_mm, grid.step_mm * grid.shape[2]

    def fields(part: Grid) -> list[Field]:
        progress(STAGE, part.origin_mm[2] / top)
        distance, _, inside = banded(whole, closed, part, band, progress)
        np.clip(distance, OFF_ZERO * grid.step_mm, band, out=distance)
        np.negative(distance, out=distance, where=inside)
        return [distance]

    surface = standing_surfaces(grid, fields, band, POINTS_AT_ONCE)[0]
    if surface is None:
        raise nothing_left()
    progress(STAGE, 1.0)
    return surface


def banded(
    soup: Mesh, closed: Mesh, grid: Grid, band_mm: float, progress: Progress
) -> tuple[Field, NDArray[np.int32], Mask]:
    """Distance, nearest triangle and sign in a band about a scan.

    Parameters
    ----------
    soup : the scan over the board, its holes closed by fans [mm].
    closed : the same, closed at the board.
    grid : where to ask.
    band_mm : how far from the surface [mm].
    progress : told between short pieces of the work; it may raise to cancel.

    Source: our own.
    """
    distance, nearest = _nearest(soup, grid, band_mm, progress)
    progress(STAGE_SIGN, 0.0)
    if closed.closed:
        return distance, nearest, inside_solid(closed, grid)
    return distance, nearest, inside_soup(closed, distance, grid, lambda share: progress(STAGE_SIGN, share))


def _nearest(soup: Mesh, grid: Grid, band_mm: float, progress: Progress) -> tuple[Field, NDArray[np.int32]]:
    """The unsigned band, its triangles taken a group at a time where they are many or large."""
    groups = in_short_pieces(soup, grid)
    distance, nearest = unsigned_band(Mesh(soup.vertices, soup.faces[groups[0]]), grid, band_mm)
    for number, group in enumerate(groups[1:], start=1):
        progress(STAGE_NEAR, number / len(groups))
        other, which = unsigned_band(Mesh(soup.vertices, soup.faces[group]), grid, band_mm)
        closer = other < distance
        distance[closer] = other[closer]
        nearest[closer] = which[closer] + np.int32(group[0])
    return distance, nearest
