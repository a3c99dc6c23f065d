"""Stage: what is told of a mold's surfaces, drawn for paper."""

from __future__ import annotations

import numpy as np

from moldwright.geometry.mesh import Mesh
from moldwright.geometry.solid import mesh_of, solid_of
from moldwright.making.screen.made import values_on
from moldwright.making.screen.packed_parts import ScreenPart, drawable
from moldwright.mold.glove import CoatedBody
from moldwright.mold.mouth import Mounted
from moldwright.mold.peel_places import Peeled, stretch_of_corners
from moldwright.mold.seen import SeenMold
from moldwright.mold.shell import BuiltShell
from moldwright.mold.strained import Strained
from moldwright.sheets.leaf_views import MappedSurface, leaf_views
from moldwright.sheets.palettes import LEAF_COLORS
from moldwright.told.surfaces.extremes import ends_of, holding
from moldwright.told.surfaces.legend import legend_of
from moldwright.told.surfaces.mapped import MapAsked, SurfaceMap, SurfaceMaps
from moldwright.told.surfaces.quantity import Solid, SurfaceQuantity, quantities_on_surfaces
from moldwright.units.system import UnitSystem

FINE_SHARE = 1e-3
"""Triangles are joined while the surface moves by less than this share of the mold's size: a third of a pixel."""


def maps_of(
    mounted: Mounted,
    coated: CoatedBody,
    shell: BuiltShell,
    peeled: Peeled,
    strained: Strained | None,
    asked: tuple[MapAsked, ...],
    stays_mm: tuple[float, float],
    units: UnitSystem,
) -> SurfaceMaps:
    """The maps of a finished mold.

    Parameters
    ----------
    mounted, coated, shell : the solids.
    peeled : how the glove comes off.
    strained : how far a sheet of it is stretched; None where nobody asks.
    asked : which quantities, and what shapes each.
    stays_mm : what an upright wall and a ceiling hold of the last coat's mix [mm].
    units : of who reads.
    """
    pieces, draws = tuple(piece.mesh for piece in shell.pieces), tuple(piece.draw for piece in shell.pieces)
    stretch = peeled.surface.mesh.vertices, stretch_of_corners(peeled)
    strain = None if strained is None else np.array(strained.field)
    mold = SeenMold(mounted.body, coated.gloved, pieces, draws, (), *stays_mm, coated.flange_mm, stretch, strain)
    surfaces = {Solid.COAT: coated.gloved, Solid.RUBBER: shell.gloved}
    every = {each.name: each for each in quantities_on_surfaces()}
    wanted = {every[each.name].on for each in asked}
    parts = {on: _fewer(on, mesh) for on, mesh in surfaces.items() if on in wanted}
    return SurfaceMaps(tuple(_map(every[each.name], each, parts[every[each.name].on], mold, units) for each in asked))


def _fewer(on: Solid, mesh: Mesh) -> ScreenPart:
    low, high = mesh.bounds_mm
    return drawable(on, on, mesh_of(solid_of(mesh).simplify(FINE_SHARE * float((high - low).max()))))


def _map(quantity: SurfaceQuantity, asked: MapAsked, part: ScreenPart, mold: SeenMold, units: UnitSystem) -> SurfaceMap:
    values, areas = values_on(part, quantity, mold), part.areas_mm2
    legend = legend_of(values, areas, units, asked.common_mm, quantity.scale)
    least, most = ends_of(part.vertices, values, areas, asked.places)
    legend = holding(legend, most)
    drawn = MappedSurface(
        mesh=Mesh(part.vertices, part.faces.astype(np.int32)),
        values_mm=values,
        limits_mm=legend.limits_mm,
        colors=LEAF_COLORS[quantity.colors],
        needed_mm=asked.needed_mm,
        allowed_mm=asked.allowed_mm,
        least=least,
        most=most,
    )
    return SurfaceMap(quantity.name, legend, leaf_views(drawn), least, most)
