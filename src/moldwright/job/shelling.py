"""Stages: the seam is searched, the flange keyed clear of it, and the shell's pieces are built along it."""

from __future__ import annotations

from moldwright.job.standing import Gaps, Settled, shell_step
from moldwright.mold.flange import keyed
from moldwright.mold.glove import CoatedBody, Coats, flanged
from moldwright.mold.seam_on_flange import seam_on_flange
from moldwright.mold.shell import BuiltShell, build_shell
from moldwright.mold.shell_settings import ShellSettings
from moldwright.mold.split import CoarseSplit, SplitSettings
from moldwright.mold.split_search import splits_about
from moldwright.plan.original import HoleTreat, treat_of
from moldwright.progress import Progress

SEARCH_STEPS = 60


def split_of(coats: Coats, settled: Settled, seam_flange_mm: float, progress: Progress) -> CoarseSplit:
    """The best split found for a coated body on its flange, before that has its keys.

    Parameters
    ----------
    coats : body, rubber and flange.
    settled : the original, for the step.
    seam_flange_mm : width of the seam's flange [mm].
    progress : told the stage.
    """
    gloved = coats.with_flange(coats.flange.outline)
    low, high = gloved.bounds_mm
    step = max(shell_step(settled) * 1.5, float((high - low).max()) / SEARCH_STEPS)
    found = splits_about(gloved, seam_flange_mm, coats.total_mm, step, SplitSettings(), 2, progress)
    return found.of(2)


def keyed_for(coats: Coats, split: CoarseSplit) -> CoatedBody:
    """The coated body on its flange, whose keys stay clear of the seam.

    Parameters
    ----------
    coats : body, rubber and flange.
    split : where the seam goes over the flange.
    """
    return flanged(coats, keyed(coats.flange, seam_on_flange(split, coats.flange)))


def shell_of(
    coated: CoatedBody, split: CoarseSplit, settled: Settled, gaps: Gaps, shell: ShellSettings, progress: Progress
) -> BuiltShell:
    """The shell's pieces.

    Parameters
    ----------
    coated : body, rubber and flange.
    split : the draws and the seam.
    settled : the original, for the step.
    gaps : its through-holes.
    shell : the shell's dimensions.
    progress : told the stages.
    """
    total_mm, step_mm = coated.flange_mm, shell_step(settled)
    dividers = tuple(h.at for h in gaps.handles if treat_of(h.width_mm, total_mm) is HoleTreat.DIVIDER)
    return build_shell(coated.gloved, coated.outline, total_mm, split, step_mm, shell, dividers, progress)
