"""The finished solids of a plan, and what the parts of its glove come to."""

from __future__ import annotations

from moldwright.geometry.mesh import Mesh
from moldwright.job.named_meshes import named_meshes
from moldwright.job.planning import Planned
from moldwright.plan.mold import GlovePlan


def meshes_of(planned: Planned) -> dict[str, Mesh]:
    """A plan's solids by their file name in its folder."""
    kept = planned.solids
    return named_meshes(kept.mounted.value, kept.glove.value, kept.shell.value)


def parts_ml(glove: GlovePlan) -> float:
    """Coats, flange and fill."""
    return sum(coat.volume_ml for coat in glove.coats) + glove.flange.volume_ml + glove.fill.volume_ml
