"""The finished solids of a plan."""

from __future__ import annotations

from moldwright.geometry.mesh import Mesh
from moldwright.job.named_meshes import named_meshes
from moldwright.job.planning import Planned


def meshes_of(planned: Planned) -> dict[str, Mesh]:
    """A plan's solids by their file name in its folder."""
    kept = planned.solids
    return named_meshes(kept.mounted.value, kept.glove.value, kept.shell.value)
