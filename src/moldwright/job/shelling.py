"""Stage: the seam is searched and the shell's pieces are built along it."""

from __future__ import annotations

from moldwright.job.standing import Settled, shell_step
from moldwright.mold.glove import CoatedBody
from moldwright.mold.shell import BuiltShell, build_shell
from moldwright.mold.shell_settings import ShellSettings
from moldwright.mold.split import CoarseSplit, SplitSettings, split_in_two
from moldwright.progress import Progress

SEARCH_STEPS = 60


def search(coated: CoatedBody, settled: Settled, shell: ShellSettings, progress: Progress) -> CoarseSplit:
    """The best split found for a coated body.

    Parameters
    ----------
    coated : body, rubber and flange.
    settled : the original, for the step.
    shell : the shell's dimensions.
    progress : told the stage.
    """
    low, high = coated.gloved.bounds_mm
    step = max(shell_step(settled) * 1.5, float((high - low).max()) / SEARCH_STEPS)
    return split_in_two(coated.gloved, shell.seam_flange_mm, coated.flange_mm, step, SplitSettings(), progress)


def shell_of(coated: CoatedBody, settled: Settled, shell: ShellSettings, progress: Progress) -> BuiltShell:
    """The shell's pieces.

    Parameters
    ----------
    coated : body, rubber and flange.
    settled : the original, for the step.
    shell : the shell's dimensions.
    progress : told the stages.
    """
    split = search(coated, settled, shell, progress)
    return build_shell(coated.gloved, coated.outline, coated.flange_mm, split, shell_step(settled), shell, progress)
