"""Necks: where the rubber must stretch far to pass over what is above."""

from __future__ import annotations

import numpy as np

from moldwright.geometry.mesh import Mesh
from moldwright.geometry.outline import section
from moldwright.geometry.solid import solid_of
from moldwright.mold.measures import NeckFinding

NECK_RATIO = 2.0
"""A stretch from which a slit is planned: common practice, no source."""
NECK_SECTIONS = 40
TOP_SHARE = 0.9
"""Above this share of the height nothing counts as a neck: our choice."""


def tightest_neck(body: Mesh) -> NeckFinding | None:
    """The neck over which the rubber must stretch most to peel off; None where it stretches less than twice.

    Parameters
    ----------
    body : original and plinth as one closed solid on z = 0 [mm].

    Source: our own (level sections only; a leaning neck is told too slack).
    """
    solid = solid_of(body)
    top = float(body.bounds_mm[1][2])
    heights = (np.arange(NECK_SECTIONS) + 0.5) * top / NECK_SECTIONS
    around = np.array([section(solid, float(z)).convex_hull.length for z in heights])
    above = np.maximum.accumulate(around[::-1])[::-1]
    ratio = above / np.maximum(around, 1e-6)
    low = int(np.argmax(np.where(heights < TOP_SHARE * top, ratio, 0)))
    if ratio[low] < NECK_RATIO:
        return None
    return NeckFinding(float(heights[low]), float(around[low]), float(above[low]), float(ratio[low]))
