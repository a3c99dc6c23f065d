"""A split that was searched about one core, held to about another one that stands in its place."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy import ndimage

from moldwright.geometry.grid import Field, Grid
from moldwright.geometry.mesh import Mesh
from moldwright.geometry.shadow import binary_shadow
from moldwright.geometry.sign import Mask
from moldwright.mold.space import HALF_CELL, space_about
from moldwright.mold.split import CoarseSplit, SpaceCut, SplitSettings

WALL_MM = 9.0
"""How far off the rubber points are looked at, whether their piece leaves: a shell's wall; common practice, no
source."""


@dataclass(frozen=True, slots=True, eq=False)
class Held:
    """What a split packs about a core, with its draws and its seam as they are.

    fill_ml : rubber to pack. stiff_ml : of it, what does not roll.
    caught_share : of the shell's points about the core that see out, those whose way leads through another piece: there
    the seam does not hold, and the shell has a gap. packed : the points that are packed.
    rubber_mm : how deep each point lies under the surface of core and packing.
    """

    fill_ml: float
    stiff_ml: float
    caught_share: float
    grid: Grid
    packed: Mask
    rubber_mm: Field


class HeldSplits:
    """Splits held to about one core.

    Parameters
    ----------
    core : body and rubber as one closed solid [mm].
    width_mm : reach of the shell from the core (seam flange) [mm].
    floor_mm : height over the board from which the shell stands [mm].
    step_mm : step of the grid [mm].
    settings : how splits are searched.
    """

    def __init__(self, core: Mesh, width_mm: float, floor_mm: float, step_mm: float, settings: SplitSettings) -> None:
        self._cut = SpaceCut(space_about(core, width_mm, floor_mm, step_mm), settings)

    def held(self, split: CoarseSplit) -> Held:
        """What a split packs, and where its pieces do not leave.

        Parameters
        ----------
        split : that was searched about a like core.

        Source: our own.
        """
        space = self._cut.space
        labels = split.everywhere[split.grid.nearest_to(space.grid)]
        labels[~space.free] = -1
        own = labels[space.free]
        held = self._cut.split(split.directions, own, split.in_order)
        hidden = np.zeros(space.grid.shape, np.float32)
        hidden[space.free] = np.choose(own, [way.hidden for way in self._cut.ways(split.directions)])
        packed = np.asarray(hidden >= HALF_CELL)
        return Held(
            fill_ml=held.fill_ml,
            stiff_ml=self._cut.stiff_ml(held),
            caught_share=_caught(split, labels, hidden < HALF_CELL, space.field < WALL_MM),
            grid=space.grid,
            packed=packed,
            rubber_mm=_deep_mm((space.field <= 0) | packed, space.grid.step_mm),
        )


def _deep_mm(covered: Mask, step_mm: float) -> Field:
    """How far each point is from what is not covered: its nearest point lies half a step beyond the surface."""
    return np.asarray(np.maximum(ndimage.distance_transform_edt(covered, step_mm) - step_mm / 2, 0.0), np.float32)


def _caught(split: CoarseSplit, labels: NDArray[np.int8], sees_out: Mask, near: Mask) -> float:
    caught = every = 0
    for number, draw in enumerate(split.directions):
        stay = (labels > number) if split.in_order else (labels >= 0) & (labels != number)
        others = near & stay
        own = near & (labels == number) & sees_out
        caught += int((binary_shadow(others, draw) & own).sum())
        every += int(own.sum())
    return caught / max(every, 1)
