"""A slit as it is told to the hand: on the outside of the rubber, and the line that it leaves on the casts."""

from __future__ import annotations

import numpy as np
import shapely
from numpy.typing import NDArray

from moldwright.geometry.closest import nearest_on_mesh
from moldwright.geometry.mesh import Mesh
from moldwright.mold.seam_line import SeamCurve, SeamPart, SeamRise, length_mm
from moldwright.mold.seam_stations import seam_plan
from moldwright.plan.flange import FlangePlan
from moldwright.plan.peel import SlitPlan

Points = NDArray[np.float64]

FLOOR_MM = 0.5
"""So far over the flange a slit goes up the wall: our own."""
EVENINGS = 20


def slit_plan(
    paths: tuple[Points, ...],
    stretch: float,
    gloved: Mesh,
    flange: FlangePlan,
    flange_mm: float,
    plinth_mm: float,
) -> SlitPlan:
    """The slit on the rubber.

    Parameters
    ----------
    paths : its cuts over the inner surface, each from its low end up [mm].
    stretch : how far the tightest loop is stretched that it leaves closed.
    gloved : the gloved piece, closed, on z = 0 [mm].
    flange : over which it goes out, and in whose frame places are measured.
    flange_mm : the flange's thickness [mm].
    plinth_mm : height of the plinth, which no cast keeps [mm].

    Source: our own.
    """
    outside = [_outside(path, gloved, flange_mm + FLOOR_MM) for path in paths]
    rises = tuple(
        SeamRise(SeamPart(out, False), 0, (_over_flange(out[0], flange) if path[0, 2] <= FLOOR_MM else None, None))
        for path, out in zip(paths, outside, strict=True)
    )
    kept = [path[path[:, 2] >= plinth_mm] for path in paths]
    return SlitPlan(
        length_mm=sum(map(length_mm, paths)),
        on_cast_mm=sum(length_mm(path) for path in kept if len(path) > 1),
        stretch=stretch,
        ends=tuple(_point(path[-1]) for path in paths),
        line=seam_plan(SeamCurve(rises), gloved, flange),
    )


def _outside(path: Points, gloved: Mesh, floor_mm: float) -> Points:
    """The nearest places on the outside of the rubber, over the flange, evened out."""
    points = path[path[:, 2] > floor_mm]
    out = nearest_on_mesh(points if len(points) > 1 else path[-2:], gloved)
    for _ in range(EVENINGS if len(out) > 2 else 0):
        out[1:-1] = 0.5 * out[1:-1] + 0.25 * (out[:-2] + out[2:])
        out[1:-1] = nearest_on_mesh(out[1:-1], gloved)
    out[:, 2] = np.maximum(out[:, 2], floor_mm)
    return out


def _over_flange(foot: Points, flange: FlangePlan) -> SeamPart:
    """From the wall's foot the shortest way to the flange's edge."""
    start = shapely.Point(foot[:2])
    edge = shapely.LinearRing(flange.outline)
    end = edge.interpolate(edge.project(start))
    return SeamPart(np.array([[*foot[:2], 0.0], [end.x, end.y, 0.0]]), False)


def _point(place: Points) -> tuple[float, float, float]:
    x, y, z = (round(float(each), 1) for each in place)
    return (x, y, z)
