"""A plan's solids made ready for the screen, with every quantity at each of their corners."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from moldwright.geometry.mesh import Mesh
from moldwright.geometry.simplified import simplified
from moldwright.making.screen.packed_parts import ScreenMold, ScreenPart, drawable
from moldwright.making.screen.solids import MoldSolids
from moldwright.mold.seen import Points, SeenMold
from moldwright.told.surfaces.quantity import Solid, SurfaceQuantity, quantities_on_surfaces

MOST_TRIANGLES = 300_000
ON_BOARD_MM = 1e-3
Named = tuple[str, Solid, Mesh, tuple[float, float, float] | None]


def screen_mold(solids: MoldSolids, most: int = MOST_TRIANGLES) -> ScreenMold:
    """All solids with so many triangles together at most.

    Parameters
    ----------
    solids : of the plan's folder.
    most : triangles.
    """
    named = _named(solids)
    fewer = simplified([mesh for _, _, mesh, _ in named], most)
    drawn = [drawable(id_, kind, mesh, way) for (id_, kind, _, way), mesh in zip(named, fewer.meshes, strict=True)]
    every = quantities_on_surfaces()
    return ScreenMold(tuple(_with_quantities(part, solids, every) for part in drawn), fewer.off_mm)


def _named(solids: MoldSolids) -> list[Named]:
    coats: list[Named] = [(f"coat-{n}", Solid.COAT, mesh, None) for n, mesh in enumerate(solids.coats, 1)]
    pieces: list[Named] = [
        (f"shell-{n}", Solid.SHELL, mesh, way)
        for n, (mesh, way) in enumerate(zip(solids.pieces, solids.seen.draws, strict=True), 1)
    ]
    mount: list[Named] = [("mount", Solid.MOUNT, solids.mount, None)] if solids.mount is not None else []
    bare: list[Named] = [("original", Solid.ORIGINAL, solids.original, None), *mount]
    return [*bare, *coats, ("rubber", Solid.RUBBER, solids.gloved, None), *pieces]


def _with_quantities(part: ScreenPart, solids: MoldSolids, every: Sequence[SurfaceQuantity]) -> ScreenPart:
    """Those that are seen on this part; the last coat has what is seen on coats."""
    last = f"coat-{len(solids.coats)}"
    mine = [each for each in every if each.on == part.kind and (each.on is not Solid.COAT or part.id == last)]
    return replace(part, quantities={each.name: values_on(part, each, solids.seen) for each in mine})


def values_on(part: ScreenPart, quantity: SurfaceQuantity, mold: SeenMold) -> Points:
    """(n,) a quantity at each corner of a solid; nothing is told of what stands on the board [mm].

    Parameters
    ----------
    part : the solid.
    quantity : which.
    mold : of which it is.
    """
    over = part.vertices[:, 2] > ON_BOARD_MM
    found = np.full(len(over), np.nan)
    found[over] = quantity.values_mm(mold, part.vertices[over], part.normals[over])
    return found
