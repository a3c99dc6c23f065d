"""The original and its mouth, as the plan tells them."""

from __future__ import annotations

from dataclasses import dataclass

from moldwright.plan.flange import Point2
from moldwright.scan.repairs import Repair

Point = tuple[float, float, float]


@dataclass(frozen=True, slots=True)
class Hole:
    """A through-hole (handle) of the original: where it is, and how wide its opening."""

    at: Point
    width_mm: float


@dataclass(frozen=True, slots=True)
class OriginalPlan:
    volume_ml: float
    area_cm2: float
    height_mm: float
    watertight: bool
    source: str
    repairs: tuple[Repair, ...]
    holes: tuple[Hole, ...]
    resolution_mm: float
    error_mm: float


@dataclass(frozen=True, slots=True)
class PlinthPlan:
    """A block: its height, its sides as the least rectangle about it has them [mm], and its outline on the board."""

    height_mm: float
    length_mm: float
    breadth_mm: float
    outline: tuple[Point2, ...]
    volume_ml: float


@dataclass(frozen=True, slots=True)
class MouthPlan:
    area_mm2: float
    narrowest_mm: float
    loops: int
    plinth: PlinthPlan | None
