"""Spring clamps that hold the closed shell and the glove's flange."""

from __future__ import annotations

from math import ceil

from moldwright.geometry.seam_kind import Seam
from moldwright.mold.measures import MoldMeasures

CLAMP_EVERY_MM = 100.0
"""One clamp for so much of an edge: common practice, no source."""


def clamps(measures: MoldMeasures) -> int:
    """How many clamps: one every 100 mm of the flange's edge, and of a seam whose pieces meet in two flanges.

    Parameters
    ----------
    measures : the flange's edge, the seam's kind and length

    Source: common practice, no source.
    """
    seam_mm = measures.shell.seam_mm if measures.shell.seam is Seam.WALL else 0.0
    return ceil(measures.flange.edge_mm / CLAMP_EVERY_MM) + ceil(seam_mm / CLAMP_EVERY_MM)
