"""A thin sheet of incompressible rubber on triangles: what pulls at its corners when it is stretched.

Neo-Hookean: `W = mu h / 2 (l1^2 + l2^2 + 1 / (l1 l2)^2 - 3)` for every unit of area, `l1 >= l2` its principal
stretches, mu the shear modulus, h the thickness. A sheet so thin folds rather than be pressed together: where `l2` is
less than `1 / sqrt(l1)` it hangs in folds across `l1` and carries `W(l1, 1 / sqrt(l1))`; where `l1 <= 1` too, nothing.
All is reckoned with `mu h = 1 N/mm`: the shape that a sheet takes does not depend on it, and forces are in its ratio.

Source: L. R. G. Treloar, "The physics of rubber elasticity" (from memory); A. C. Pipkin, "The relaxed energy density for
isotropic elastic membranes", IMA J. Appl. Math. 36 (1986) 85 (from memory); constant-strain triangles, textbook.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numba as nb
import numpy as np
from numpy.typing import NDArray

from moldwright.geometry.mesh import Mesh

Floats = NDArray[np.float64]

STIFFEST = 4.0
"""Greatest modulus of the unstretched sheet, its two ways together, in units of mu: E / (1 - 1 / 4), E = 3 mu."""
MASS_OVER = 1.5
"""Masses are so many times what a time step of 1 is stable with for the unstretched sheet: our own."""


@dataclass(frozen=True, slots=True, eq=False)
class Sheet:
    """A sheet unstretched: rest (n, 3) [mm], faces (m, 3), area (m,) [mm2], inverse (m, 2, 2) of each triangle's sides in
    its own plane [1/mm]; mass (n,) with which a time step of 1 is stable, no real one."""

    rest: Floats
    faces: NDArray[np.int32]
    area: Floats
    inverse: Floats
    mass: Floats


def sheet_of(mesh: Mesh) -> Sheet:
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
    mass = np.bincount(mesh.faces.ravel(), stiffness.ravel(), len(mesh.vertices))
    return Sheet(mesh.vertices.copy(), mesh.faces, area, inverse, MASS_OVER * mass)


@nb.njit(cache=True)
def pull(x: Any, faces: Any, area: Any, inverse: Any, force: Any, stretch: Any) -> None:
    """Sets `force` (n, 3) to what the sheet pulls at each corner [N, for mu h = 1 N/mm] and raises `stretch` (m,) to the
    larger principal stretch of each triangle where that is more.

    Parameters
    ----------
    x : (n, 3) where the corners are [mm].
    faces, area, inverse : see `Sheet`.
    force, stretch : (n, 3) and (m,) that are changed.
    """
    force[:] = 0.0
    for n in range(faces.shape[0]):
        i, j, k = faces[n, 0], faces[n, 1], faces[n, 2]
        p, q, r = inverse[n, 0, 0], inverse[n, 0, 1], inverse[n, 1, 1]
        fx = (x[j, 0] - x[i, 0]) * p
        fy = (x[j, 1] - x[i, 1]) * p
        fz = (x[j, 2] - x[i, 2]) * p
        gx = (x[j, 0] - x[i, 0]) * q + (x[k, 0] - x[i, 0]) * r
        gy = (x[j, 1] - x[i, 1]) * q + (x[k, 1] - x[i, 1]) * r
        gz = (x[j, 2] - x[i, 2]) * q + (x[k, 2] - x[i, 2]) * r
        c11 = fx * fx + fy * fy + fz * fz
        c22 = gx * gx + gy * gy + gz * gz
        c12 = fx * gx + fy * gy + fz * gz
        half = 0.5 * (c11 + c22)
        apart = np.sqrt((0.5 * (c11 - c22)) ** 2 + c12 * c12)
        most = half + apart
        if most <= 1.0:
            continue
        long = np.sqrt(most)
        stretch[n] = max(stretch[n], long)
        det = max(c11 * c22 - c12 * c12, 0.0)
        if det > long:
            s = 1.0 / (det * det)
            s11, s22, s12 = 1.0 - s * c22, 1.0 - s * c11, s * c12
        else:
            t = (1.0 - 1.0 / (most * long)) / (2.0 * apart)
            s11, s22, s12 = t * (apart + 0.5 * (c11 - c22)), t * (apart - 0.5 * (c11 - c22)), t * c12
        ux, uy, uz = fx * s11 + gx * s12, fy * s11 + gy * s12, fz * s11 + gz * s12
        wx, wy, wz = fx * s12 + gx * s22, fy * s12 + gy * s22, fz * s12 + gz * s22
        a = area[n]
        jx, jy, jz = a * (ux * p + wx * q), a * (uy * p + wy * q), a * (uz * p + wz * q)
        kx, ky, kz = a * wx * r, a * wy * r, a * wz * r
        force[j, 0] -= jx
        force[j, 1] -= jy
        force[j, 2] -= jz
        force[k, 0] -= kx
        force[k, 1] -= ky
        force[k, 2] -= kz
        force[i, 0] += jx + kx
        force[i, 1] += jy + ky
        force[i, 2] += jz + kz
