"""What a first look at a scan tells, in seconds and before anything is planned."""

from __future__ import annotations

from dataclasses import dataclass

from moldwright.plan.assumptions import Assumption
from moldwright.plan.original import Hole, MouthPlan
from moldwright.scan.repairs import Repair


@dataclass(frozen=True, slots=True)
class Look:
    """The scan as it would stand on the board.

    Parameters
    ----------
    file : the scan's file name.
    format : "stl", "ply", "obj", "off", "glb" or "3mf".
    size_mm : width, depth and height as it stands [mm].
    triangles : triangles in the file.
    bodies : connected bodies in the file.
    watertight : whether the file's mesh is closed as it is.
    volume_ml : volume above the board [ml].
    area_cm2 : surface above the board [cm2].
    mouth : where the original meets the board; its plinth is None or the one that would be planned.
    undercut_one_ml : rubber that would have to fill undercuts if one shell piece drew straight up, roughly [ml].
    undercut_two_ml : the same with two pieces along the best pair of draws looked at, roughly [ml].
    holes : through-holes (handles) and what each needs.
    repairs : what would be mended.
    said : what nobody gave and was found or taken as default.
    """

    file: str
    format: str
    size_mm: tuple[float, float, float]
    triangles: int
    bodies: int
    watertight: bool
    volume_ml: float
    area_cm2: float
    mouth: MouthPlan
    undercut_one_ml: float
    undercut_two_ml: float
    holes: tuple[Hole, ...]
    repairs: tuple[Repair, ...]
    said: tuple[Assumption, ...]
