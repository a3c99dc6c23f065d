"""Flange and plinth as an obedient maker lays them: from the sentences of the steps and the foot that stands there."""

from __future__ import annotations

import re
from collections.abc import Iterable

import numpy as np
import trimesh
from shapely import Polygon, union_all

from moldwright.geometry.mesh import Mesh
from moldwright.units import length_mm

LENGTH = r"(\d[\d /.]*(?: mm| in))"


def lengths(pattern: str, text: str) -> list[float]:
    """The lengths that stand in the places of a sentence [mm]; `_` in the pattern is a place."""
    found = re.search(re.escape(pattern).replace("_", LENGTH), text)
    assert found, (pattern, text)
    return [length_mm(each) for each in found.groups()]


def foot_seen(standing: Mesh) -> Polygon:
    """The outline of what stands on the board, cut by trimesh half a millimeter up, without its holes."""
    body = trimesh.Trimesh(standing.vertices, standing.faces, process=False)
    path, _ = body.section(plane_origin=(0, 0, 0.5), plane_normal=(0, 0, 1)).to_2D(to_2D=np.diag([1, 1, 1, 1.0]))
    outline = union_all([loop for loop in path.polygons_closed if loop is not None])
    return max(getattr(outline, "geoms", [outline]), key=lambda part: part.area)


def flange_by_hand(text: str, foot: Polygon) -> Polygon:
    """The trimmed flange as the step tells it: the width out from the foot, inner corners rounded, then both cuts."""
    (width,) = lengths("level with the board (_ from the base)", text)
    edge = Polygon(foot.exterior).buffer(2 * width).buffer(-width)
    corner = np.array(foot.bounds[:2]) - width
    place = "from _ right and _ back"
    large = lengths(f"straight {place} of the frame's front left corner to _ right and _ back", text)
    small = lengths(f"Small, _ long: {place} to _ right and _ back", text)[1:]
    for cut in (large, small):
        start, end = corner + np.reshape(cut, (2, 2))
        edge = beyond_left_out(edge, start, end)
    return edge


def beyond_left_out(edge: Polygon, start: np.ndarray, end: np.ndarray) -> Polygon:
    """What a straight cut leaves: the side of it that the middle lies on."""
    along = (end - start) / np.linalg.norm(end - start)
    out = np.array([along[1], -along[0]])
    if out @ (np.array(edge.centroid.coords[0]) - start) > 0:
        out = -out
    a, b = start - 500 * along, end + 500 * along
    return edge.difference(Polygon([a, b, b + 900 * out, a + 900 * out]))


def ring(points: Iterable[tuple[float, float]]) -> Polygon:
    """A full-size drawing traced to a fifth of a millimeter."""
    return Polygon(np.round(np.array(list(points)) * 5) / 5)
