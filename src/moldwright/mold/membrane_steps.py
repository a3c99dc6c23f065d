"""What runs at every step of a sheet that is drawn off a body; all in one file, so that what is compiled of it is never
older than what it calls.
"""

from __future__ import annotations

from typing import Any

import numba as nb
import numpy as np

SPARSE = 2.5
"""A part of the edge longer than so many steps of the body's grid is spread between its corners too: our own."""
DENSE = 1.5
"""A triangle with a side longer than so many steps is held out of the body at places no further apart: our own."""


@nb.njit(cache=True)
def pull(x: Any, faces: Any, area: Any, inverse: Any, force: Any, stretch: Any) -> None:
    """Sets `force` (n, 3) to what the sheet pulls at each corner [N, for mu h = 1 N/mm] and raises `stretch` (m,) to
    the larger principal stretch of each triangle where that is more.

    Parameters
    ----------
    x : (n, 3) where the corners are [mm].
    faces, area, inverse : see `membrane_sheet.RubberSheet`.
    force, stretch : (n, 3) and (m,) that are changed.

    Source: as `membrane_sheet`.
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


@nb.njit(cache=True, inline="always")
def away(field: Any, origin: Any, step: float, px: float, py: float, pz: float) -> Any:
    """Distance to the body at a point and its gradient, by trilinear interpolation; far outside the grid.

    Parameters
    ----------
    field, origin, step : see `membrane_contact.Obstacle`.
    px, py, pz : the point [mm].

    Source: trilinear interpolation, textbook.
    """
    u, v, w = (px - origin[0]) / step, (py - origin[1]) / step, (pz - origin[2]) / step
    i, j, k = int(np.floor(u)), int(np.floor(v)), int(np.floor(w))
    if i < 0 or j < 0 or k < 0 or i >= field.shape[0] - 1 or j >= field.shape[1] - 1 or k >= field.shape[2] - 1:
        return 1e9, 0.0, 0.0, 0.0
    u, v, w = u - i, v - j, w - k
    a, b = field[i, j, k], field[i + 1, j, k]
    c, d = field[i, j + 1, k], field[i + 1, j + 1, k]
    e, f = field[i, j, k + 1], field[i + 1, j, k + 1]
    g, h = field[i, j + 1, k + 1], field[i + 1, j + 1, k + 1]
    ab, cd, ef, gh = a + (b - a) * u, c + (d - c) * u, e + (f - e) * u, g + (h - g) * u
    low, high = ab + (cd - ab) * v, ef + (gh - ef) * v
    gx = ((b - a) * (1 - v) + (d - c) * v) * (1 - w) + ((f - e) * (1 - v) + (h - g) * v) * w
    gy = (cd - ab) * (1 - w) + (gh - ef) * w
    return low + (high - low) * w, gx / step, gy / step, (high - low) / step


@nb.njit(cache=True)
def keep_out(x: Any, v: Any, faces: Any, at: Any, within: Any, field: Any, origin: Any, step: float) -> float:
    """Moves corners, and triangles by their middles, out of the body and stops what moves in; how much
    deeper than that a middle lay inside before [mm].

    Parameters
    ----------
    x, v : (n, 3) places [mm] and speeds, changed.
    faces : (m, 3).
    at, within : (n,) and (m,) how far each corner and each middle may lie inside [mm], see `depths`.
    field, origin, step : see `membrane_contact.Obstacle`.

    Source: our own.
    """
    for n in range(x.shape[0]):
        far, gx, gy, gz = away(field, origin, step, x[n, 0], x[n, 1], x[n, 2])
        far += at[n]
        if far < 0.0:
            _push(x, v, n, far, gx, gy, gz)
    deepest = 0.0
    for n in range(faces.shape[0]):
        i, j, k = faces[n, 0], faces[n, 1], faces[n, 2]
        deepest = max(deepest, _hold(x, v, i, j, k, 1 / 3, 1 / 3, within[n], field, origin, step))
        parts = int(max(_apart(x, i, j), _apart(x, j, k), _apart(x, k, i)) / (DENSE * step)) + 1
        if parts == 1:
            continue
        deep = max(within[n], at[i], at[j], at[k])
        for a in range(parts + 1):
            for b in range(parts + 1 - a):
                if max(a, b, parts - a - b) < parts:
                    out = _hold(x, v, i, j, k, a / parts, b / parts, deep, field, origin, step)
                    deepest = max(deepest, out)
    return deepest


@nb.njit(cache=True, inline="always")
def _apart(x: Any, i: int, j: int) -> float:
    return float(np.sqrt((x[i, 0] - x[j, 0]) ** 2 + (x[i, 1] - x[j, 1]) ** 2 + (x[i, 2] - x[j, 2]) ** 2))


@nb.njit(cache=True)
def depths(points: Any, field: Any, origin: Any, step: float, near: float = 0.0) -> Any:
    """(n,) how far each point lies inside of what is so near to the body or in it [mm].

    Parameters
    ----------
    points : (n, 3) [mm].
    field, origin, step : see `membrane_contact.Obstacle`.
    near : [mm].

    Source: our own.
    """
    inside = np.zeros(points.shape[0])
    for n in range(points.shape[0]):
        far, _, _, _ = away(field, origin, step, points[n, 0], points[n, 1], points[n, 2])
        inside[n] = max(0.0, near - far)
    return inside


@nb.njit(cache=True, inline="always")
def _hold(
    x: Any, v: Any, i: int, j: int, k: int, a: float, b: float, within: float, field: Any, origin: Any, step: float
) -> float:
    """Moves a triangle out of the body by one point of it, its corners in ratio of their shares; how deep it lay."""
    c = 1.0 - a - b
    px = a * x[i, 0] + b * x[j, 0] + c * x[k, 0]
    py = a * x[i, 1] + b * x[j, 1] + c * x[k, 1]
    pz = a * x[i, 2] + b * x[j, 2] + c * x[k, 2]
    far, gx, gy, gz = away(field, origin, step, px, py, pz)
    far += within
    if far >= 0.0:
        return 0.0
    square = a * a + b * b + c * c
    if a > 1e-9:
        _push(x, v, i, far * a / square, gx, gy, gz)
    if b > 1e-9:
        _push(x, v, j, far * b / square, gx, gy, gz)
    if c > 1e-9:
        _push(x, v, k, far * c / square, gx, gy, gz)
    return float(-far)


@nb.njit(cache=True, inline="always")
def _push(x: Any, v: Any, n: int, far: float, gx: float, gy: float, gz: float) -> None:
    square = gx * gx + gy * gy + gz * gz
    if square < 1e-4:
        return
    by = -far / square
    x[n, 0] += by * gx
    x[n, 1] += by * gy
    x[n, 2] += by * gz
    inward = (v[n, 0] * gx + v[n, 1] * gy + v[n, 2] * gz) / square
    if inward < 0.0:
        v[n, 0] -= inward * gx
        v[n, 1] -= inward * gy
        v[n, 2] -= inward * gz


@nb.njit(cache=True)
def clear(x: Any, v: Any, edge: Any, z: float, reach: Any, short: float, ways: Any, side: float) -> float:
    """Holds the pulled edge at height z and outside of a hull, less `short`; by how much it was moved at most [mm].

    Parameters
    ----------
    x, v : (n, 3) places [mm] and speeds, changed.
    edge : numbers of its corners in turn.
    z : its height [mm].
    reach, ways : (k,) how far the hull reaches along each of (k, 2) level directions [mm].
    short : by how much it may still lie within [mm].
    side : longer parts of the edge are held out between their corners too [mm].

    Source: our own.
    """
    moved = 0.0
    for n in edge:
        x[n, 2] = z
        v[n, 2] = 0.0
    for n in range(edge.shape[0]):
        i, j = edge[n], edge[(n + 1) % edge.shape[0]]
        parts = int(np.hypot(x[i, 0] - x[j, 0], x[i, 1] - x[j, 1]) / side) + 1
        for m in range(parts):
            b = m / parts
            a = 1.0 - b
            px, py = a * x[i, 0] + b * x[j, 0], a * x[i, 1] + b * x[j, 1]
            over, which = -np.inf, 0
            for way in range(ways.shape[0]):
                by = px * ways[way, 0] + py * ways[way, 1] - reach[way]
                if by > over:
                    over, which = by, way
            out = -over - short
            if out > 0.0:
                moved = max(moved, out)
                out /= a * a + b * b
                _push(x, v, i, -out * a, ways[which, 0], ways[which, 1], 0.0)
                if b > 0.0:
                    _push(x, v, j, -out * b, ways[which, 0], ways[which, 1], 0.0)
    return moved


@nb.njit(cache=True)
def advance(
    x: Any, v: Any, mass: Any, faces: Any, at: Any, within: Any, area: Any, inverse: Any, edge: Any, z: float,
    left: float, rise: float, steps: int, damping: float, field: Any, origin: Any, step: float, reach: Any, ways: Any,
    own: Any, spread: float, stretch: Any,
) -> Any:  # fmt: skip
    """So many steps; the mean force on the edge, the deepest middle, the edge's height, and what is left to spread it.

    The hull that it must clear grows evenly from its own to that of all that is above (their reaches are mixed).

    Parameters
    ----------
    x, v : (n, 3) places [mm] and speeds, changed.
    mass, faces, area, inverse : see `membrane_sheet.RubberSheet`.
    at, within : see `keep_out`.
    edge : numbers of its corners in turn.
    z : its height [mm].
    left : what is left to spread it: until it lies along its own hull, and `spread` from there [mm].
    rise : how far it moves in a step [mm].
    steps : how many.
    damping : share of its speed that a corner loses in a step.
    field, origin, step, reach : see `membrane_contact.Obstacle`.
    ways : see `membrane_contact.level_ways`.
    own : (k,) reach of its own hull along each of them [mm].
    spread : how far the two hulls lie apart [mm].
    stretch : (m,) raised to the largest stretch of each triangle.

    Source: central differences, textbook; see `membrane_pull`.
    """
    force = np.zeros_like(x)
    nothing = np.full_like(own, -1e9)
    pulled, deepest = 0.0, 0.0
    for _ in range(steps):
        pull(x, faces, area, inverse, force, stretch)
        for n in edge:
            pulled += force[n, 2]
        for n in range(x.shape[0]):
            for axis in range(3):
                v[n, axis] = (v[n, axis] + force[n, axis] / mass[n]) * (1.0 - damping)
                x[n, axis] += v[n, axis]
        deepest = max(deepest, keep_out(x, v, faces, at, within, field, origin, step))
        layer = min(max(int(np.floor((z - origin[2]) / step)), 0), reach.shape[0] - 1)
        part = 1.0 - min(left / spread, 1.0) if spread > 0.0 else 1.0
        if reach[layer, 0] > -np.inf:
            clear(x, v, edge, z, own + part * (reach[layer] - own), max(0.0, left - spread), ways, SPARSE * step)
        else:
            clear(x, v, edge, z, nothing, 0.0, ways, 1e9)
        if left > 0.0:
            left -= abs(rise)
        else:
            z += rise
    return -pulled / steps, deepest, z, left
