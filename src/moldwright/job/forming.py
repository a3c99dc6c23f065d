"""Stage: other kinds of mold about the same original, each as a solid of its own, on a coarse grid."""

from __future__ import annotations

from dataclasses import replace
from math import ceil

import numpy as np

from moldwright.geometry.mesh import Mesh
from moldwright.job.formed import Formed, Halves
from moldwright.job.searched import Tried
from moldwright.job.shelling import LEAST_STIFF_MM, SETTINGS
from moldwright.job.standing import Gaps, Settled, shell_step
from moldwright.job.tried import tried_with
from moldwright.mold.block import block_about, middle_mm, wall_of
from moldwright.mold.flange_room import LEAST_ROOM_MM
from moldwright.mold.glove import coat
from moldwright.mold.measures import Skin
from moldwright.mold.mouth import Mounted
from moldwright.mold.opening import locked_upward
from moldwright.mold.shell_settings import ShellSettings
from moldwright.mold.slim import slim_of
from moldwright.mold.space import space_about
from moldwright.mold.split import SplitSettings
from moldwright.mold.split_search import splits_about
from moldwright.mold.splits import Splits
from moldwright.progress import Progress

JACKET_MM, JACKET_SHARE, JACKET_LEAST_MM, JACKET_MOST_MM = 6.0, 0.02, 8.0, 12.0
"""Clay under a jacket's shell: so thick and a share of the middle length more, and its bounds: common practice, no
source."""
KEYS_MM = 5.0
"""So much thicker are the walls of a block in two parts, which hold its keys: common practice, no source."""
POINTS, TRIES, PIECES = 45_000, 150_000, 2
"""Points of a grid, points cut in all, pieces of a jacket's shell at the most: coarse, as it is only compared."""
COARSE_STEPS = 80


def formed_about(
    mounted: Mounted,
    settled: Settled,
    gaps: Gaps,
    skin: Skin,
    flange_mm: float,
    shell: ShellSettings,
    peels_mm: float,
    hook_mm: float,
    progress: Progress,
) -> Formed:
    """What a jacket and blocks about the original would measure.

    Parameters
    ----------
    mounted, settled, gaps, skin : the original on its plinth, its through-holes and the cast's skin.
    flange_mm : width of a flange [mm].
    shell : dimensions of a jacket's shell.
    peels_mm : thicker rubber does not peel [mm].
    hook_mm : so far rubber gives way [mm].
    progress : told the stage.

    Source: offset solids, and the splits of `mold.split_search`.
    """
    body = mounted.body
    wall_mm, jacket_mm = wall_of(body), jacket_of(body)
    step_mm = _step(body, wall_mm)
    low, high = body.bounds_mm
    return Formed(
        slim=slim_of(body),
        jacket_mm=jacket_mm,
        jacket=_jacket(mounted, settled, gaps, skin, flange_mm, shell, peels_mm, progress),
        block=block_about(body, wall_mm),
        locked=locked_upward(space_about(body, wall_mm, 0.0, step_mm), hook_mm),
        slender=float(high[2] / (high - low)[:2].min()),
        halves=_halves(body, wall_mm, step_mm, hook_mm, progress),
    )


def jacket_of(body: Mesh) -> float:
    """How thick a jacket is poured about a body [mm], in whole millimeters as clay is rolled.

    Parameters
    ----------
    body : the original on its plinth.

    Source: common practice, no source.
    """
    thick_mm = JACKET_MM + JACKET_SHARE * middle_mm(body)
    return float(round(min(max(thick_mm, JACKET_LEAST_MM), JACKET_MOST_MM)))


def _jacket(
    mounted: Mounted,
    settled: Settled,
    gaps: Gaps,
    skin: Skin,
    flange_mm: float,
    shell: ShellSettings,
    peels_mm: float,
    progress: Progress,
) -> Tried:
    body, thick_mm = mounted.body, jacket_of(mounted.body)
    low, high = body.bounds_mm
    step_mm = max(shell_step(settled), float((high - low).max()) / COARSE_STEPS)
    coats = coat(body, (thick_mm,), max(flange_mm, ceil(thick_mm + LEAST_ROOM_MM)), step_mm)
    stiff_from_mm = max(peels_mm - thick_mm, LEAST_STIFF_MM)
    settings = replace(SETTINGS, draft_deg=shell.draft_deg, stiff_from_mm=stiff_from_mm, budget=TRIES)
    gloved = coats.with_flange(coats.flange.outline)
    splits = _splits(gloved, shell.seam_flange_mm, thick_mm, _step(gloved, shell.seam_flange_mm), settings, progress)
    return tried_with(mounted, settled, gaps, skin, coats, splits, shell)


def _halves(body: Mesh, wall_mm: float, step_mm: float, hook_mm: float, progress: Progress) -> Halves | None:
    settings = replace(SETTINGS, stiff_from_mm=hook_mm + step_mm / 2, budget=TRIES)
    splits = _splits(body, wall_mm, 0.0, step_mm, settings, progress)
    split = splits.real[1]
    if split is None:
        return None
    parting_mm = (split.energy_ml - split.fill_ml) / SETTINGS.seam_ml_per_mm
    return Halves(block_about(body, wall_mm + KEYS_MM), splits.stiff_of(split), parting_mm)


def _splits(
    core: Mesh, width_mm: float, floor_mm: float, step_mm: float, settings: SplitSettings, progress: Progress
) -> Splits:
    def at(_stage: str, fraction: float) -> None:
        progress("form other kinds of mold", fraction)

    return splits_about(core, width_mm, floor_mm, step_mm, settings, PIECES, at)


def _step(core: Mesh, width_mm: float) -> float:
    """The step of a grid of so many points about a core and what is laid about it [mm]."""
    low, high = core.bounds_mm
    sides = high - low + np.array([2.0, 2.0, 1.0]) * width_mm
    return float((sides.prod() / POINTS) ** (1 / 3))
