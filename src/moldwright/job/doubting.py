"""What is told of a mold whose original is not known exactly: for all solids that it could be, and what is sure."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from decimal import Decimal
from math import hypot

from moldwright.job.costs import Cost
from moldwright.job.peel_way import way_of
from moldwright.job.pieces import recommended, rolls_below_ml, tried_rows
from moldwright.job.searched import Doubted, OnSolid, Searched, Tried
from moldwright.mold.measures import GloveMeasures, MoldMeasures
from moldwright.plan.doubt import Hollow, Matter, MoldDoubt, Settle, Shape, SolidTried
from moldwright.plan.known import Known
from moldwright.plan.original import Source
from moldwright.plan.peel import PeelFound, PeelWay
from moldwright.ranges import Range

CAUGHT_SHARE = 0.02
"""Up to so much of a shell may be left out where its seam does not hold, and it holds all the same: our own."""
SURE_ML, SURE_SHARE = 3.0, 0.02
"""What is packed is sure within so much, or within this share of the coats' rubber: our own."""
CREVICE_SHARE = 0.02
"""Of the coats' rubber so much more may bridge crevices too narrow for the solids' grid: docs/decisions/0074."""
SPANNED_SHARE = 0.55
"""By a tape, of the coats' rubber so much more may be packed in what it spans, between its levels, at limbs:
docs/decisions/0085."""
WORTH_SHARE = 0.05
"""A hollow is worth a measurement if it takes so much of what may be packed beyond the likely: our own."""
WIDE_SHARE = 0.25
"""Where a volume may be off by more, nothing of its mold is sure: our own."""
LEAST_SHARE = 0.7
"""What is packed may always be less by this: a hand packs what it sees; our own."""
MORE = 1.7
"""What may be packed goes so many times as far from the likely as solids and narrow recesses tell, in nine of ten: the
tenth of the scores of ten bodies of our own, split conformal; docs/decisions/0074."""
CostOf = Callable[[MoldMeasures], Cost]


def on_all(tried: Tried, doubted: Doubted) -> Tried:
    """What was tried, with the rubber to pack over all solids, and the most of them that would be stiff.

    Parameters
    ----------
    tried : on the likely solid.
    doubted : the others; none: the same is returned.
    """
    if doubted.likely is None:
        return tried
    return Tried(tuple(_on_all(row, doubted.likely, doubted.others) for row in tried.rows))


def _on_all(row: Searched, likely: OnSolid, others: tuple[OnSolid, ...]) -> Searched:
    n = row.used - 1
    more = [other.fill_ml[n] - likely.fill_ml[n] for other in others]
    stiff = [other.stiff_ml[n] - likely.stiff_ml[n] for other in others]
    return replace(row, fill_ml=over(row.fill_ml, more), stiff_ml=row.stiff_ml + max(0.0, *stiff))


def over(likely: Range, more: list[float], narrow_ml: float = 0.0) -> Range:
    """A range that holds what it held, and what solids add to its likely value or take from it. What recesses add that
    the solids' grid does not show is as doubtful for reasons of its own: the two add as squares.

    Parameters
    ----------
    likely : on the likely solid [ml].
    more : what each other solid adds [ml].
    narrow_ml : what narrow recesses may add [ml].

    >>> over(Range(9.0, 10.0, 11.0), [-2.0, 3.0], 4.0)
    Range(low=6.6, likely=10.0, high=18.5)
    """
    low = likely.likely + MORE * min(0.0, *more)
    high = likely.likely + MORE * hypot(max(0.0, *more), narrow_ml)
    return Range(max(min(likely.low, low), 0.0), likely.likely, max(likely.high, high))


def on_one(tried: Tried, likely: OnSolid, other: OnSolid) -> Tried:
    """What was tried, were the original that solid.

    Parameters
    ----------
    tried : on the likely solid.
    likely, other : the solids.
    """
    return Tried(tuple(_on_one(row, likely, other) for row in tried.rows))


def _on_one(row: Searched, likely: OnSolid, other: OnSolid) -> Searched:
    n = row.used - 1
    more_ml = other.fill_ml[n] - likely.fill_ml[n]
    glove = row.measures.glove
    fill_ml = max(glove.fill_ml + more_ml, 0.0)
    return replace(
        row,
        stiff_ml=max(row.stiff_ml + other.stiff_ml[n] - likely.stiff_ml[n], 0.0),
        measures=replace(row.measures, glove=replace(glove, fill_ml=fill_ml)),
    )


def mold_doubt(
    tried: Tried, doubted: Doubted, cost: CostOf, hour: Decimal, built: MoldMeasures, peel: PeelFound, known: Known
) -> MoldDoubt | None:
    """What holds on all solids, and what does not; None where the original is known.

    Parameters
    ----------
    tried : on the likely solid, as it was searched.
    doubted : the others.
    cost : of a job by its measures.
    hour : what an hour of hands costs.
    built : measures of the mold that is planned.
    peel : how its glove comes off.
    known : what the original is known by.
    """
    likely, n = doubted.likely, built.shell.pieces - 1
    if likely is None:
        return None
    solids = tuple(_tried(tried, likely, other, cost, hour, built, peel) for other in doubted.others)
    best = recommended(tried_rows(on_all(tried, doubted), cost), hour)
    packing = _packing(built.glove, likely, doubted.others, n, known)
    below_ml = rolls_below_ml(tried)
    least_ml = SURE_ML + SURE_SHARE * sum(built.glove.coat_ml)
    wide = _too_wide(known.spread.volume)

    def holds(matter: Matter, solid: SolidTried) -> bool:
        match matter:
            case Matter.PIECES:
                return solid.pieces == best
            case Matter.SEAM:
                return solid.caught_share <= CAUGHT_SHARE
            case Matter.ROLLS:
                return solid.stiff_ml <= below_ml
            case Matter.PACKING:
                return MORE * abs(solid.packing_ml - built.glove.fill_ml) <= least_ml
            case Matter.PEEL:
                return (solid.way is PeelWay.SLIT) is (peel.plan.way is PeelWay.SLIT)

    broken = {matter: [solid.shape for solid in solids if wide or not holds(matter, solid)] for matter in Matter}
    untold = tuple(matter for matter in _untold(known) if not broken[matter])
    unsure = tuple(matter for matter in Matter if broken[matter] or matter in untold)
    hollows = _worth(doubted.hollows[n] if doubted.hollows else (), packing)
    tight = max((likely, *doubted.others), key=lambda solid: solid.stretch[n]).tight[n]
    girths = bool(broken[Matter.PEEL]) and tight is not None
    stretches = [peel.stretch, *(solid.stretch for solid in solids)]
    return MoldDoubt(
        solids=solids,
        packing_ml=packing,
        rolls_below_ml=below_ml,
        stretch=Range(min(stretches), peel.stretch, max(stretches)),
        unslit_below=peel.plan.allowed,
        tight=tight,
        hollows=hollows,
        sure=tuple(matter for matter in Matter if matter not in unsure),
        unsure=unsure,
        untold=untold,
        settled_by=_settled_by({shape for matter in unsure for shape in broken[matter]}, bool(hollows), girths, known),
    )


def _untold(known: Known) -> tuple[Matter, ...]:
    """What is not sure though all solids agree: by a tape everything, as it spans hollows, tells none between its
    levels, and how limbs stand but roughly."""
    return tuple(Matter) if known.source is Source.TAPE else ()


def _worth(hollows: tuple[Hollow, ...], packing: Range) -> tuple[Hollow, ...]:
    """Those that narrow what is packed by something."""
    least_ml = WORTH_SHARE * (packing.high - packing.likely)
    return tuple(hollow for hollow in hollows if hollow.packing_ml >= least_ml)


def _too_wide(volume: Range) -> bool:
    """Whether the solids that are drawn do not stand for all that the original could be."""
    return volume.low < 1.0 - WIDE_SHARE or volume.high > 1.0 + WIDE_SHARE


def _packing(glove: GloveMeasures, likely: OnSolid, others: tuple[OnSolid, ...], n: int, known: Known) -> Range:
    """All that is packed, over all solids; recesses too narrow for their grid besides, or that no tape shows. By a tape
    it may be nothing: undercuts of the solid may be in no original."""
    more = [other.fill_ml[n] + other.crevice_ml - likely.fill_ml[n] - likely.crevice_ml for other in others]
    share, least = (SPANNED_SHARE, 0.0) if known.source is Source.TAPE else (CREVICE_SHARE, LEAST_SHARE)
    told = over(Range.exactly(glove.fill_ml), more, known.spread.unseen_ml + share * sum(glove.coat_ml))
    return replace(told, low=min(told.low, least * told.likely))


def _tried(
    tried: Tried, likely: OnSolid, other: OnSolid, cost: CostOf, hour: Decimal, built: MoldMeasures, peel: PeelFound
) -> SolidTried:
    n = built.shell.pieces - 1
    stretch = round(max(peel.stretch + other.stretch[n] - likely.stretch[n], 1.0), 3)
    more_ml = other.fill_ml[n] + other.crevice_ml - likely.fill_ml[n] - likely.crevice_ml
    return SolidTried(
        shape=other.shape,
        volume_ml=round(other.volume_ml, 2),
        pieces=recommended(tried_rows(on_one(tried, likely, other), cost), hour),
        packing_ml=round(max(built.glove.fill_ml + more_ml, 0.0), 2),
        stiff_ml=round(other.stiff_ml[n], 2),
        caught_share=round(other.caught_share[n], 4),
        stretch=stretch,
        way=way_of(stretch, peel.plan.allowed),
    )


def _settled_by(shapes: set[Shape], hollows: bool, girths: bool, known: Known) -> tuple[Settle, ...]:
    """What would settle that the mold differs on these solids."""
    by_hollows = (Settle.HOLLOWS,) if hollows and Shape.HOLLOWED in shapes else ()
    by_water = (Settle.WATER,) if shapes and Source.WATER not in known.also else ()
    by_views = (Settle.VIEWS,) if Shape.UNEVEN in shapes or (shapes and not by_hollows and not by_water) else ()
    by_photos = (Settle.PHOTOS,) if known.source is Source.TAPE else ()
    return (*by_hollows, *((Settle.GIRTHS,) if girths else ()), *by_water, *by_views, *by_photos)
