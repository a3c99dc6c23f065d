"""Stages: the rubber's coats on the body, the cast's skin within it, and the finished glove."""

from __future__ import annotations

from dataclasses import dataclass

from moldwright.geometry.mesh import Mesh
from moldwright.geometry.solid import exportable, solid_of
from moldwright.job.standing import Settled
from moldwright.mold.glove import Coats, coat
from moldwright.mold.measures import Skin
from moldwright.mold.mouth import Mounted
from moldwright.mold.shell import BuiltShell
from moldwright.mold.skin import skin_of


@dataclass(frozen=True, slots=True, eq=False)
class Glove:
    """The finished glove: gloved body less original and plinth."""

    mesh: Mesh
    volume_ml: float


def skin_in(mounted: Mounted, settled: Settled, skin_mm: float) -> Skin:
    """The cast's skin.

    Parameters
    ----------
    mounted : the original on its plinth.
    settled : the original, for the step.
    skin_mm : the skin's thickness [mm].
    """
    return skin_of(mounted.body, skin_mm, mounted.plinth_height_mm, settled.standing.step_mm)


def coated_with(mounted: Mounted, settled: Settled, coats_mm: tuple[float, ...], flange_mm: float) -> Coats:
    """The coats on the body, and the flange before its keys are cut.

    Parameters
    ----------
    mounted : the original on its plinth.
    settled : the original, for the step.
    coats_mm : each coat's thickness [mm].
    flange_mm : the flange's width [mm].
    """
    return coat(mounted.body, coats_mm, flange_mm, settled.standing.step_mm)


def glove_of(shell: BuiltShell, mounted: Mounted) -> Glove:
    """The rubber alone, undercuts packed.

    Parameters
    ----------
    shell : the shell, which knows what was packed.
    mounted : the original on its plinth.
    """
    mesh = exportable(solid_of(shell.gloved) - solid_of(mounted.body))
    return Glove(mesh, mesh.volume_ml)
