"""The ways up that a maker may mean, where a scan alone does not tell."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from moldwright.original.standing.hull import hull_of
from moldwright.original.standing.opening import ways_on_rims
from moldwright.original.standing.rim import rims_of_scan
from moldwright.original.standing.specks import without_specks
from moldwright.original.standing.upright import found_ways
from moldwright.original.standing.ways import distinct, ways_to_stand
from moldwright.scan.scan import Scan

Points = NDArray[np.float64]


def candidates(scan: Scan, most: int = 6) -> tuple[Points, ...]:
    """Directions that may be up, (3,) each, the likeliest first: as found, on large openings, on any stable side.

    Sides that are no better than half the best are left out where there are better ones. Our own.

    Parameters
    ----------
    scan : what was read.
    most : no more than these.

    Source: our own.
    """
    scan, _ = without_specks(scan)
    hull = hull_of(scan.mesh.vertices)
    if hull is None:
        return ()
    rims = rims_of_scan(scan)
    found = [way.direction for way in found_ways(scan, hull, rims)]
    on_rims = ways_on_rims(rims, scan.mesh.vertices, scan.mesh.area_mm2)
    sides = ways_to_stand(scan.mesh, hull, rims)
    good = [side.up for side in sides if side.contact >= 0.5 * sides[0].contact] if len(found) < 2 else []
    return distinct((*found, *on_rims, *good))[:most]
