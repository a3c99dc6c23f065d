"""What a mold told of an original that is not known exactly, held against its true body: the plan's pieces laid on it.

The number of pieces, the draws and the seam are taken to the true body: coated on the planned plinth, packed where a
piece would catch, the shell built along the planned seam (`tests.held_truth`).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from math import ceil

from tests.held_truth import STEP_MM, Guessed, Laid, laid_on

from moldwright.commission.orders import Commission, MoldOrder, OriginalOrder
from moldwright.job import sources
from moldwright.job.costs import cost_by
from moldwright.job.doubted import doubted_about
from moldwright.job.doubting import MORE, mold_doubt, on_all
from moldwright.job.peel_way import way_of
from moldwright.job.pieces import recommended, tried_rows
from moldwright.job.planning import make_plan, shell_settings
from moldwright.job.shelling import split_settings
from moldwright.job.standing import gaps_of, mounted_on, settle
from moldwright.job.tried import tried_with
from moldwright.materials import library
from moldwright.materials.peel_limits import allowed_stretch
from moldwright.mold.flange import keyed
from moldwright.mold.glove import coat
from moldwright.mold.measures import Skin
from moldwright.mold.mouth import Mounted
from moldwright.mold.split_search import splits_about
from moldwright.mold.splits import Splits
from moldwright.plan.doubt import MoldDoubt
from moldwright.plan.flange import Point2
from moldwright.plan.known import Known
from moldwright.plan.peel import NOT_PEELED, PeelFound
from moldwright.progress import silent
from moldwright.quantities.quantities import basis_of
from moldwright.ranges import Range
from moldwright.store.memory import MemoryStore

FLANGE_MM = 40.0
SPLIT_STEPS, FEWER_CUT = 42, 60_000
NINE_TENTHS = 0.9
UNCOVERED = 0.05
"""Of the rubber so much may be left bare where the planned seam does not quite hold: common practice, no source."""


@dataclass(frozen=True, slots=True)
class Row:
    """What came of a body [ml]."""

    name: str
    true_ml: float
    told_ml: Range
    pieces: int
    packing_ml: Range
    laid: Laid
    sure: str

    @property
    def comes_off(self) -> bool:
        """Whether the plan's pieces come off the true mesh along the plan's draws and cover it."""
        return self.laid.free and self.laid.uncovered_share <= UNCOVERED

    @property
    def holds(self) -> bool:
        """Whether they do, with what is packed inside the told range."""
        return self.comes_off and self.packing_ml.low <= self.laid.packed_ml <= self.packing_ml.high

    @property
    def score(self) -> float:
        """How many times as far from the likely, upward, what is packed lies as solids and narrow recesses tell."""
        told = self.packing_ml
        return MORE * (self.laid.packed_ml - told.likely) / (told.high - told.likely)

    def __str__(self) -> str:
        told, packing, laid = self.told_ml, self.packing_ml, self.laid
        return (
            f"{' ' if self.holds else '!'} {self.name:14} {self.true_ml:7.1f} ml told {told.low:7.1f}-{told.high:7.1f}"
            f"  {self.pieces} pieces  packed {laid.packed_ml:6.2f} told {packing.low:6.2f}-{packing.high:6.2f}"
            f"  score {self.score:5.2f}  free {laid.free!s:5} overlap {laid.overlap_mm3:.2g} mm3"
            f"  bare {laid.uncovered_share:.3f}  {self.sure}"
        )


def score_needed(rows: Sequence[Row]) -> float:
    """By which nine of ten bodies like these lie in their ranges."""
    rank = ceil(NINE_TENTHS * (len(rows) + 1))
    return sorted(each.score for each in rows)[rank - 1]


@dataclass(frozen=True, slots=True)
class Reckoned:
    """What a plan says of the mold, and what it was reckoned with."""

    doubt: MoldDoubt
    pieces: int
    outline: tuple[Point2, ...]
    mounted: Mounted
    splits: Splits


def planned(order: Commission, found: Guessed) -> Reckoned:
    """By the whole plan."""
    known = Known(found.source, (), found.spread)
    made = make_plan(order, sources.solid_as_scan(found.mesh), library(), MemoryStore(), silent, known=known)
    assert made.plan.doubt is not None
    solids = made.solids
    pieces, outline = len(made.plan.shell.pieces), made.plan.flange.outline
    return Reckoned(made.plan.doubt, pieces, outline, solids.mounted.value, solids.splits.value)


def reckoned(order: Commission, found: Guessed) -> Reckoned:
    """The same stages without the shell's solids; the coats on a grid of 2 mm, fewer pairs of draws tried."""
    basis = basis_of(order, library())
    allowed = allowed_stretch(basis.chosen.rubber.elongation_pct.range)
    shell, peels_mm = shell_settings(basis.chosen.shell, order.mold), basis.chosen.rubber.glove_mm.high
    settled = settle(sources.solid_as_scan(found.mesh), None, None, None, 0.0, silent)
    mounted = mounted_on(settled, order.mold.mouth_width_mm, order.mold.mouth_share)
    coats = coat(mounted.body, tuple(each.thickness_mm for each in basis.coats), FLANGE_MM, STEP_MM)
    low, high = coats.with_flange(coats.flange.outline).bounds_mm
    step_mm = max(1.5, float((high - low).max()) / SPLIT_STEPS)
    asked = split_settings(coats.total_mm, peels_mm, shell.draft_deg)
    splits = splits_about(coats.with_flange(coats.flange.outline), shell.seam_flange_mm, coats.total_mm, step_mm, asked)
    volume, known = found.spread.volume, Known(found.source, (), found.spread)
    skin = Skin(0.5 * mounted.body.volume_ml, 0.0)
    tried = tried_with(mounted, settled, gaps_of(settled, mounted), skin, coats, splits, shell)
    doubted = doubted_about(mounted, coats, splits, shell, gaps_of(settled, mounted), peels_mm, volume, silent)
    cost = cost_by(order, library(), basis)
    pieces = recommended(tried_rows(on_all(tried, doubted), cost), order.shop.hour)
    built = next(each.measures for each in tried.rows if each.used == pieces)
    assert doubted.likely is not None
    stretch = doubted.likely.stretch[pieces - 1]
    shape = replace(NOT_PEELED.plan.shape, stretch=stretch)
    peel = PeelFound(replace(NOT_PEELED.plan, way=way_of(stretch, allowed), allowed=allowed, shape=shape))
    doubt = mold_doubt(tried, doubted, cost, order.shop.hour, built, peel, known)
    assert doubt is not None
    return Reckoned(doubt, pieces, keyed(coats.flange).outline, mounted, splits)


def row_of(name: str, found: Guessed, whole: bool = False) -> Row:
    """What came of a body, by the whole plan or by the same stages without the shell's solids."""
    order = Commission(sources.as_made(OriginalOrder(name)), mold=MoldOrder(flange_mm=FLANGE_MM))
    plan = planned(order, found) if whole else reckoned(order, found)
    basis = basis_of(order, library())
    total_mm = sum(each.thickness_mm for each in basis.coats)
    shell = shell_settings(basis.chosen.shell, order.mold)
    split = plan.splits.of(plan.pieces)
    laid = laid_on(found.body, found.mesh, plan.mounted, plan.outline, total_mm, FLANGE_MM, split, shell)
    likely_ml = found.mesh.volume_ml
    doubt = plan.doubt
    sure = "sure " + "+".join(doubt.sure) + "; unsure " + "+".join(doubt.unsure)
    told = found.spread.volume * likely_ml
    return Row(name, found.body.volume / 1000.0, told, plan.pieces, doubt.packing_ml, laid, sure)
