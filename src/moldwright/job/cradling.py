"""Stage: the stand in which the mold is poured."""

from __future__ import annotations

from moldwright.job.rubbering import Glove
from moldwright.mold.glove import CoatedBody
from moldwright.mold.mouth import Mounted
from moldwright.mold.shell import BuiltShell
from moldwright.mold.shell_settings import ShellSettings
from moldwright.mold.stand import BOARDS, stand_for
from moldwright.mold.stand_found import StandSought


def stand_of(shell: BuiltShell, glove: Glove, mounted: Mounted, coated: CoatedBody, s: ShellSettings) -> StandSought:
    """The stand of the finished mold.

    Parameters
    ----------
    shell, glove, mounted, coated : the finished solids.
    s : the shell's dimensions.
    """
    pieces = [piece.mesh for piece in shell.pieces]
    return stand_for(pieces, glove.mesh, mounted.body, coated.flange_mm + s.wall_mm, BOARDS)
