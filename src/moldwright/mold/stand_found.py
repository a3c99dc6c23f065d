"""What was found of the stand for pouring: its boards, and what tips it, as values."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from math import atan2, degrees, hypot

from moldwright.plan.stand import NoStand, StandBoard

Place = tuple[float, float, float]


@dataclass(frozen=True, slots=True)
class Load:
    """So much volume [ml] and its middle: across the board as the mold stands on it, and up from the table [mm]."""

    volume_ml: float
    at: Place


@dataclass(frozen=True, slots=True)
class StandFound:
    """The stand and what it carries.

    Parameters
    ----------
    boards : none where the shell stands by itself.
    thick_mm, gap_mm, mouth_mm : see `plan.stand.StandPlan`.
    rests_on : where the mold rests, in order round; `foot`: where all stands on the table.
    shell, glove : what it carries, empty; `filled`: the cast, poured to one height after another.
    """

    boards: tuple[StandBoard, ...]
    thick_mm: float
    gap_mm: float
    mouth_mm: float
    rests_on: tuple[Place, ...]
    foot: tuple[Place, ...]
    shell: Load
    glove: Load
    filled: tuple[Load, ...]

    def tips_deg(self, shell_g_ml: float, glove_g_ml: float, cast_g_ml: float) -> float:
        """By how much it must be tilted to fall over, empty or filled to any height [deg].

        The mold tips over an edge of where it rests, the stand with it over an edge of its foot:
        `tan a = d / (z - z_edge)` for a middle of mass that is d inside of an edge and z up. The stand itself counts
        as weightless.

        Parameters
        ----------
        shell_g_ml, glove_g_ml, cast_g_ml : densities [g/ml].

        Source: statics.
        """
        empty = ((self.shell, shell_g_ml), (self.glove, glove_g_ml))
        middles = [_middle(empty), *(_middle((*empty, (cast, cast_g_ml))) for cast in self.filled)]
        return min(tilt_deg(at, edges) for at in middles for edges in (self.rests_on, self.foot))


def _middle(loads: Iterable[tuple[Load, float]]) -> Place:
    every = [(load.volume_ml * density, load.at) for load, density in loads]
    whole = sum(mass for mass, _ in every)
    x, y, z = (sum(mass * at[k] for mass, at in every) / whole for k in range(3))
    return x, y, z


def tilt_deg(middle: Place, rests_on: Sequence[Place]) -> float:
    """By how much a body is tilted until its middle of mass stands over an edge of where it rests [deg].

    `tan a = d / (z - z_edge)`, least of all edges; below 0 where it stands beside them. Of an edge that slopes its
    lower end counts.

    Parameters
    ----------
    middle : of its mass [mm].
    rests_on : corners in order round, counterclockwise [mm].

    Source: statics.

    >>> round(tilt_deg((0.0, 0.0, 200.0), ((-60, -60, 0), (60, -60, 0), (60, 60, 0), (-60, 60, 0))), 2)
    16.7
    """
    tilts = []
    for (ax, ay, az), (bx, by, bz) in zip(rests_on, (*rests_on[1:], rests_on[0]), strict=True):
        inside = ((bx - ax) * (middle[1] - ay) - (by - ay) * (middle[0] - ax)) / max(hypot(bx - ax, by - ay), 1e-9)
        tilts.append(degrees(atan2(inside, middle[2] - min(az, bz))))
    return min(tilts)


@dataclass(frozen=True, slots=True)
class StandSought:
    """What came of looking for a stand: the one that was found, or why there is none."""

    found: StandFound | NoStand
