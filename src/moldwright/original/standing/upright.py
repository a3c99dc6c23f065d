"""Which way is up: as told, as the format says, on its open rim, or as the piece stands best."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from moldwright.errors import InputRefused
from moldwright.original.standing.direction import direction_of, in_commission
from moldwright.original.standing.hull import Hull
from moldwright.original.standing.opening import way_on_rim
from moldwright.original.standing.rim import Rim
from moldwright.original.standing.stance import UpBy
from moldwright.original.standing.ways import Way, same_way, ways_to_stand
from moldwright.scan.scan import Scan, Vector
from moldwright.ways import writes

Points = NDArray[np.float64]
TIE = 0.95
UP_UNCLEAR = "up-unclear"


@dataclass(frozen=True, slots=True, eq=False)
class Up:
    """The direction that will be z, and who says so."""

    direction: Points
    by: UpBy

    @property
    def told(self) -> bool:
        """Whether the maker said it."""
        return self.by is UpBy.COMMISSION


def find_up(scan: Scan, hull: Hull, rims: tuple[Rim, ...], up: str | Vector | None) -> Up:
    """The direction to use; a tie between ways to stand is refused with the candidates. Our own.

    Parameters
    ----------
    scan : what was read.
    hull : its hull.
    rims : its openings, in file units, largest first.
    up : as the maker says it; None where nobody does.
    """
    if up is not None:
        return Up(direction_of(up), UpBy.COMMISSION)
    ways = found_ways(scan, hull, rims)
    if not ways:
        raise _tied([], 'No side can it stand on. Say which way is up, as in up = "+y".')
    if len(ways) > 1:
        raise _tied([in_commission(way.direction) for way in ways], "")
    return ways[0]


def found_ways(scan: Scan, hull: Hull, rims: tuple[Rim, ...]) -> tuple[Up, ...]:
    """The direction that the scan itself tells, or several that are as likely, best first. Our own.

    The format's own goes first. Then the largest opening, where the piece can stand on it and no flat side is larger.
    Then the side with the most contact, and all within 5 % of it.

    Parameters
    ----------
    scan : what was read.
    hull : its hull.
    rims : its openings, in file units, largest first.
    """
    if scan.up is not None:
        return (Up(direction_of(scan.up), UpBy.FORMAT),)
    ways = ways_to_stand(scan.mesh, hull, rims)
    opening = _opening(scan, rims, ways)
    if opening is not None:
        large = [way for way in ways if way.flat and way.contact >= TIE * opening.contact]
        rivals = [way for way in large if not same_way(way.up, opening.up)]
        return (
            Up(opening.up, UpBy.OPENING),
            *(Up(way.up, UpBy.FLAT_AS_OPENING) for way in rivals),
        )
    by = UpBy.ONLY_SIDE if len(ways) == 1 else UpBy.FLATTEST_SIDE
    best = [way for way in ways if way.contact >= TIE * ways[0].contact]
    return tuple(Up(way.up, by) for way in best)


def _opening(scan: Scan, rims: tuple[Rim, ...], ways: tuple[Way, ...]) -> Way | None:
    """The way to stand on the largest opening, where no flat side is clearly larger."""
    up = way_on_rim(rims[0], scan.mesh.vertices, scan.mesh.area_mm2) if rims else None
    if up is None:
        return None
    larger = any(way.flat and TIE * way.contact > rims[0].size and not same_way(way.up, up) for way in ways)
    return None if larger else Way(up, rims[0].size, True)


def _tied(names: list[str], remedy: str) -> InputRefused:
    shown = " or ".join(writes("original.up", name) for name in names[:6])
    remedy = remedy or f"It stands as well on {len(names)} sides: say {shown}."
    return InputRefused(UP_UNCLEAR, len(names), 1, "directions", remedy)
