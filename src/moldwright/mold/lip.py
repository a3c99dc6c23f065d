"""How far a finished shell's lip stands beyond the rubber's edge on the board."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import shapely
from shapely import Polygon

from moldwright.geometry.mesh import Mesh
from moldwright.geometry.outline import section
from moldwright.geometry.solid import solid_of
from moldwright.mold.glove import Outline
from moldwright.mold.shell_settings import ShellSettings
from moldwright.plan.mold import LipPlan

EVERY_MM = 1.0
"""The rubber's edge is asked so often [mm]: our choice."""
WIDER = 1.1
"""The room between two pieces that face each other is closed with so much to spare: our choice."""


def lip_reach(
    pieces: Sequence[Mesh], outline: Outline, floor_mm: float, s: ShellSettings, clearance_mm: float
) -> LipPlan:
    """Where the lip is least, and along how much of the rubber's edge it is too short.

    Level, through the middle of the lip: from each point of the rubber's edge the nearest way out of rubber and shell
    together. The narrow room in which two pieces face each other counts as shell, as one is laid against the other.

    Parameters
    ----------
    pieces : the finished ones, closed [mm].
    outline : (n, 2) edge of the rubber flange seen from above [mm].
    floor_mm : top of the rubber flange, on which the shell stands [mm].
    s : the shell's dimensions: how thick its lip is, how far it should stand out at the least.
    clearance_mm : half the room between two pieces [mm].

    Source: our own, through manifold3d and shapely.
    """
    rubber = Polygon(outline)
    level_mm = floor_mm + clearance_mm + (s.wall_mm - clearance_mm) / 2
    laid = shapely.union_all([rubber, *(section(solid_of(piece), level_mm) for piece in pieces)])
    half_mm = WIDER * clearance_mm
    whole = laid.buffer(half_mm, join_style="mitre").buffer(-half_mm, join_style="mitre")
    body = max(getattr(whole, "geoms", [whole]), key=lambda part: float(part.area))
    along = np.arange(0.0, rubber.length, EVERY_MM)
    points = shapely.line_interpolate_point(rubber.exterior, along)
    reach_mm = shapely.distance(points, body.exterior)
    least = int(np.argmin(reach_mm))
    short_mm = float((reach_mm < s.least_lip_mm).sum()) * rubber.length / len(along)
    x, y = (round(float(value), 1) for value in points[least].coords[0])
    return LipPlan(round(float(reach_mm[least]), 1), (x, y, round(floor_mm, 1)), round(short_mm, 1), s.least_lip_mm)
