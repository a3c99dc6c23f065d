"""Where on its surface a quantity is least and where it is most."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from moldwright.plan.thickness import LengthAt
from moldwright.told.surfaces.legend import SurfaceLegend

Points = NDArray[np.float64]
MANY_SHARE, NEAR_SHARE = 0.01, 0.02
"""Where more than this share of the surface is within so much of the whole width of an end, no place is marked: our
own."""
Ends = tuple[LengthAt | None, LengthAt | None]


def ends_of(places: Points, values: Points, areas: Points, told: Ends | None) -> Ends:
    """Where it is least and most; None where much of the surface is about as little or as much.

    Parameters
    ----------
    places : (n, 3) of the surface [mm].
    values : (n,) there, NaN for none.
    areas : (n,) what each place stands for.
    told : what the plan tells of it; None: both are found.
    """
    return told or (_end(places, values, areas, -1.0), _end(places, values, areas, 1.0))


def holding(legend: SurfaceLegend, most: LengthAt | None) -> SurfaceLegend:
    """The legend, its last leaf saying that it holds more, where the place of the most lies beyond it.

    Parameters
    ----------
    legend : of the surface.
    most : where it is most.
    """
    beyond = most is not None and most.mm > legend.limits_mm[-1]
    return replace(legend, above=True) if beyond else legend


def _end(places: Points, values: Points, areas: Points, sense: float) -> LengthAt | None:
    """The least (sense -1) or the most (1)."""
    known = np.isfinite(values)
    if not known.any():
        return None
    upward = np.where(known, sense * values, -np.inf)
    at = int(upward.argmax())
    width = float(np.ptp(values[known]))
    near = known & (upward >= upward[at] - NEAR_SHARE * width)
    if areas[near].sum() > MANY_SHARE * areas[known].sum():
        return None
    x, y, z = places[at].tolist()
    return LengthAt(float(values[at]), (x, y, z))
