"""The scan's own surface as one solid: sound bodies united exactly, a level set only where a body cuts itself."""

from __future__ import annotations

from dataclasses import dataclass

import manifold3d as m3
import numpy as np
from numpy.typing import NDArray

from moldwright.geometry.field import standing_band
from moldwright.geometry.grid import Grid
from moldwright.geometry.mesh import Mesh
from moldwright.geometry.self_cuts import SelfCuts, find_self_cuts
from moldwright.geometry.slabs import standing_surfaces
from moldwright.geometry.solid import Solid, above, mesh_of, solid_of
from moldwright.original.mending.faults import CORE_STEPS, hidden_surface, zone_about
from moldwright.original.mending.parts import bodies_in, meshes_in, parts_of
from moldwright.original.mending.pockets import without_pockets
from moldwright.progress import Progress

STAGE = "unite what the scan holds"
THIN_SHARE, OVERLAP_SHARE = 0.02, 0.1


@dataclass(frozen=True, slots=True)
class Patch:
    """A place where a level set takes the place of the scan's surface, because the scan cuts through itself there.

    Parameters
    ----------
    at : the middle [mm].
    radius_mm : how far it reaches from there [mm].
    """

    at: tuple[float, float, float]
    radius_mm: float


@dataclass(frozen=True, slots=True, eq=False)
class AsScanned:
    """A solid of the scan's own triangles but for some places.

    Parameters
    ----------
    mesh : the solid on z = 0 [mm].
    patches : where it is a level set.
    """

    mesh: Mesh
    patches: tuple[Patch, ...]


def as_scanned(closed: Solid, sampled: Solid, grid: Grid, progress: Progress) -> AsScanned | None:
    """The scan's triangles as one solid, or None where the result would not be the sampled solid but for its edges.

    Bodies that do not cut themselves are united by exact booleans, which keeps each one's surface. Where a body cuts
    itself, all within two steps of the cut is taken from the sampled solid instead; sheets that lie deeper inside are
    covered by the sampled solid's core. Bodies wound inward are hollows, which are filled.

    Parameters
    ----------
    closed : the scan's triangles closed at the board, wherever they cross [mm].
    sampled : the same piece as a level set: one body, hollows filled [mm].
    grid : where it was sampled.
    progress : told between the steps.

    Source: our own.
    """
    step = grid.step_mm
    parts = parts_of(closed.simplify(THIN_SHARE * step))
    progress(STAGE, 0.2)
    soup, of_face = _soup(parts)
    cuts = find_self_cuts(soup, of_face)
    progress(STAGE, 0.4)
    if not cuts.complete:
        return None
    faulty = np.unique(of_face[cuts.pairs[:, 0]])
    united = [part for n, part in enumerate(parts) if n not in faulty and part.volume() > 0]
    zone = m3.Manifold()
    if len(faulty):
        bad = m3.Manifold.compose([parts[n] for n in faulty])
        zone, rest = _mended(bad, soup, cuts, sampled, grid)
        united += rest
    progress(STAGE, 0.7)
    return _checked(m3.Manifold.batch_boolean(united, m3.OpType.Add), zone, sampled, step)


def _soup(parts: list[Solid]) -> tuple[Mesh, NDArray[np.int32]]:
    meshes = [mesh_of(part) for part in parts]
    first = np.cumsum([0, *(len(mesh.vertices) for mesh in meshes[:-1])])
    faces = np.concatenate([mesh.faces + np.int32(start) for mesh, start in zip(meshes, first, strict=True)])
    of_face = np.repeat(np.arange(len(meshes), dtype=np.int32), [len(mesh.faces) for mesh in meshes])
    return Mesh(np.concatenate([mesh.vertices for mesh in meshes]), faces), of_face


def _mended(bad: Solid, soup: Mesh, cuts: SelfCuts, sampled: Solid, grid: Grid) -> tuple[Solid, list[Solid]]:
    """The zone about the cuts, and what together is the body that cuts itself, without the cuts."""
    hidden = hidden_surface(bad, soup, mesh_of(sampled), grid.step_mm)
    zone = zone_about(cuts.segments, hidden.shallow, grid.step_mm)
    outer = [part for part in parts_of(bad - zone) if part.volume() > 0]
    core = _core(sampled, grid) if hidden.deep else []
    return zone, [m3.Manifold.batch_boolean([m3.Manifold.compose(outer), *core, sampled ^ zone], m3.OpType.Add)]


def _core(sampled: Solid, grid: Grid) -> list[Solid]:
    """All that lies deeper than a step in the sampled solid; nothing where it is thinner everywhere."""
    depth, halo = np.float32(CORE_STEPS * grid.step_mm), 3 * grid.step_mm
    mesh = mesh_of(sampled)
    surface = standing_surfaces(grid, lambda part: [standing_band(mesh, part, halo) + depth], halo)[0]
    return [] if surface is None else [above(solid_of(surface), 0.0)]


def _checked(united: Solid, zone: Solid, sampled: Solid, step_mm: float) -> AsScanned | None:
    """The largest body, where it does not cut itself and has the sampled solid's volume."""
    bodies = meshes_in(without_pockets(united)[0])
    if not bodies:
        return None
    mesh = bodies[0]
    if abs(mesh.volume_mm3 - sampled.volume()) > OVERLAP_SHARE * step_mm * mesh.area_mm2:
        return None
    if len(find_self_cuts(mesh, touch_mm=THIN_SHARE * step_mm).pairs):
        return None
    mesh.vertices[np.abs(mesh.vertices[:, 2]) < 1e-9, 2] = 0.0
    return AsScanned(mesh, tuple(_patch(body) for body in bodies_in(zone)))


def _patch(zone: Solid) -> Patch:
    low, high = np.array(zone.bounding_box()).reshape(2, 3)
    x, y, z = (low + high) / 2
    return Patch((float(x), float(y), float(z)), float(np.linalg.norm(high - low) / 2))
