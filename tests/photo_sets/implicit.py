"""Bodies from signed distances: a few shapes, joined and carved smoothly, and the mesh of their zero surface."""

from __future__ import annotations

from collections.abc import Callable, Sequence

import numpy as np
import numpy.typing as npt
import trimesh
from scipy.interpolate import CubicSpline
from skimage.measure import label, marching_cubes

Floats = npt.NDArray[np.float64]
Shape = Callable[[Floats], Floats]
Point = tuple[float, float, float]


def ball(middle: Point, radii: Point | float, lean: float = 0.0) -> Shape:
    """A ball or ellipsoid, leaning forward (towards -y) by an angle [deg]; distances are only about right."""
    r = np.broadcast_to(radii, 3).astype(float)
    c, s = np.cos(np.radians(lean)), np.sin(np.radians(lean))
    turn = np.array([[1, 0, 0], [0, c, -s], [0, s, c]])

    def distance(p: Floats) -> Floats:
        q = (p - middle) @ turn
        k0, k1 = np.linalg.norm(q / r, axis=1), np.linalg.norm(q / r**2, axis=1)
        return np.asarray(k0 * (k0 - 1) / np.maximum(k1, 1e-9))

    return distance


def tube(path: Sequence[Point], radii: Sequence[float], smooth: bool = True) -> Shape:
    """A tube through points, its radius given at each; the path is rounded unless `smooth` is False."""
    points, widths = np.array(path, dtype=float), np.array(radii, dtype=float)
    if smooth and len(points) > 2:
        t = np.linspace(0, len(points) - 1, 6 * (len(points) - 1) + 1)
        points, widths = CubicSpline(np.arange(len(points)), points)(t), np.interp(t, np.arange(len(widths)), widths)

    def distance(p: Floats) -> Floats:
        best = np.full(len(p), np.inf)
        for a, b, ra, rb in zip(points[:-1], points[1:], widths[:-1], widths[1:], strict=True):
            way = b - a
            t = np.clip((p - a) @ way / (way @ way), 0, 1)
            best = np.minimum(best, np.linalg.norm(p - a - t[:, None] * way, axis=1) - (ra + t * (rb - ra)))
        return best

    return distance


def block(middle: Point, sides: Point, edge: float = 1.0) -> Shape:
    """A box with rounded edges."""
    half = np.array(sides) / 2 - edge

    def distance(p: Floats) -> Floats:
        q = np.abs(p - middle) - half
        out = np.linalg.norm(np.maximum(q, 0), axis=1)
        return np.asarray(out + np.minimum(q.max(axis=1), 0) - edge)

    return distance


def turned(profile: Sequence[tuple[float, float]]) -> Shape:
    """A turned body from (radius, height) points bottom to top; filled to its axis."""
    at = np.array(profile, dtype=float)
    t = np.arange(len(at))
    fine = CubicSpline(t, at)(np.linspace(0, len(at) - 1, 12 * len(at)))

    def distance(p: Floats) -> Floats:
        r = np.hypot(p[:, 0], p[:, 1])
        inside = np.interp(p[:, 2], fine[:, 1], fine[:, 0], left=-1e3, right=-1e3)
        ends = np.maximum(fine[0, 1] - p[:, 2], p[:, 2] - fine[-1, 1])
        return np.asarray(np.maximum((r - np.maximum(inside, 0)) * 0.85, ends))

    return distance


def joined(shapes: Sequence[Shape], melt: float = 3.0) -> Shape:
    """Shapes melted into one over a width."""

    def distance(p: Floats) -> Floats:
        got = shapes[0](p)
        for shape in shapes[1:]:
            got = _melted(got, shape(p), melt)
        return got

    return distance


def carved(body: Shape, tools: Sequence[Shape], melt: float = 1.5) -> Shape:
    """A body less its tools."""

    def distance(p: Floats) -> Floats:
        got = body(p)
        for tool in tools:
            got = -_melted(-got, tool(p), melt)
        return got

    return distance


def _melted(a: Floats, b: Floats, melt: float) -> Floats:
    share = np.clip(0.5 + 0.5 * (b - a) / melt, 0, 1)
    return np.asarray(b + (a - b) * share - melt * share * (1 - share))


def mirrored(shape: Shape) -> Shape:
    """The shape and its picture across x = 0."""
    return lambda p: np.minimum(shape(p), shape(p * [-1, 1, 1]))


def mesh_of(shape: Shape, low: Point, high: Point, longest_mm: float, nodes: int = 130) -> trimesh.Trimesh:
    """The body above z = 0, its longest side `longest_mm`; crumbs that hang in the air are left away.

    Parameters
    ----------
    low, high : a box round it in the shape's own measure; `nodes` along the box's longest side.
    """
    step = max(b - a for a, b in zip(low, high, strict=True)) / nodes
    axes = [np.arange(a - step, b + 2 * step, step) for a, b in zip(low, high, strict=True)]
    axes[2] = np.arange(-1.5 * step, high[2] + 2 * step, step)
    grid = np.stack(np.meshgrid(*axes, indexing="ij"), axis=-1)
    values = np.maximum(shape(grid.reshape(-1, 3)), -grid[..., 2].ravel()).reshape(grid.shape[:3])
    values[np.abs(values) < 1e-4 * step] = 1e-4 * step
    pieces = label(values < 0, connectivity=1)
    values[(pieces > 0) & (pieces != np.bincount(pieces[pieces > 0]).argmax())] = step
    points, faces, _, _ = marching_cubes(values, 0.0, gradient_direction="descent")
    body = trimesh.Trimesh(points * step + [a[0] for a in axes], faces)
    body.apply_translation([0, 0, -body.bounds[0, 2]])
    body.apply_scale(longest_mm / body.extents.max())
    if not body.is_volume or body.volume <= 0:
        raise ValueError("the body is not closed")
    return body
