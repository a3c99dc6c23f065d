"""The separate bodies of a solid, quickly where there are thousands."""

from __future__ import annotations

import manifold3d as m3
import numpy as np

from moldwright.geometry.connected import connected_parts
from moldwright.geometry.mesh import Mesh
from moldwright.geometry.solid import Solid, mesh_of


def parts_of(solid: Solid) -> list[Solid]:
    """The parts that hang together, hollows and all that is wound inward too, largest (by triangles) first.

    manifold3d's own call looks at the whole solid once for every part.

    Parameters
    ----------
    solid : any number of bodies [mm].

    Source: connected components (scipy).
    """
    return [_raw(part) for part in connected_parts(mesh_of(solid))] if not solid.is_empty() else []


def bodies_in(solid: Solid, least_mm3: float = 0.0) -> list[Solid]:
    """The parts of at least a volume, largest first.

    Parameters
    ----------
    solid : any number of bodies [mm].
    least_mm3 : volume below which a part is left out [mm3].

    Source: our own.
    """
    return [_raw(part) for part in meshes_in(solid, least_mm3)]


def meshes_in(solid: Solid, least_mm3: float = 0.0) -> list[Mesh]:
    """The parts of at least a volume as meshes, largest first.

    Parameters
    ----------
    solid : any number of bodies [mm].
    least_mm3 : volume below which a part is left out [mm3].

    Source: our own.
    """
    if solid.is_empty():
        return []
    parts = [part for part in connected_parts(mesh_of(solid)) if part.volume_mm3 > least_mm3]
    return sorted(parts, key=lambda part: -part.volume_mm3)


def _raw(mesh: Mesh) -> Solid:
    return m3.Manifold(m3.Mesh64(mesh.vertices, mesh.faces.astype(np.uint64)))
