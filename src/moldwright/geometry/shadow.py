"""What a body hides along a direction: coarse and binary on digital lines, fine and between the points by shearing."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numba as nb
import numpy as np
from numpy.typing import NDArray

from moldwright.geometry.directions import cone_about
from moldwright.geometry.grid import Field
from moldwright.geometry.sign import Mask


@dataclass(frozen=True, slots=True)
class DigitalLine:
    """A direction as integer steps: from slice to slice along `axis` (by `sign`), all rays are translates.

    `step_of[s]` (2,) is the lateral step from slice s (counted in the direction) to slice s + 1.
    """

    axis: int
    sign: int
    step_of: NDArray[np.int64]


def digital_line(direction: NDArray[np.float64], slices: int) -> DigitalLine:
    """The digital line of a unit vector: lateral offset round(s * d_q / |d_a|) at slice s of the dominant axis a.

    Parameters
    ----------
    direction : (3,) unit vector.
    slices : how many slices the line crosses, >= 1.

    Source: our own.
    """
    axis = int(np.argmax(np.abs(direction) + np.array([0.0, 0.0, 1e-9])))
    lateral = np.delete(direction, axis) / abs(direction[axis])
    offsets = np.rint(np.arange(slices + 1)[:, None] * lateral[None, :]).astype(np.int64)
    return DigitalLine(axis, 1 if direction[axis] > 0 else -1, np.diff(offsets, axis=0))


def oriented(array: NDArray[Any], line: DigitalLine) -> NDArray[Any]:
    """A view with the line's axis first, running in the line's sense.

    Parameters
    ----------
    array : (a, b, c) any values.
    line : whose axis and sense are taken.

    Source: our own.
    """
    view = np.moveaxis(array, line.axis, 0)
    return view if line.sign > 0 else view[::-1]


def shifted(slice_: NDArray[Any], step: NDArray[np.int64], fill: Any) -> NDArray[Any]:
    """out[p] = slice_[p + step], `fill` where that lies outside.

    Parameters
    ----------
    slice_ : (a, b) any values.
    step : (2,) whole steps.
    fill : the value from outside.

    Source: our own.
    """
    out = np.full_like(slice_, fill)
    source, target = [], []
    for axis in range(2):
        n, s = slice_.shape[axis], int(step[axis])
        source.append(slice(max(0, s), min(n, n + s)))
        target.append(slice(max(0, -s), min(n, n - s)))
    out[tuple(target)] = slice_[tuple(source)]
    return out


def binary_shadow(core: Mask, direction: NDArray[np.float64]) -> Mask:
    """Points from which a digital ray along `direction` meets the core (the core itself counts).

    Parameters
    ----------
    core : points of the body.
    direction : (3,) unit vector along which one looks out.

    Source: our own.
    """
    line = digital_line(direction, max(core.shape))
    out = core.copy()
    view = oriented(out, line)
    for s in range(view.shape[0] - 2, -1, -1):
        view[s] |= shifted(view[s + 1], line.step_of[s], False)
    return out


@nb.njit(cache=True)
def _sheared_least(field: Any, ra: float, rb: float, far: float, out: Any) -> None:
    """out[s] = least of the field on the ray from each point of slice s toward higher s, drifting (ra, rb) a slice.

    One plane travels with the rays; each slice is sampled into it once and read back once, so nothing diffuses.
    """
    slices, na, nb_ = field.shape
    low_a = int(np.floor(min(0.0, -ra * (slices - 1)))) - 1
    low_b = int(np.floor(min(0.0, -rb * (slices - 1)))) - 1
    ma = na + int(np.ceil(abs(ra) * (slices - 1))) + 4
    mb = nb_ + int(np.ceil(abs(rb) * (slices - 1))) + 4
    plane = np.full((ma, mb), far, np.float32)
    for s in range(slices - 1, -1, -1):
        da, db = ra * s, rb * s
        fa, fb = da - np.floor(da), db - np.floor(db)
        ia, ib = int(np.floor(da)), int(np.floor(db))
        w00, w10 = np.float32((1 - fa) * (1 - fb)), np.float32(fa * (1 - fb))
        w01, w11 = np.float32((1 - fa) * fb), np.float32(fa * fb)
        for u in range(max(0, -ia - 1 - low_a), min(ma, na - ia - low_a)):
            p = u + low_a + ia
            for v in range(max(0, -ib - 1 - low_b), min(mb, nb_ - ib - low_b)):
                q = v + low_b + ib
                if p < 0 or q < 0 or p + 1 >= na or q + 1 >= nb_:
                    continue
                value = (
                    w00 * field[s, p, q] + w10 * field[s, p + 1, q]
                    + w01 * field[s, p, q + 1] + w11 * field[s, p + 1, q + 1]
                )  # fmt: skip
                plane[u, v] = min(plane[u, v], value)
        ga, gb = -da - np.floor(-da), -db - np.floor(-db)
        ja, jb = int(np.floor(-da)) - low_a, int(np.floor(-db)) - low_b
        v00, v10 = np.float32((1 - ga) * (1 - gb)), np.float32(ga * (1 - gb))
        v01, v11 = np.float32((1 - ga) * gb), np.float32(ga * gb)
        for p in range(na):
            for q in range(nb_):
                u, v = p + ja, q + jb
                value = v00 * plane[u, v] + v10 * plane[u + 1, v] + v01 * plane[u, v + 1] + v11 * plane[u + 1, v + 1]
                own = field[s, p, q]
                out[s, p, q] = value if value < own else own


def least_along(field: Field, direction: NDArray[np.float64], far: float) -> Field:
    """For every point, the least value of the field on the ray from it along a direction (`far` outside the grid).

    With a signed distance, the level set of the result is the body together with all that it hides, placed between
    the grid's points as exactly as the field itself.

    Parameters
    ----------
    field : sampled values, any unit.
    direction : (3,) unit vector.
    far : value beyond the grid, not less than any of the field.

    Source: our own; the shearing after Lacroute & Levoy 1994, "Fast volume rendering using a shear-warp factorization",
    SIGGRAPH (from memory).
    """
    axis = int(np.argmax(np.abs(direction) + np.array([0.0, 0.0, 1e-9])))
    view = np.moveaxis(field, axis, 0)
    drift = np.delete(direction, axis) / abs(direction[axis])
    if direction[axis] < 0:
        view = view[::-1]
    work = np.ascontiguousarray(view)
    out = np.empty_like(work)
    _sheared_least(work, float(drift[0]), float(drift[1]), float(far), out)
    if direction[axis] < 0:
        out = out[::-1]
    return np.ascontiguousarray(np.moveaxis(out, 0, axis))


def least_in_cone(field: Field, direction: NDArray[np.float64], far: float, degrees: int) -> Field:
    """For every point, the least value of the field on the rays from it within a cone about a direction.

    Parameters
    ----------
    field : sampled values, any unit.
    direction : (3,) unit vector, the cone's axis.
    far : value beyond the grid, not less than any of the field.
    degrees : how far the cone opens from its axis [deg]; 0 for the axis alone. See `directions.cone_about`.

    Source: our own.
    """
    axis, *others = cone_about(direction, degrees)
    least = least_along(field, axis, far)
    for ray in others:
        np.minimum(least, least_along(field, ray, far), out=least)
    return least
