"""The solids of a plan's folder as they are looked at: body, each coat, the packed rubber, the shell's pieces."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import accumulate
from pathlib import Path

import numpy as np
from shapely import Polygon

from moldwright.errors import InputRefused
from moldwright.geometry.field import standing_band, standing_grid
from moldwright.geometry.grid import Field, Grid
from moldwright.geometry.mesh import Mesh
from moldwright.geometry.outline import prism
from moldwright.geometry.slabs import standing_body, standing_surfaces
from moldwright.geometry.solid import Solid, largest_body, mesh_of, solid_of
from moldwright.making.files.strain_file import read_strain
from moldwright.mold.peel_places import peeled_of, stretch_of_corners
from moldwright.mold.peel_surface import peel_surface
from moldwright.mold.seen import Points, SeenMold
from moldwright.plan.flange import Frame
from moldwright.plan.original import divided
from moldwright.plan.plan import Plan
from moldwright.plan.seam import SeamLine, SeamPlan, place_of
from moldwright.sheets.model_files import read_again
from moldwright.told.surfaces.hold import stays_mm

STEPS_ACROSS = 200.0
"""The coats are laid again on a grid of so many steps along the longest side: our own."""
LEAST_STEP_MM = 0.5


@dataclass(frozen=True, slots=True, eq=False)
class MoldSolids:
    """What lies in a plan's folder, and what is laid again from it.

    Parameters
    ----------
    original, mount : the piece, and what lifts it or None.
    coats : body with the first coat, with the first two, ...; the last one with the flange.
    gloved : with all that is packed.
    pieces : of the shell, in the order of removal.
    seen : the same as what is reckoned with.
    """

    original: Mesh
    mount: Mesh | None
    coats: tuple[Mesh, ...]
    gloved: Mesh
    pieces: tuple[Mesh, ...]
    seen: SeenMold


def solids_of(folder: Path, plan: Plan) -> MoldSolids:
    """The solids of a plan's folder.

    Parameters
    ----------
    folder : the plan's.
    plan : its plan.

    Raises InputRefused ("solids-missing").
    """
    original, gloved = _read(folder / "mold/original.stl"), _read(folder / "mold/gloved.stl")
    mount = _read(folder / "mold/mount.stl") if plan.mouth.plinth is not None else None
    pieces = tuple(_read(folder / piece.file) for piece in plan.shell.pieces)
    body = original if mount is None else mesh_of(largest_body(solid_of(original) + solid_of(mount)))
    coats = coats_on(body, plan)
    draws = tuple(piece.draw for piece in plan.shell.pieces)
    seam = seam_lines(plan.shell.seam_line, plan.flange.frame, sum(coat.thickness_mm for coat in plan.glove.coats))
    flange_mm = sum(coat.thickness_mm for coat in plan.glove.coats)
    peeled = peeled_of(peel_surface(body, gloved, plan.glove.peel.shape.stiff_mm), divided(plan.original.holes))
    stretch = peeled.surface.mesh.vertices, stretch_of_corners(peeled)
    seen = SeenMold(body, coats[-1], pieces, draws, seam, *stays_mm(plan), flange_mm, stretch, read_strain(folder))
    return MoldSolids(original, mount, coats, gloved, pieces, seen)


def _read(file: Path) -> Mesh:
    try:
        return read_again(file.read_bytes())
    except OSError:
        remedy = "Plan the piece again: its folder is made anew."
        raise InputRefused("solids-missing", file.name, "the solids of the plan", "", remedy) from None


def coats_on(body: Mesh, plan: Plan) -> tuple[Mesh, ...]:
    """The body with each coat on it, as offset solids; the last with the flange.

    Parameters
    ----------
    body : original and plinth [mm].
    plan : tells the coats and the flange.
    """
    levels = tuple(accumulate(coat.thickness_mm for coat in plan.glove.coats))
    low, high = body.bounds_mm
    step_mm = max(LEAST_STEP_MM, float((high - low).max()) / STEPS_ACROSS)
    reach = levels[-1] + 3 * step_mm
    grid = standing_grid(body, step_mm, reach)

    def fields(part: Grid) -> list[Field]:
        away = standing_band(body, part, reach)
        return [away - np.float32(level) for level in levels]

    laid = [standing_body(surface) for surface in standing_surfaces(grid, fields, reach)]
    flange: Solid = prism(Polygon(plan.flange.outline), 0.0, levels[-1])
    return tuple(mesh_of(largest_body(solid)) for solid in (*laid[:-1], laid[-1] + flange))


def seam_lines(seam: SeamPlan, frame: Frame, flange_mm: float) -> tuple[Points, ...]:
    """The seam's lines over the rubber and over the flange [mm].

    Parameters
    ----------
    seam : the plan's.
    frame : in which its places are told.
    flange_mm : height of the flange's top [mm].
    """
    walls = [_line(line, frame) for line in seam.lines]
    floors = [np.array([(x, y, flange_mm) for x, y in crossing.places]) for crossing in seam.crossings]
    return (*walls, *floors)


def _line(line: SeamLine, frame: Frame) -> Points:
    places = [place_of(each, frame) for each in line.stations]
    return np.array([*places, places[0]] if line.closed else places)
