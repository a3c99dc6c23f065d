"""How well the likely solid stands for the piece: factors at 90 % on its volume, its area and the rubber laid on it."""

from __future__ import annotations

from moldwright.geometry.mesh import Mesh
from moldwright.photos.hull.likely import Likely
from moldwright.ranges import Range, Spread

AREA_LIKELY, AREA_OFF = 1.01, 0.05
RUBBER_OFF = 0.05


def spread_of(likely: Likely, hull: Mesh, solid: Mesh) -> Spread:
    """Factors on what is measured on the likely solid.

    Parameters
    ----------
    likely : what the hull tells.
    hull : the largest body that fits in all outlines [mm].
    solid : the likely one [mm].

    Source: our own, docs/decisions/0036.
    """
    share = likely.of_hull
    volume = Range(share.low / share.likely, 1.0, share.high / share.likely)
    unseen = max(0.0, hull.volume_ml * (share.likely - share.low))
    return Spread(
        volume=volume,
        area=Range(AREA_LIKELY - AREA_OFF, AREA_LIKELY, AREA_LIKELY + AREA_OFF),
        rubber=Range(1.0 - RUBBER_OFF, 1.0, 1.0 + RUBBER_OFF),
        unseen_ml=unseen,
    )
