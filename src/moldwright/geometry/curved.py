"""How much a closed surface is curved at its corners."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from moldwright.geometry.mesh import Mesh


def angle_defects(mesh: Mesh) -> NDArray[np.float64]:
    """(n,) what the angles round each corner leave of a full turn [rad]: above 0 on a bulge, below on a saddle.

    They sum to 4 pi (1 - g), g the through-holes.

    Parameters
    ----------
    mesh : closed [mm].

    Source: the theorem of Gauss and Bonnet, on triangles (Descartes).

    >>> corner = Mesh(np.array([[0.0, 0, 0], [1, 0, 0], [0, 1, 0], [0, 0, 1]]),
    ...     np.array([[0, 2, 1], [0, 1, 3], [0, 3, 2], [1, 2, 3]], np.int32))
    >>> round(float(angle_defects(corner).sum() / np.pi), 6)
    4.0
    """
    corners = mesh.corners
    turned = np.zeros(len(mesh.vertices))
    for k in range(3):
        one = corners[:, (k + 1) % 3] - corners[:, k]
        other = corners[:, (k + 2) % 3] - corners[:, k]
        sine = np.linalg.norm(np.cross(one, other), axis=1)
        angle = np.arctan2(sine, np.einsum("ij,ij->i", one, other))
        turned += np.bincount(mesh.faces[:, k], weights=angle, minlength=len(turned))
    defects: NDArray[np.float64] = 2.0 * np.pi - turned
    return defects
