"""The glove before the shell asks for more: coats as offset solids, crevices bridged, and the flange."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from shapely import Polygon

from moldwright.geometry.clip import compact
from moldwright.geometry.distance import unsigned_band
from moldwright.geometry.field import Sampled, standing_band, standing_grid, without_base
from moldwright.geometry.grid import Field
from moldwright.geometry.mesh import Mesh
from moldwright.geometry.outline import narrow_rectangle, prism, section
from moldwright.geometry.solids import Solid, largest_body, mesh_of, solid_of
from moldwright.geometry.surface import standing_solid

Outline = NDArray[np.float64]

FOOT_MM = 0.5
KEY_CUTS = (0.5, 0.85)
BRIDGE_SHARE = 0.75


@dataclass(frozen=True, slots=True, eq=False)
class CoatedBody:
    """The coated body and what each layer measures.

    gloved : body + coats + bridged crevices + flange, closed, standing on z = 0.
    outline : (n, 2) corners of the trimmed flange seen from above [mm], two corners cut so that it seats one way only.
    coat_ml : rubber of each coat on the walls [ml], first coat first.
    flange_ml : what the flange adds to the coats [ml]; flange_mm its thickness.
    crevice_ml : what bridging crevices adds [ml].
    skin_ml : the cast's skin as the body less its inner offset [ml].
    """

    gloved: Mesh
    outline: Outline
    coat_ml: tuple[float, ...]
    flange_ml: float
    flange_mm: float
    crevice_ml: float
    skin_ml: float


def coat(body: Mesh, coats_mm: tuple[float, ...], flange_width_mm: float, step_mm: float, skin_mm: float) -> CoatedBody:
    """Lay the coats on a body as offset solids and add the flange.

    Parameters
    ----------
    body : original and plinth as one closed solid on z = 0 [mm].
    coats_mm : thickness of each coat, first coat first [mm].
    flange_width_mm : flange beyond the foot [mm].
    step_mm : sampling step [mm].
    skin_mm : thickness of the cast's skin, measured as an inner offset solid [mm].
    """
    total = float(sum(coats_mm))
    bridge = BRIDGE_SHARE * total
    band = total + bridge + 3 * step_mm
    grid = standing_grid(body, step_mm, band)
    sampled = Sampled(standing_band(body, grid, max(band, skin_mm + 2 * step_mm)), grid)
    solids = [solid_of(body), *(standing_solid(sampled, level) for level in np.cumsum(coats_mm))]
    volumes = [solid.volume() for solid in solids]
    walls = standing_solid(Sampled(_bridged(sampled, total, bridge), grid)) if bridge > step_mm else solids[-1]
    outline = flange_outline(solids[0], flange_width_mm)
    flange = prism(Polygon(outline), 0.0, total)
    flanged = solids[-1] + flange
    gloved = largest_body(walls + flange)
    return CoatedBody(
        gloved=mesh_of(gloved),
        outline=outline,
        coat_ml=tuple(float(v) / 1000 for v in np.diff(volumes)),
        flange_ml=(flanged.volume() - volumes[-1]) / 1000,
        flange_mm=total,
        crevice_ml=(gloved.volume() - flanged.volume()) / 1000,
        skin_ml=_skin_ml(sampled, skin_mm, volumes[0]),
    )


def _skin_ml(sampled: Sampled, skin_mm: float, body_mm3: float) -> float:
    """Volume of the cast's skin: the body less its inner offset (nothing left inside: the whole body)."""
    if not (sampled.field < -skin_mm).any():
        return body_mm3 / 1000
    return (body_mm3 - float(standing_solid(sampled, -skin_mm).volume())) / 1000


def _bridged(sampled: Sampled, total_mm: float, bridge_mm: float) -> Field:
    """Signed field of the coats' outside closed by a ball of `bridge_mm`: crevices narrower than it are filled."""
    grid = sampled.grid
    grown = mesh_of(standing_solid(sampled, total_mm + bridge_mm))
    depth, _ = unsigned_band(compact(without_base(grown)), grid, bridge_mm + 2 * grid.step_mm)
    np.minimum(depth, np.float32(bridge_mm + 2 * grid.step_mm), out=depth)
    closed = np.float32(bridge_mm + 0.05 * grid.step_mm) - depth
    closed[sampled.field > total_mm + bridge_mm] = bridge_mm
    walls = sampled.field - np.float32(total_mm)
    out: Field = np.minimum(walls, closed, out=closed)
    return out


def flange_outline(body: Solid, width_mm: float) -> Outline:
    """The flange's edge: the least rectangle about the foot, grown by the width, two corners of one side cut.

    The two cuts differ, so that no turn and no flip of the glove fits but one.
    """
    foot = section(body, FOOT_MM)
    center, along, half = narrow_rectangle(foot)
    across = np.array([-along[1], along[0]])
    x, y = half + width_mm
    small, large = (share * width_mm for share in KEY_CUTS)
    corners = [(-x, -y), (x - small, -y), (x, -y + small), (x, y - large), (x - large, y), (-x, y)]
    return np.array([center + u * along + v * across for u, v in corners])
