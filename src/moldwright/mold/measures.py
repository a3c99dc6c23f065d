"""What the finished solids measure: the numbers that quantities are reckoned from, by what was measured."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from math import fsum

from moldwright.geometry.seam_kind import Seam
from moldwright.mold.stand_found import StandFound
from moldwright.plan.flange import FlangePlan
from moldwright.plan.mold import LipPlan
from moldwright.plan.original import Hole, HoleTreat
from moldwright.plan.peel import NOT_PEELED, PeelFound
from moldwright.plan.stand import NoStand
from moldwright.plan.thickness import ThicknessPlan
from moldwright.ranges import NO_SPREAD, Spread

PASSES_MM = 3.0
"""The narrowest free width through which a back-fill is poured: common practice, no source."""

LEAST_DEPTH_MM = 0.4
"""What catches a piece of the shell less deep than this the rubber gives: our choice."""

Point = tuple[float, float, float]


class SpotKind(StrEnum):
    """Why a place is packed: a crevice that is bridged, or an undercut."""

    CREVICE = "crevice"
    UNDERCUT = "undercut"


@dataclass(frozen=True, slots=True)
class FillSpot:
    """One connected place that is packed with rubber so that the shell can draw.

    `at` is the point of the surface it makes where the rubber is pushed in, over its greatest depth, `depth_mm`.
    """

    at: Point
    depth_mm: float
    volume_ml: float
    kind: SpotKind


@dataclass(frozen=True, slots=True)
class PieceMeasures:
    """The bare original: volume [ml], surface above the board [mm2], own height and greatest width in plan [mm], and
    its through-holes, those between its feet and the plinth included."""

    volume_ml: float
    area_mm2: float
    height_mm: float
    widest_mm: float
    holes: tuple[Hole, ...]

    @property
    def dividers(self) -> tuple[Hole, ...]:
        """Holes wide enough for a divider."""
        return tuple(hole for hole in self.holes if hole.treat is HoleTreat.DIVIDER)

    @property
    def stopped(self) -> tuple[Hole, ...]:
        """Holes so narrow that they are stopped."""
        return tuple(hole for hole in self.holes if hole.treat is HoleTreat.STOP)


@dataclass(frozen=True, slots=True)
class CavityMeasures:
    """Original and plinth together, what a full cast fills [ml], its surface above the board [mm2]; the plinth's own
    volume [ml], height and sides [mm], 0 without one."""

    volume_ml: float
    area_mm2: float
    plinth_ml: float
    plinth_height_mm: float
    plinth_length_mm: float = 0.0
    plinth_breadth_mm: float = 0.0


@dataclass(frozen=True, slots=True)
class GloveMeasures:
    """Rubber: each coat on the walls, first coat first, from offset solids; what the flange adds beyond the coats;
    the fill: crevices bridged and undercuts packed. Their sum is the glove. `spots`: where it is packed, in the order
    of the work; what they leave of the fill is films and crumbs. `crevice_ml`: of the fill, what bridges crevices.
    `slopes`: how the coated surface slopes, as `mold.slopes.slopes_of` tells; none where nobody knows it.
    `thickness`: of the finished solid; None where there is none."""

    coat_ml: tuple[float, ...]
    flange_ml: float
    fill_ml: float
    spots: tuple[FillSpot, ...]
    crevice_ml: float
    slopes: tuple[float, ...] = ()
    thickness: ThicknessPlan | None = None

    @property
    def volume_ml(self) -> float:
        """The whole glove [ml]."""
        return sum(self.coat_ml) + self.flange_ml + self.fill_ml

    @property
    def crevice_share(self) -> float:
        """Share of the fill that is bridged crevices, 0 to 1."""
        return min(max(self.crevice_ml / self.fill_ml, 0.0), 1.0) if self.fill_ml > 0 else 0.0


@dataclass(frozen=True, slots=True)
class Push:
    """What a full mold presses on one piece of its shell with, as so much of the cast weighs [ml]: off along its draw,
    and up as the mold stands for pouring; below 0 the other way."""

    off_ml: float
    up_ml: float


@dataclass(frozen=True, slots=True)
class BareSeam:
    """A stretch of a seam without a bolt: how long it is [mm], and how many of its ends, 0 to 2, a bolt holds."""

    long_mm: float
    held_ends: int


@dataclass(frozen=True, slots=True)
class Fasteners:
    """What is bored and set in a printed shell.

    Parameters
    ----------
    seam_bolts, bolt_mm : through the flanges of its seam, and how long they are.
    stretches : of the seam, between bolts and beyond the last.
    keys : between bolts.
    base_bolts : through its base flange.
    """

    seam_bolts: int = 0
    bolt_mm: float = 0.0
    stretches: tuple[BareSeam, ...] = ()
    keys: int = 0
    base_bolts: int = 0


@dataclass(frozen=True, slots=True)
class PrintMeasures:
    """The plates of a printed shell, each part by its piece and its number; pins between parts; volume of all [ml]."""

    plates: tuple[tuple[tuple[int, int], ...], ...]
    pins: int
    volume_ml: float


@dataclass(frozen=True, slots=True)
class ShellBand:
    """A level band of what a piece of the shell covers: its surface [mm2], and how far round it is [mm]."""

    area_mm2: float
    girth_mm: float


def walls_mm2(area_mm2: float, seam_mm: float, flange_mm: float) -> float:
    """A shell's wall and both sides of its seam's flanges [mm2].

    Parameters
    ----------
    area_mm2 : what it covers.
    seam_mm, flange_mm : how long its seam and how wide its flange is; 0 where its pieces lap.

    Source: geometry.
    """
    return area_mm2 + 2.0 * seam_mm * flange_mm


@dataclass(frozen=True, slots=True)
class ShellMeasures:
    """The shell: the gloved surface that it covers, flange and base lip included [mm2], its own volume [ml], the seam's
    kind, how far it stands beyond the rubber on the board [mm].

    `edges_mm`: of each piece, first off first, how long the seam is up to which it is laid; `shares`: how much of the
    shell's volume it is; `pushes`: what a full mold presses on it; `bands`: what it covers above the flange, from there
    up; both none where nobody knows the solid; `fasteners` and `printed`: of a printed one; `lip`: on the board, as
    built. `seam_flange_mm` is the flange's width, 0 where the seam is lapped; `lap_mm` the lap's, 0 against a wall.
    `in_order`: its pieces come off in their order only, the way of one through the place of earlier ones.
    """

    area_mm2: float
    volume_ml: float
    seam: Seam
    edges_mm: tuple[float, ...]
    seam_flange_mm: float
    lap_mm: float
    base_lip_mm: float
    shares: tuple[float, ...] = (0.5, 0.5)
    pushes: tuple[Push, ...] = ()
    bands: tuple[tuple[ShellBand, ...], ...] = ()
    fasteners: Fasteners | None = None
    printed: PrintMeasures | None = None
    lip: LipPlan | None = None
    in_order: bool = False

    @property
    def pieces(self) -> int:
        """How many it is split in."""
        return len(self.shares)

    @property
    def seam_mm(self) -> float:
        """Length of all seams together [mm]."""
        return fsum(self.edges_mm)


@dataclass(frozen=True, slots=True)
class Skin:
    """Volume of the whole skin with all that is cast solid of its mix; of the core's part over the plinth, which stays
    in the finished piece; of what is deeper than the skin and yet not reached, and so counts as skin [ml]."""

    whole_ml: float
    core_kept_ml: float
    closed_ml: float = 0.0


@dataclass(frozen=True, slots=True)
class MoldMeasures:
    """Everything that is measured on a job's solids. `flange`: as it is laid; `skin`: all of the cast but its core;
    `spread`: how well the solids stand for the original; `peel`: how the glove comes off;
    `stand`: in which the mold is poured, or why there is none; None where none was looked for."""

    piece: PieceMeasures
    cavity: CavityMeasures
    flange: FlangePlan
    glove: GloveMeasures
    shell: ShellMeasures
    skin: Skin
    spread: Spread = NO_SPREAD
    peel: PeelFound = NOT_PEELED
    stand: StandFound | NoStand | None = None
