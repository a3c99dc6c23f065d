"""The shell that was planned on one solid, laid on the true one: with the planned draws and the planned seam."""

from __future__ import annotations

from dataclasses import dataclass
from math import fsum

import numpy as np
import trimesh
from shapely import MultiPoint, Polygon, unary_union

from moldwright.geometry.mesh import Mesh
from moldwright.geometry.outline import prism
from moldwright.geometry.solid import largest_body, mesh_of, solid_of
from moldwright.mold.glove import coat
from moldwright.mold.mouth import Mounted, plinth_plan
from moldwright.mold.shell import build_shell
from moldwright.mold.shell_settings import ShellSettings
from moldwright.mold.split import CoarseSplit
from moldwright.plan.flange import Point2
from moldwright.plan.original import Source
from moldwright.ranges import Spread

STEP_MM = 2.0


@dataclass(frozen=True, slots=True, eq=False)
class Guessed:
    """A true body, and the solid that stands for it by photos or a tape, on the same axes [mm]."""

    body: trimesh.Trimesh
    mesh: Mesh
    spread: Spread
    source: Source = Source.PHOTOS


@dataclass(frozen=True, slots=True)
class Laid:
    """The shell on the true solid: whether it comes off (booleans and rays, `mold.removal`), all that was packed, the
    share of the rubber that no piece covers."""

    free: bool
    overlap_mm3: float
    packed_ml: float
    uncovered_share: float


def laid_on(
    body: trimesh.Trimesh, stands: Mesh, planned: Mounted, outline: tuple[Point2, ...],
    coats_mm: float, flange_mm: float, split: CoarseSplit, shell: ShellSettings,
) -> Laid:  # fmt: skip
    """Coat the true body on the planned plinth, trim the flange as planned, build the shell along the planned split.

    `stands` : the solid that it was planned on, where `body` stands on the sheet; the plan moved it over its board.
    """
    core_body = _mounted(_moved(body, stands, planned), planned)
    coats = coat(core_body, (coats_mm,), flange_mm, STEP_MM)
    built = build_shell(coats.with_flange(outline), np.array(outline), coats_mm, split, STEP_MM, shell)
    bridged_ml = fsum(place.volume_ml for place in coats.crevices)
    packed_ml = fsum(piece.fill_ml for piece in built.pieces) + bridged_ml
    return Laid(built.removal.free, built.removal.overlap_mm3, packed_ml, built.uncovered_share)


def _moved(body: trimesh.Trimesh, stands: Mesh, planned: Mounted) -> Mesh:
    middle = [np.mean(mesh.bounds_mm, axis=0) for mesh in (stands, planned.original)]
    shift = middle[1] - middle[0]
    mesh = Mesh(np.asarray(body.vertices, float), np.asarray(body.faces).astype(np.int32))
    return mesh.moved((float(shift[0]), float(shift[1]), float(planned.original.bounds_mm[0][2])))


def _mounted(original: Mesh, planned: Mounted) -> Mesh:
    """On the planned plinth; where the true feet stand beside it, on one that goes under them too."""
    plinth = plinth_plan(planned)
    if plinth is None:
        return original
    outline = Polygon(plinth.outline)
    feet = MultiPoint(original.vertices[original.vertices[:, 2] < plinth.height_mm, :2]).convex_hull
    beside = unary_union([outline, feet]).convex_hull
    tried = (largest_body(prism(shape, 0.0, plinth.height_mm) + solid_of(original)) for shape in (outline, beside))
    return next(mesh for mesh in map(mesh_of, tried) if mesh.bounds_mm[0][2] == 0.0)
