"""A thin sheet of incompressible rubber on triangles: what pulls at its corners when it is stretched.

Neo-Hookean: `W = mu h / 2 (l1^2 + l2^2 + 1 / (l1 l2)^2 - 3)` for every unit of area, `l1 >= l2` its principal
stretches, mu the shear modulus, h the thickness. A sheet so thin folds rather than be pressed together: where `l2` is
less than `1 / sqrt(l1)` it hangs in folds across `l1` and carries `W(l1, 1 / sqrt(l1))`; where `l1 <= 1` too, nothing.
All is reckoned with `mu h = 1 N/mm`: the shape that a sheet takes does not depend on it, and forces are in its ratio.

Source: L. R. G. Treloar, "The physics of rubber elasticity" (from memory); A. C. Pipkin, "The relaxed energy density
for isotropic elastic membranes", IMA J. Appl. Math. 36 (1986) 85 (from memory); triangles of constant strain: textbook.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from moldwright.geometry.mesh import Mesh

Floats = NDArray[np.float64]

STIFFEST = 4.0
"""Greatest modulus of the unstretched sheet, its two ways together, in units of mu: E / (1 - 1 / 4), E = 3 mu."""
MASS_OVER = 1.5
"""Masses are so many times what a time step of 1 is stable with for the unstretched sheet: our own."""


@dataclass(frozen=True, slots=True, eq=False)
class RubberSheet:
    """A sheet unstretched.

    rest : (n, 3) [mm]. faces : (m, 3). area : (m,) [mm2]. inverse : (m, 2, 2) of each triangle's sides in its own plane
    [1/mm]. mass : (n,) with which a time step of 1 is stable, no real one.
    """

    rest: Floats
    faces: NDArray[np.int32]
    area: Floats
    inverse: Floats
    mass: Floats

    def at_corners(self, values: Floats) -> Floats:
        """(n,) means of values of the triangles about each corner, by their area.

        Parameters
        ----------
        values : (m,) one for each triangle.

        Source: our own.
        """
        count, corners, weight = len(self.rest), self.faces.ravel(), np.repeat(self.area, 3)
        sums = np.bincount(corners, weight * np.repeat(values, 3), count)
        means: Floats = sums / np.bincount(corners, weight, count)
        return means


def sheet_of(mesh: Mesh) -> RubberSheet:
    """A mesh as an unstretched sheet.

    Parameters
    ----------
    mesh : triangles, none without area [mm].

    Source: our own.
    """
    a, b, c = np.moveaxis(mesh.corners, 1, 0)
    along = b - a
    length = np.linalg.norm(along, axis=1)
    foot = np.einsum("ij,ij->i", c - a, along) / length
    twice = np.linalg.norm(np.cross(along, c - a), axis=1)
    inverse = np.zeros((len(a), 2, 2))
    inverse[:, 0, 0] = 1 / length
    inverse[:, 0, 1] = -foot / twice
    inverse[:, 1, 1] = length / twice
    area = twice / 2
    slopes = np.concatenate([-inverse.sum(axis=1, keepdims=True), inverse], axis=1)
    stiffness = STIFFEST * area[:, None] * (slopes**2).sum(axis=2)
    mass: Floats = np.bincount(mesh.faces.ravel(), stiffness.ravel(), len(mesh.vertices)).astype(np.float64)
    return RubberSheet(mesh.vertices.copy(), mesh.faces, area, inverse, MASS_OVER * mass)
