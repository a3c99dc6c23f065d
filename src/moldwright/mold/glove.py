"""The glove before the shell asks for more: coats as offset solids, crevices bridged, and the flange."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from shapely import Polygon

from moldwright.geometry.clip import above_plane
from moldwright.geometry.distance import unsigned_band
from moldwright.geometry.field import standing_band, standing_grid
from moldwright.geometry.grid import Field, Grid
from moldwright.geometry.mesh import Mesh
from moldwright.geometry.outline import prism
from moldwright.geometry.slabs import standing_body, standing_surfaces, whole
from moldwright.geometry.solid import largest_body, mesh_of, solid_of
from moldwright.mold.crevices import crevices_of
from moldwright.mold.flange import BareFlange, bare_flange
from moldwright.mold.packed import LEAST_SPOT_MM3, Packed
from moldwright.mold.slopes import slopes_of
from moldwright.plan.flange import FlangePlan, Point2

Outline = NDArray[np.float64]

BRIDGE_SHARE = 0.75


@dataclass(frozen=True, slots=True, eq=False)
class Coats:
    """The coats on a body's walls, before the flange.

    outer : body and coats; closed: crevices bridged too, both over z = 0. total_mm: all coats together.
    coat_ml : rubber of each coat on the walls [ml], first coat first. crevices: each bridged place, largest first.
    flange : as it is laid, before its keys are cut. slopes : how the coats' surface slopes, see `mold.slopes`.
    """

    outer: Mesh
    closed: Mesh
    flange: BareFlange
    coat_ml: tuple[float, ...]
    total_mm: float
    crevices: tuple[Packed, ...]
    slopes: tuple[float, ...]

    def with_flange(self, outline: Sequence[Point2]) -> Mesh:
        """Body, coats, bridged crevices and a flange as one closed solid on z = 0.

        Parameters
        ----------
        outline : the flange seen from above [mm].

        Source: our own.
        """
        return mesh_of(largest_body(solid_of(self.closed) + prism(Polygon(outline), 0.0, self.total_mm)))


@dataclass(frozen=True, slots=True, eq=False)
class CoatedBody:
    """The coated body and what each layer measures.

    gloved : body + coats + bridged crevices + flange, closed, standing on z = 0.
    flange : the trimmed flange seen from above, its two keys cut.
    coat_ml : rubber of each coat on the walls [ml], first coat first.
    flange_ml : what the flange adds to the coats [ml]; flange_mm its thickness.
    crevice_ml : what bridging crevices adds [ml]; crevices: each place of them, largest first.
    slopes : how the coats' surface slopes.
    """

    gloved: Mesh
    flange: FlangePlan
    coat_ml: tuple[float, ...]
    flange_ml: float
    flange_mm: float
    crevice_ml: float
    crevices: tuple[Packed, ...]
    slopes: tuple[float, ...]

    @property
    def outline(self) -> Outline:
        """(n, 2) corners of the trimmed flange seen from above [mm]."""
        return np.array(self.flange.outline)


def coat(body: Mesh, coats_mm: tuple[float, ...], flange_width_mm: float, step_mm: float) -> Coats:
    """Lay the coats on a body as offset solids.

    Parameters
    ----------
    body : original and plinth as one closed solid on z = 0 [mm].
    coats_mm : thickness of each coat, first coat first [mm].
    flange_width_mm : flange beyond the foot [mm].
    step_mm : sampling step [mm].

    Source: offset solids; the closing of crevices by a ball is the closing of Serra 1982, "Image analysis and
    mathematical morphology" (from memory).
    """
    total = float(sum(coats_mm))
    bridge = BRIDGE_SHARE * total
    reach = total + bridge + 3 * step_mm
    grid = standing_grid(body, step_mm, reach)
    about = _Distance(body, reach)
    levels = (*np.cumsum(coats_mm), total + bridge)
    layers = standing_surfaces(grid, lambda part: [about(part) - np.float32(level) for level in levels], reach)
    *coats, grown = (whole(layer) for layer in layers)
    volumes = [body.volume_mm3, *(layer.volume_over_mm3(0.0) for layer in coats)]
    closed = coats[-1] if bridge <= step_mm else _bridged(grid, about, grown, total, bridge)
    outer = mesh_of(standing_body(coats[-1]))
    return Coats(
        outer=outer,
        closed=mesh_of(standing_body(closed)),
        flange=bare_flange(solid_of(body), flange_width_mm, total),
        coat_ml=tuple(float(v) / 1000 for v in np.diff(volumes)),
        total_mm=total,
        crevices=crevices_of(coats[-1], closed, total, step_mm, LEAST_SPOT_MM3),
        slopes=slopes_of(outer),
    )


def flanged(coats: Coats, flange: FlangePlan) -> CoatedBody:
    """The coats with their flange, trimmed and keyed.

    Parameters
    ----------
    coats : on the walls.
    flange : as it is trimmed.

    Source: our own.
    """
    outer, laid = solid_of(coats.outer), prism(Polygon(flange.outline), 0.0, coats.total_mm)
    added_mm3 = laid.volume() - (outer ^ laid).volume()
    gloved = coats.with_flange(flange.outline)
    return CoatedBody(
        gloved=gloved,
        flange=flange,
        coat_ml=coats.coat_ml,
        flange_ml=added_mm3 / 1000,
        flange_mm=coats.total_mm,
        crevice_ml=(gloved.volume_mm3 - outer.volume() - added_mm3) / 1000,
        crevices=coats.crevices,
        slopes=coats.slopes,
    )


class _Distance:
    """Signed distance to a body on any stack of layers; the last one is kept, since it is often asked for again."""

    def __init__(self, body: Mesh, reach_mm: float) -> None:
        self._body = body
        self._reach_mm = reach_mm
        self._grid: Grid | None = None
        self._field: Field | None = None

    def __call__(self, grid: Grid) -> Field:
        if self._field is None or self._grid != grid:
            self._field = None
            self._field = standing_band(self._body, grid, self._reach_mm)
            self._grid = grid
        return self._field


def _bridged(grid: Grid, about: _Distance, grown: Mesh, total_mm: float, bridge_mm: float) -> Mesh:
    """The coats' outside closed by a ball of `bridge_mm`: crevices narrower than it are filled."""
    reach = bridge_mm + 2 * grid.step_mm
    rim = above_plane(grown, 0.0)

    def closed(part: Grid) -> list[Field]:
        depth, _ = unsigned_band(rim, part, reach)
        np.minimum(depth, np.float32(reach), out=depth)
        field = np.float32(bridge_mm + 0.05 * grid.step_mm) - depth
        away = about(part)
        field[away > total_mm + bridge_mm] = bridge_mm
        return [np.minimum(away - np.float32(total_mm), field, out=field)]

    return whole(standing_surfaces(grid, closed, total_mm + 2 * bridge_mm + 3 * grid.step_mm)[0])
