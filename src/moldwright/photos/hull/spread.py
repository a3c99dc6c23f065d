"""How well the likely solid stands for the piece: factors at 90 % on its volume, its area and the rubber laid on it."""

from __future__ import annotations

from collections.abc import Sequence

from moldwright.geometry.mesh import Mesh
from moldwright.photos.ask import Ask
from moldwright.photos.hull.dig import wall_mm2
from moldwright.photos.hull.likely import Likely
from moldwright.ranges import Range, Spread

ONSET = 0.0075
AREA_LIKELY, AREA_LIKELY_MOST = 3.0, 0.05
AREA_OFF = 0.035
AREA_HIGH, AREA_HIGH_MORE, AREA_HIGH_MOST = 0.05, 14.0, 0.18
RUBBER_LOW, RUBBER_LOW_LESS, RUBBER_LOW_LEAST = 0.025, 2.0, 0.01
RUBBER_HIGH, RUBBER_HIGH_MORE, RUBBER_HIGH_MOST = 0.05, 14.0, 0.15
REFINED_AREA = Range(0.93, 1.0, 1.07)
REFINED_RUBBER = Range(0.95, 1.0, 1.07)
UNSEEN_SHARE = 0.05
"""How much of what may be missing from the hull lies in recesses so narrow that they are packed: our choice."""


def spread_of(likely: Likely, base: Mesh, photos_ml: Range, opened: Sequence[Ask] = ()) -> Spread:
    """Factors on what is measured on the likely solid.

    Parameters
    ----------
    likely : what the hull tells.
    base : the hull, with the recesses that speckles told where they did [mm].
    photos_ml : the piece's volume by its photos.
    opened : bowls that may be there: they widen all.

    Source: our own, docs/decisions/0043.
    """
    volume = photos_ml * (1.0 / photos_ml.likely)
    unseen = UNSEEN_SHARE * base.volume_ml * (likely.of_hull.likely - likely.of_hull.low)
    walls = sum(wall_mm2(ask) for ask in opened) / base.area_mm2
    area, rubber = (REFINED_AREA, REFINED_RUBBER) if likely.refined else _by_excess(likely)
    return Spread(volume, _up_to(area, walls), _up_to(rubber, walls), unseen)


def _up_to(factor: Range, more: float) -> Range:
    return Range(factor.low, factor.likely, factor.high + more)


def _by_excess(likely: Likely) -> tuple[Range, Range]:
    """Factors on area and rubber where outlines alone tell the form."""
    more = max(0.0, likely.half_excess - ONSET)
    usual = 1.0 + min(AREA_LIKELY * more, AREA_LIKELY_MOST)
    area_high = 1.0 + min(AREA_HIGH + AREA_HIGH_MORE * more, AREA_HIGH_MOST)
    rubber_low = 1.0 - max(RUBBER_LOW - RUBBER_LOW_LESS * more, RUBBER_LOW_LEAST)
    rubber_high = 1.0 + min(RUBBER_HIGH + RUBBER_HIGH_MORE * more, RUBBER_HIGH_MOST)
    return Range(1.0 - AREA_OFF, usual, area_high), Range(rubber_low, 1.0, rubber_high)
