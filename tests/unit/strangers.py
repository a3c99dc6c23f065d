"""Scans that a stranger may hand in: sound files that ask for far more work than their size tells."""

from __future__ import annotations

import numpy as np
from original_files import box, frustum, glb, off, sphere, stl, together


def instances(count: int, seed: int = 0) -> bytes:
    """A GLB whose one box is used `count` times."""
    points, faces = box(0.02, 0.03, 0.04)
    places = np.random.default_rng(seed).uniform(-1, 1, (count, 3)).round(4).tolist()
    nodes = [{"mesh": 0, "translation": place} for place in places]
    return glb(points, faces, nodes=nodes, scenes=[{"nodes": list(range(count))}])


def random_triangles(count: int, seed: int = 0) -> bytes:
    """An STL of triangles anywhere in a cube."""
    points = np.random.default_rng(seed).uniform(0, 100, (3 * count, 3))
    return stl(points, np.arange(3 * count).reshape(-1, 3))


def nested(count: int, sides: int = 24) -> bytes:
    """An OFF of spheres in each other, all wound outward."""
    points, faces = sphere(1.0, sides)
    return off(*together(*((points * (50 + 50 * k / count), faces) for k in range(count))))


def sheets(count: int, apart: float = 0.0, sides: int = 48) -> bytes:
    """An OFF of one cone `count` times, each a little larger than the last."""
    points, faces = frustum(60, 40, 100, sides=sides)
    return off(*together(*((points * (1 + apart * k), faces) for k in range(count))))


def many_bodies(count: int, sides: int = 6) -> bytes:
    """A large ball and `count` small ones in and around it."""
    rng = np.random.default_rng(0)
    points, faces = sphere(1.0, sides)
    small = ((points * 0.5 + rng.uniform(-100, 100, 3), faces) for _ in range(count))
    return stl(*together(sphere(60, 48), *small))


def hollow_polygons() -> bytes:
    """An OFF of polygons that are hollow everywhere: they take ear after ear, for half a minute and more."""
    turn = np.linspace(0, 2 * np.pi, 2900, endpoint=False)
    ring = np.stack([np.cos(turn), np.sin(turn), 0 * turn], 1) * np.where(np.arange(2900) % 2, 10.0, 50.0)[:, None]
    return off(np.concatenate([ring, [(0, 0, 9)]]), [tuple(range(2900)), (0, 1, 2900)] * 40)
