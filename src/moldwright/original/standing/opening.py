"""An open scan stands on its open rim, and a large hole elsewhere is asked about."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from moldwright.errors import InputRefused
from moldwright.original.standing.direction import in_commission, rotation_to_z, snapped
from moldwright.original.standing.rim import Rim, base_rim
from moldwright.ways import writes

Points = NDArray[np.float64]
LARGE_HOLE = "large-hole"
LARGE_SHARE = 0.02
FLAT_SHARE = 0.1


def way_on_rim(rim: Rim, vertices: Points, surface: float) -> Points | None:
    """The direction that is up where the piece stands on an opening, (3,); None where it cannot. Our own.

    The opening must take 2 % of the surface or more, its rim lie within a tenth of its own width of a plane, and begin
    in the lowest tenth of the piece as it then stands (common practice, no source).

    Parameters
    ----------
    rim : the opening.
    vertices : (n, 3) of the scan, same unit.
    surface : area of the scan, same unit squared.
    """
    if rim.size < LARGE_SHARE * surface:
        return None
    normal = rim.area / rim.size
    middle = rim.points.mean(axis=0)
    width = float(np.linalg.norm(np.ptp(rim.points, axis=0)))
    if float(np.abs((rim.points - middle) @ normal).max()) > FLAT_SHARE * width:
        return None
    up = snapped(normal * (1.0 if float((vertices.mean(axis=0) - middle) @ normal) >= 0 else -1.0))
    turn = rotation_to_z(up)
    turned = vertices @ turn.T
    return None if base_rim((rim.turned(turn),), turned.min(axis=0), turned.max(axis=0)) is None else up


def ways_on_rims(rims: tuple[Rim, ...], vertices: Points, surface: float) -> tuple[Points, ...]:
    """The directions that are up on each opening that the piece can stand on, largest opening first; our own.

    Parameters
    ----------
    rims : the openings.
    vertices : (n, 3) of the scan, same unit.
    surface : area of the scan, same unit squared.
    """
    found = (way_on_rim(rim, vertices, surface) for rim in rims if rim.size >= LARGE_SHARE * surface)
    return tuple(up for up in found if up is not None)


def large_holes(rims: tuple[Rim, ...], cut: float, surface: float) -> tuple[Rim, ...]:
    """The openings above the cut that take 2 % of the surface or more: they would be closed by guess. Our own.

    Parameters
    ----------
    rims : openings of the scan turned as it stands, z up.
    cut : height of the cut, same unit.
    surface : area of the scan, same unit squared.
    """
    return tuple(rim for rim in rims if rim.size >= LARGE_SHARE * surface and float(rim.points[:, 2].mean()) > cut)


def hole_refused(hole: Rim, surface: float, ways: tuple[Points, ...]) -> InputRefused:
    """The refusal where a large hole would be closed and nobody said which way is up.

    Parameters
    ----------
    hole : the largest opening above the board.
    surface : area of the scan, same unit squared.
    ways : (3,) each; what the maker may say, the way it would stand first.

    Source: our own.
    """
    first, *others = (writes("original.up", in_commission(way)) for way in ways)
    other = f", {' or '.join(others[:5])} if it stands on the hole" if others else ""
    return InputRefused(
        LARGE_HOLE,
        round(100 * hole.size / surface, 1),
        100 * LARGE_SHARE,
        "% of the surface",
        f"The scan has a large hole away from the board: say {first} if it stands like that "
        f"and the hole may be closed flat{other}; or close the hole in the scan.",
    )
