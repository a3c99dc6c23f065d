"""Stages: the original stands on the board, on its plinth where it needs one; the through-holes that rubber meets."""

from __future__ import annotations

from dataclasses import dataclass, replace

from moldwright.geometry.handles import Handle
from moldwright.mold.mouth import Mounted, MouthLimits, mount
from moldwright.original.mending.solid import Standing, stand
from moldwright.original.mending.through_holes import through_holes
from moldwright.original.standing.place import place
from moldwright.original.standing.stance import Stance
from moldwright.progress import Progress
from moldwright.scan.repairs import Repair
from moldwright.scan.scan import Scan

HANDLE_SHARE = 0.5
SHELL_STEP_MM = 1.0
SHELL_STEPS = 250
Up = str | tuple[float, float, float] | None


@dataclass(frozen=True, slots=True, eq=False)
class Settled:
    """The original on the board, how it was stood there, and its through-holes."""

    standing: Standing
    stance: Stance
    repairs: tuple[Repair, ...]
    handles: tuple[Handle, ...]


@dataclass(frozen=True, slots=True)
class Gaps:
    """The through-holes of the body as the rubber meets it: the original's, and those between its feet and plinth."""

    handles: tuple[Handle, ...]


def settle(
    scan: Scan, height_mm: float | None, unit: str | None, up: Up, board_mm: float | None, progress: Progress
) -> Settled:
    """Place the scan, make it one standing solid and find its through-holes.

    Parameters
    ----------
    scan : what was read.
    height_mm, unit, up, board_mm : how it stands, as the order says it.
    progress : told the stages; it may raise to cancel.
    """
    placed = place(scan, height_mm, unit, up, board_mm)
    standing = stand(placed.mesh, progress)
    handles = through_holes(standing.mesh, HANDLE_SHARE * standing.step_mm)
    return Settled(standing, placed.stance, placed.repairs, handles)


def mounted_on(settled: Settled, narrowest_mm: float, share_of_largest: float) -> Mounted:
    """The original on its mouth, or on the plinth that widens it.

    Parameters
    ----------
    settled : the original on the board.
    narrowest_mm, share_of_largest : the narrowest mouth that will do [mm, share of the largest section].
    """
    return mount(settled.standing.mesh, MouthLimits(narrowest_mm=narrowest_mm, share_of_largest=share_of_largest))


def gaps_of(settled: Settled, mounted: Mounted) -> Gaps:
    """The bare original's through-holes lifted onto its plinth, or all of the body's where the plinth makes more.

    Parameters
    ----------
    settled : the original on the board.
    mounted : the original on its plinth.
    """
    lift = float(mounted.original.bounds_mm[0][2])
    bare = tuple(replace(h, at=(h.at[0], h.at[1], h.at[2] + lift)) for h in settled.handles)
    if mounted.plinth is None:
        return Gaps(bare)
    whole = through_holes(mounted.body, HANDLE_SHARE * settled.standing.step_mm)
    return Gaps(whole if len(whole) > len(bare) else bare)


def shell_step(settled: Settled) -> float:
    """Sampling step of flange and shell: 1 mm, above 250 mm size / 250 [mm].

    Parameters
    ----------
    settled : the original.
    """
    low, high = settled.standing.mesh.bounds_mm
    return max(SHELL_STEP_MM, float((high - low).max()) / SHELL_STEPS)
