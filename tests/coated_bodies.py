"""A coated body on its keyed flange, with no seam to stay clear of."""

from __future__ import annotations

from moldwright.geometry.mesh import Mesh
from moldwright.geometry.solid import Solid
from moldwright.mold.flange import bare_flange, keyed
from moldwright.mold.glove import CoatedBody, coat, flanged
from moldwright.plan.flange import FlangePlan


def coated(body: Mesh, coats_mm: tuple[float, ...], flange_mm: float, step_mm: float) -> CoatedBody:
    coats = coat(body, coats_mm, flange_mm, step_mm)
    return flanged(coats, keyed(coats.flange))


def lay_flange(body: Solid, width_mm: float, wall_mm: float) -> FlangePlan:
    return keyed(bare_flange(body, width_mm, wall_mm))
