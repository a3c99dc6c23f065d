"""Stages: the seam is searched, the flange keyed clear of it, and the shell's pieces are built along it."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from moldwright.errors import NoSafePlan
from moldwright.job.standing import Gaps, Settled, shell_step
from moldwright.mold.flange import keyed
from moldwright.mold.glove import CoatedBody, Coats, flanged
from moldwright.mold.seam_on_flange import seam_on_flange
from moldwright.mold.shell import BuiltShell, build_shell
from moldwright.mold.shell_settings import ShellSettings
from moldwright.mold.split import CoarseSplit, SplitSettings
from moldwright.mold.split_search import splits_about
from moldwright.mold.splits import Splits
from moldwright.plan.original import HoleTreat, treat_of
from moldwright.progress import Progress

SEARCH_STEPS = 60
SETTINGS = SplitSettings()
LEAST_STIFF_MM = 2.0
"""Of a glove as thick as its rubber peels so much packing still rolls: our own."""


def splits_of(
    coats: Coats, settled: Settled, seam_flange_mm: float, draft_deg: int, peels_mm: float, progress: Progress
) -> Splits:
    """The best splits found for a coated body on its flange, before that has its keys.

    Parameters
    ----------
    coats : body, rubber and flange.
    settled : the original, for the step.
    seam_flange_mm : width of the seam's flange [mm].
    draft_deg : the shell's draft [deg].
    peels_mm : thicker rubber, coats and packing together, does not peel [mm].
    progress : told the stage.
    """
    gloved = coats.with_flange(coats.flange.outline)
    low, high = gloved.bounds_mm
    step = max(shell_step(settled) * 1.5, float((high - low).max()) / SEARCH_STEPS)
    settings = split_settings(coats.total_mm, peels_mm, draft_deg)
    return splits_about(gloved, seam_flange_mm, coats.total_mm, step, settings, progress=progress)


def split_settings(total_mm: float, peels_mm: float, draft_deg: int) -> SplitSettings:
    """How splits are searched about a glove.

    Parameters
    ----------
    total_mm : all coats together [mm].
    peels_mm : thicker rubber, coats and packing together, does not peel [mm].
    draft_deg : the shell's draft [deg].

    Source: our own.
    """
    return replace(SETTINGS, draft_deg=draft_deg, stiff_from_mm=stiff_packing_mm(total_mm, peels_mm))


def stiff_packing_mm(total_mm: float, peels_mm: float) -> float:
    """Packing thicker than this on the coats does not roll [mm].

    Parameters
    ----------
    total_mm : thickness of all coats together [mm].
    peels_mm : thicker rubber, coats and packing together, does not peel [mm].

    >>> stiff_packing_mm(4.0, 13.0), stiff_packing_mm(12.0, 13.0)
    (9.0, 2.0)
    """
    return max(peels_mm - total_mm, LEAST_STIFF_MM)


def keyed_for(coats: Coats, splits: Splits, pieces: int) -> CoatedBody:
    """The coated body on its flange, whose keys stay clear of the seam.

    Parameters
    ----------
    coats : body, rubber and flange.
    splits : that were found of the shell.
    pieces : how many it has, 1 to 4.

    Raises NoSafePlan ("no-such-shell").
    """
    either = (splits.of(pieces, coats.closed), splits.without_order(pieces))
    seams = [seam_on_flange(split, coats.flange) for split in either if split is not None]
    return flanged(coats, keyed(coats.flange, np.concatenate(seams)))


def shell_of(
    coated: CoatedBody,
    splits: Splits,
    pieces: int,
    settled: Settled,
    gaps: Gaps,
    shell: ShellSettings,
    progress: Progress,
) -> BuiltShell:
    """The shell's pieces; where those that come off in their order only are not free, such as need none.

    Parameters
    ----------
    coated : body, rubber and flange.
    splits : that were found of the shell.
    pieces : how many it has, 1 to 4.
    settled : the original, for the step.
    gaps : its through-holes.
    shell : the shell's dimensions.
    progress : told the stages.
    """
    total_mm, step_mm = coated.flange_mm, shell_step(settled)
    dividers = tuple(h.at for h in gaps.handles if treat_of(h.width_mm, total_mm) is HoleTreat.DIVIDER)

    def built(split: CoarseSplit) -> BuiltShell:
        return build_shell(coated.gloved, coated.outline, total_mm, split, step_mm, shell, dividers, progress)

    spare = splits.without_order(pieces)
    if spare is None:
        return built(splits.of(pieces))
    try:
        return built(splits.of(pieces))
    except NoSafePlan:
        return built(spare)
