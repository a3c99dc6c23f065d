"""A block of rubber poured about a body: the box that it is poured in, and how thick its walls are."""

from __future__ import annotations

from math import pi

import numpy as np
import shapely
from shapely import MultiPoint, Polygon

from moldwright.geometry.mesh import Mesh
from moldwright.geometry.outline import least_rectangle_sides
from moldwright.mold.kinds import Block

WALL_SHARE, LEAST_WALL_MM, MOST_WALL_MM = 0.1, 10.0, 25.0
"""Rubber about a body, as a share of its middle length, and its bounds: common practice, no source."""


def wall_of(body: Mesh) -> float:
    """How thick rubber is poured about a body [mm].

    Parameters
    ----------
    body : closed, standing on z = 0 [mm].

    Source: common practice, no source.
    """
    return min(max(WALL_SHARE * middle_mm(body), LEAST_WALL_MM), MOST_WALL_MM)


def middle_mm(body: Mesh) -> float:
    """Neither the longest nor the shortest of a body's length, breadth and height [mm]: how large it is to the hand.

    Parameters
    ----------
    body : any mesh [mm].

    Source: our own.
    """
    low, high = body.bounds_mm
    return float(np.sort(high - low)[1])


def block_about(body: Mesh, wall_mm: float) -> Block:
    """The smaller of a box and a tube about a body, so wide and high that rubber is so thick beside and over it.

    Parameters
    ----------
    body : closed, standing on z = 0 [mm].
    wall_mm : least rubber beside and over it [mm], > 0.

    Source: closed forms; least rectangle and circle about the body's shadow as shapely finds them.
    """
    shadow = _shadow(body)
    long_mm, wide_mm = (side + 2.0 * wall_mm for side in least_rectangle_sides(shadow))
    across_mm = 2.0 * float(shapely.minimum_bounding_radius(shadow)) + 2.0 * wall_mm
    height_mm = float(body.bounds_mm[1][2]) + wall_mm
    tube_mm2 = pi * across_mm**2 / 4.0
    is_round = tube_mm2 < long_mm * wide_mm
    sides = (across_mm, across_mm) if is_round else (long_mm, wide_mm)
    foot_mm2 = min(tube_mm2, long_mm * wide_mm)
    return Block(wall_mm, is_round, *sides, height_mm, foot_mm2 * height_mm / 1000.0 - body.volume_ml)


def _shadow(body: Mesh) -> Polygon:
    return MultiPoint(np.asarray(body.vertices[:, :2])).convex_hull
