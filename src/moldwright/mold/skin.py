"""The core of a cast: what lies deeper than the skin and is reached from the mouth; all the rest is skin.

What a liquid reaches is what a ball of its passing width reaches: its middle moves where the wall is farther than skin
and radius, and what it sweeps is core. So a limb or a neck that the skin closes, or all but closes, holds none.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray
from scipy.ndimage import label

from moldwright.geometry.field import standing_band, standing_grid
from moldwright.geometry.grid import Field, Grid
from moldwright.geometry.mesh import Mesh
from moldwright.geometry.sign import Mask
from moldwright.geometry.slabs import layers
from moldwright.geometry.sweep import squared_steps_to
from moldwright.mold.measures import PASSES_MM, Skin

ROUNDED_STEPS = 1.4
"""How far beyond the ball's own sweep core is counted, in steps: half a cell, and what lies between two points."""
FULL = 254
"""A cell that is core all through, in the bytes in which shares of cells are kept; one more: the ball's middle fits."""

Shares = NDArray[np.uint8]


def skin_of(body: Mesh, skin_mm: float, plinth_height_mm: float, step_mm: float) -> Skin:
    """Measure a skin as the body less its core: what is deeper than the skin and reached from the mouth at z = 0.

    Parameters
    ----------
    body : original and plinth as one closed solid on z = 0 [mm].
    skin_mm : thickness of the skin [mm].
    plinth_height_mm : where the plinth is cut off; 0 without one [mm].
    step_mm : sampling step [mm].

    A neck counts as closed from `PASSES_MM` down to no more than 1.7 steps above it, never as open below.

    Source: opening of a set by a ball: Serra 1982, "Image analysis and mathematical morphology" (from memory), of the
    part that the ball reaches; volume by the share of each cell within the level set, our own.
    """
    grid = standing_grid(body, step_mm, step_mm)
    shares = _shares_deeper(body, grid, skin_mm)
    core, closed = (_layer_ml(shares, part, grid) for part in _reached_and_closed(shares, grid))
    over_board, over_plinth = _over(grid, 0.0), _over(grid, plinth_height_mm)
    whole_ml = body.volume_over_mm3(0.0) / 1000 - float(core @ over_board)
    return Skin(whole_ml, float(core @ over_plinth), float(closed @ over_board))


def _shares_deeper(body: Mesh, grid: Grid, skin_mm: float) -> Shares:
    """What share of each point's cell lies deeper than the skin, 0 to `FULL`; one more where the ball's middle fits.

    A cell's share falls from one to zero over the step about the level set, which errs as much inside as outside.
    """
    radius = max(PASSES_MM / 2, grid.step_mm / 2)
    reach = skin_mm + radius + grid.step_mm
    shares = np.zeros(grid.shape, np.uint8)

    def band(part: Grid) -> Field:
        return standing_band(body, part, reach) + np.float32(skin_mm)

    for first, field in layers(grid, band, reach):
        share = np.clip(np.float32(0.5) - field / np.float32(grid.step_mm), 0.0, 1.0)
        some = np.rint(FULL * share).astype(np.uint8)
        some[field < -radius] = FULL + 1
        shares[:, :, first : first + field.shape[2]] = some
    return shares


def _reached_and_closed(shares: Shares, grid: Grid) -> tuple[Mask, Mask]:
    """The points that the ball sweeps on its way from the mouth, and those where it fits but does not get; the rounding
    of edges left out."""
    middles = shares > FULL
    parts, count = label(middles)
    at_mouth = np.zeros(count + 1, bool)
    at_mouth[np.unique(parts[:, :, 0])] = True
    at_mouth[0] = False
    open_, closed = at_mouth[parts], middles & ~at_mouth[parts]
    reach = PASSES_MM / 2 / grid.step_mm + ROUNDED_STEPS
    near = squared_steps_to(open_, reach)
    if not closed.any():
        return near <= reach**2, closed
    behind = squared_steps_to(closed, reach)
    return (near <= reach**2) & (near <= behind), (behind <= reach**2) & (behind < near)


def _layer_ml(shares: Shares, part: Mask, grid: Grid) -> NDArray[np.float64]:
    """(n,) what each layer of whole cells holds in some of them [ml]."""
    held = np.where(part, np.minimum(shares, FULL), 0).sum(axis=(0, 1), dtype=np.int64)
    return np.asarray(held * (grid.step_mm**3 / FULL / 1000), dtype=np.float64)


def _over(grid: Grid, height_mm: float) -> NDArray[np.float64]:
    """(n,) the share of each layer's thickness over a height and over the board."""
    top = grid.axis(2) + grid.step_mm / 2
    return np.asarray(np.clip((top - height_mm) / grid.step_mm, 0.0, 1.0), dtype=np.float64)
