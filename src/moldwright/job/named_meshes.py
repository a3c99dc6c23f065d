"""The solids under their names in the plan's folder."""

from __future__ import annotations

from typing import TYPE_CHECKING

from moldwright.geometry.mesh import Mesh

if TYPE_CHECKING:
    from moldwright.job.rubbering import Glove
    from moldwright.mold.mouth import Mounted
    from moldwright.mold.shell import BuiltShell


def named_meshes(mounted: Mounted, glove: Glove, shell: BuiltShell) -> dict[str, Mesh]:
    """Every solid that the plan's folder holds, by its file's name.

    Parameters
    ----------
    mounted, glove, shell : the finished solids.
    """
    meshes = {"mold/original.stl": mounted.original}
    if mounted.plinth is not None:
        meshes["mold/mount.stl"] = mounted.plinth
    meshes["mold/glove.stl"] = glove.mesh
    meshes["mold/gloved.stl"] = shell.gloved
    for number, piece in enumerate(shell.pieces, 1):
        meshes[shell_file(number)] = piece.mesh
    return meshes


def shell_file(number: int) -> str:
    """The file of a piece of the shell in the plan's folder.

    Parameters
    ----------
    number : from 1, in the order of removal.

    >>> shell_file(1)
    'mold/shell-1.stl'
    """
    return f"mold/shell-{number}.stl"
