"""The glove, its fill and the shell, as the plan tells them."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from enum import StrEnum

from moldwright.geometry.seam_kind import Seam
from moldwright.plan.coats import CoatHold, CoatPlan
from moldwright.plan.ids import CoatId, SpotId
from moldwright.plan.peel import PeelPlan, SlitPlan
from moldwright.plan.seam import SeamPlan
from moldwright.plan.strain import StrainPlan
from moldwright.plan.thickness import ThicknessPlan
from moldwright.ranges import Range

Point = tuple[float, float, float]

NOT_LAID = Range.exactly(0.0)
"""No thickness [mm]."""
MOST_PIECES = 4
"""A shell's pieces at the most: common practice, no source."""


@dataclass(frozen=True, slots=True)
class PartPlan:
    """Rubber that is no coat: the flange or the fill."""

    volume_ml: float
    net_g: float
    mixed_g: Range


@dataclass(frozen=True, slots=True)
class SpotPlan:
    """One place where rubber is packed: the point of the surface where it is pushed in, the greatest depth under that
    surface [mm], how much, and after which coat."""

    id: SpotId
    at: Point
    depth_mm: float
    volume_ml: float
    net_g: float
    after: CoatId


@dataclass(frozen=True, slots=True)
class SmallSpots:
    """What is packed after one coat in places too small for a number, films in creases and crumbs included."""

    count: int
    volume_ml: float
    net_g: float
    after: CoatId


@dataclass(frozen=True, slots=True)
class GlovePlan:
    """The rubber. `spots` and `small_spots` together are the fill. `holds`: how thick each coat stays wet. `slit`:
    where it is, None where it needs none; `peel`: how it comes off; `thickness`: of the finished glove, as measured;
    `strain`: how far all of it stretches, None where it is slit."""

    volume_ml: Range
    coats: tuple[CoatPlan, ...]
    flange: PartPlan
    fill: PartPlan
    spots: tuple[SpotPlan, ...]
    small_spots: tuple[SmallSpots, ...]
    holds: tuple[CoatHold, ...]
    slit: SlitPlan | None
    peel: PeelPlan
    thickness: ThicknessPlan | None = None
    strain: StrainPlan | None = None


@dataclass(frozen=True, slots=True)
class PiecePlan:
    """One piece of the shell; `file` relative to the plan's folder, `draw` a unit vector.

    `edge_mm`: how long the seam is up to which it is laid, against all that are laid after it; none of piece 1.
    """

    file: str
    draw: Point
    fill_ml: float
    volume_ml: float
    edge_mm: float


@dataclass(frozen=True, slots=True)
class RemovalPlan:
    """The proof that the pieces come off; `in_order`: first piece first, while the later ones stand, else in any."""

    checked: bool
    in_order: bool
    overlap_mm3: float
    offsets: int
    rays: int
    rays_blocked: int
    control_overlap_mm3: float


@dataclass(frozen=True, slots=True)
class LipPlan:
    """The lip of the finished shell on the board: how far it stands beyond the rubber's edge where it does least, where
    that is, along how much of the edge it is less than it should be, and what that is by the shell's sheet [mm]; 0
    where an older plan does not say."""

    least_mm: float
    at: Point
    short_mm: float
    wanted_mm: float = 0.0


@dataclass(frozen=True, slots=True)
class PiecesSearched:
    """The cheapest shell found in at most so many pieces.

    Parameters
    ----------
    pieces : at most.
    used : of them: fewer where one more gains nothing.
    fill_ml : rubber to pack, over the grids on which it was searched and cut.
    stiff_ml : of it, what makes the glove so thick that it does not roll.
    seam_mm : how long its seams are.
    energy : what was weighed in the search [ml]: the rubber, and each millimeter of seam as so much of it.
    in_order : they come off in the order of their numbers: the way of one leads through the place of earlier ones.
    """

    pieces: int
    used: int
    fill_ml: Range
    stiff_ml: float
    seam_mm: float
    energy: float
    in_order: bool


@dataclass(frozen=True, slots=True)
class PiecesTried(PiecesSearched):
    """The same with what it costs; of the number that was built, all as built.

    Parameters
    ----------
    labor_min, material : hands and material of the whole edition, with as many molds as it takes; of a number that was
        not built, as much more or less than of the built one as was searched.
    rolls : whether the glove rolls: little of it is stiff, or none of fewer pieces is.
    """

    labor_min: float
    material: Decimal
    rolls: bool


@dataclass(frozen=True, slots=True)
class ShellPlan:
    """The support shell: its pieces, first off first, and the seam between them.

    `seam_mm` leaves out what dividers part in through-holes. `seam_flange_mm`: how wide each piece's flange is at a
    seam against a wall, 0 where it is lapped; `lap_mm`: how far a piece reaches over those after it, at most;
    `lap_left_out_share`: of the lap, because it would hook; `lip_mm`: how far it stands beyond the rubber's edge on the
    board, and `lip` as built, None where nobody measured it; `tradeoff`: what one to four pieces would take;
    `recommended`: how many cost the least of those with which the glove rolls, 0 where nothing was tried;
    `level_cuts_mm`: heights of the level cuts that were asked for, none: at shares of the height.
    """

    pieces: tuple[PiecePlan, ...]
    seam: Seam
    seam_mm: float
    seam_line: SeamPlan
    seam_flange_mm: float
    lap_mm: float
    lap_left_out_share: float
    lip_mm: float
    thickness_mm: float
    removal: RemovalPlan
    lip: LipPlan | None = None
    tradeoff: tuple[PiecesTried, ...] = ()
    recommended: int = 0
    level_cuts_mm: tuple[float, ...] = ()

    @property
    def joined(self) -> bool:
        """Whether it has a seam."""
        return len(self.pieces) > 1


class StripUse(StrEnum):
    """What a strip is for: layers that go round, and that stand upright across them; one more along the base; the lap;
    all over, where nobody knows the solid."""

    ROUND = "round"
    UPRIGHT = "upright"
    BASE = "base"
    LAP = "lap"
    FIELD = "field"


@dataclass(frozen=True, slots=True)
class StripCut:
    """So many strips of one use, length and width [mm]; a narrow one is half a roll wide."""

    use: StripUse
    length_mm: float
    width_mm: float
    count: int


@dataclass(frozen=True, slots=True)
class PlyCut:
    """So many single plies of one length, as wide as the roll [mm]."""

    length_mm: float
    count: int


@dataclass(frozen=True, slots=True)
class RollCut:
    """So many rolls that are cut alike: `cuts` what each gives."""

    rolls: int
    cuts: tuple[PlyCut, ...]


@dataclass(frozen=True, slots=True)
class StripsOfPiece:
    """What one piece of the shell takes: strips, all and by use and size, and dipping water in a bowl of its own."""

    strips: int
    water_ml: float
    cuts: tuple[StripCut, ...] = ()


@dataclass(frozen=True, slots=True)
class BandagePlan:
    """`dry_g`: bandage to lay, waste included; `set_g`: the shell of it, set and dry; `water_ml` for all pieces, and
    `pieces` what each takes, first off first; `strip_length_mm`: the longest strip; `on_rolls`: how the rolls are cut;
    `laid_mm`: how thick all layers together come out."""

    plies: int
    layers: int
    strips: int
    strip_length_mm: float
    strip_width_mm: float
    rolls: int
    dry_g: float
    set_g: Range
    water_ml: float
    pieces: tuple[StripsOfPiece, ...]
    on_rolls: tuple[RollCut, ...] = ()
    laid_mm: Range = NOT_LAID


@dataclass(frozen=True, slots=True)
class MatsOfPiece:
    """Squares of matting for one layer of a piece of the shell, what that layer covers [mm2], and the mass of all its
    layers [g]."""

    squares: int
    area_mm2: float
    mass_g: float


@dataclass(frozen=True, slots=True)
class MatsPlan:
    """Matting in a shell of gypsum: squares `edge_mm` long and wide, that lap `lap_mm`, in so many of its `layers`; the
    mass of all of it, waste included [g]; `pieces`: of the shell, first off first."""

    layers: int
    matted: int
    edge_mm: float
    lap_mm: float
    mass_g: Range
    pieces: tuple[MatsOfPiece, ...]


@dataclass(frozen=True, slots=True)
class PartingPlan:
    """What keeps shell, seam and glove apart [g]: paste wax on rubber and seam; talc for one peeling; clay for the
    wall along the seam, none at a lapped seam and under a printed shell."""

    wax_g: Range
    talc_g: Range
    clay_g: Range
