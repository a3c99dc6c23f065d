"""How many pieces the shell has: of those with which the glove rolls, what costs least in hands and material."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from decimal import Decimal
from functools import cache
from math import fsum

from moldwright.commission.orders import Commission
from moldwright.job.searched import Searched, Tried
from moldwright.materials import Library
from moldwright.mold.measures import MoldMeasures
from moldwright.plan.mold import PiecesTried, ShellPlan
from moldwright.plan.needs import NeedPlan
from moldwright.quantities.quantities import Basis, Quantities, quantities
from moldwright.ranges import Range
from moldwright.steps.shape_cautions import NO_SHAPE
from moldwright.steps.totals import totals
from moldwright.steps.written import work

STIFF_SHARE = 0.05
"""Of the coats' rubber so much may be packed too thick to roll; our own."""
STIFF_MORE = 1.5
"""Where more is stiff with any number of pieces, up to so many times the least of it will do; our own."""
CENT = Decimal("0.01")


@dataclass(frozen=True, slots=True)
class Cost:
    """Hands and material of a whole job: the mold, all casts and the edition's end."""

    labor_min: float
    material: Decimal

    def whole(self, hour: Decimal) -> Decimal:
        """Both together, in money.

        Parameters
        ----------
        hour : what an hour of hands costs.
        """
        return self.material + hour * Decimal(self.labor_min) / 60


def tried_rows(tried: Tried, cost: Callable[[MoldMeasures], Cost]) -> tuple[PiecesTried, ...]:
    """What each number of pieces would take, with its cost.

    Parameters
    ----------
    tried : as it was searched.
    cost : of a job by its measures.
    """
    rolling = _rolling(tried)
    return tuple(_row(row, cost(row.measures), row.used in rolling) for row in tried.rows)


def _row(row: Searched, cost: Cost, rolls: bool) -> PiecesTried:
    return PiecesTried(
        pieces=row.pieces,
        used=row.used,
        fill_ml=row.fill_ml,
        stiff_ml=row.stiff_ml,
        seam_mm=row.seam_mm,
        energy=row.energy_ml,
        labor_min=round(cost.labor_min, 1),
        material=cost.material.quantize(CENT),
        rolls=rolls,
    )


def rolls_below_ml(tried: Tried) -> float:
    """How much may be stiff so that a glove counts as one that rolls; where none quite does, what comes near the best.

    Parameters
    ----------
    tried : as it was searched.
    """
    coats_ml = fsum(tried.rows[0].measures.glove.coat_ml)
    least_ml = min(row.stiff_ml for row in tried.rows)
    return max(STIFF_SHARE * coats_ml, STIFF_MORE * least_ml)


def _rolling(tried: Tried) -> frozenset[int]:
    """With how many pieces the glove rolls."""
    most_ml = rolls_below_ml(tried)
    return frozenset(row.used for row in tried.rows if row.stiff_ml <= most_ml)


def recommended(rows: tuple[PiecesTried, ...], hour: Decimal) -> int:
    """How many pieces cost least; of equals the fewest.

    Parameters
    ----------
    rows : what was tried.
    hour : what an hour of hands costs.
    """
    rolling = [row for row in rows if row.rolls]
    return min(rolling, key=lambda row: Cost(row.labor_min, row.material).whole(hour)).used


def as_built(rows: tuple[PiecesTried, ...], shell: ShellPlan) -> tuple[PiecesTried, ...]:
    """The rows, with the rubber and the seam of the number that was built.

    Parameters
    ----------
    rows : what was tried.
    shell : that was built.
    """
    return tuple(_built(row, shell) if row.used == len(shell.pieces) else row for row in rows)


def _built(row: PiecesTried, shell: ShellPlan) -> PiecesTried:
    fill_ml = fsum(piece.fill_ml for piece in shell.pieces)
    spread = Range(min(row.fill_ml.low, fill_ml), fill_ml, max(row.fill_ml.high, fill_ml))
    return replace(row, fill_ml=spread, seam_mm=shell.seam_mm)


def cost_by(commission: Commission, library: Library, basis: Basis) -> Callable[[MoldMeasures], Cost]:
    """What a job costs by its measures: reckoned as the plan reckons it, steps, quantities and all; the same once.

    Parameters
    ----------
    commission : the order.
    library : all material sheets.
    basis : what is settled of it.

    Source: the steps' minutes; the packs' prices, the largest pack's for each amount.
    """

    def cost(measures: MoldMeasures) -> Cost:
        job = quantities(commission, library, basis, measures)
        whole = totals(work(job, library, NO_SHAPE).steps, job)
        casts = commission.edition.count
        labor_min = whole.mold_labor_min + casts * whole.cast_labor_min + whole.edition_labor_min
        return Cost(labor_min, material_of(job, library))

    return cache(cost)


def material_of(job: Quantities, library: Library) -> Decimal:
    """What the materials of a job cost, each by its largest pack's price for an amount; what nobody sells is free.

    Parameters
    ----------
    job : with its needs.
    library : with the packs.

    Source: the sheets' packs; the commission's own prices before them.
    """
    own = dict(job.commission.prices)
    return sum((_price(need, library, own) for need in job.needs), Decimal())


def _price(need: NeedPlan, library: Library, own: dict[str, Decimal]) -> Decimal:
    sheet = library.sheets.get(need.kind, {}).get(need.id)
    packs = [pack for pack in sheet.packs if pack.unit == need.unit] if sheet is not None else []
    if not packs:
        return Decimal()
    largest = max(packs, key=lambda pack: pack.amount)
    return own.get(need.id, largest.price) * Decimal(need.amount.likely) / Decimal(largest.amount)
