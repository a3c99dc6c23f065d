"""How many pieces the shell has: of those with which the glove rolls, what costs least in hands and material."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import fields, replace
from decimal import Decimal
from math import fsum

from moldwright.job.costs import CENT, Cost
from moldwright.job.searched import Searched, Tried
from moldwright.mold.measures import MoldMeasures
from moldwright.plan.mold import PiecesSearched, PiecesTried, ShellPlan
from moldwright.ranges import Range

STIFF_SHARE = 0.05
"""Of the coats' rubber so much may be packed too thick to roll; our own."""
STIFF_MORE = 1.5
"""Where more is stiff with any number of pieces, up to so many times the least of it will do; our own."""


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
    searched = {field.name: getattr(row, field.name) for field in fields(PiecesSearched)}
    return PiecesTried(
        **searched, labor_min=round(cost.labor_min, 1), material=cost.material.quantize(CENT), rolls=rolls
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


def as_built(rows: tuple[PiecesTried, ...], shell: ShellPlan, planned: Cost) -> tuple[PiecesTried, ...]:
    """The rows, with the rubber, the seam and the cost of the number that was built.

    What building showed beyond the search, strips by true girths or a slit, is taken to be the same with any number:
    the others cost as much more or less than the built one as was searched.

    Parameters
    ----------
    rows : what was tried.
    shell : that was built.
    planned : what the whole edition costs with it.
    """
    searched = next((row for row in rows if row.used == len(shell.pieces)), None)
    if searched is None:
        return rows
    more_min, more = planned.labor_min - searched.labor_min, planned.material - searched.material
    costed = (replace(row, labor_min=round(row.labor_min + more_min, 1), material=row.material + more) for row in rows)
    return tuple(_built(row, shell) if row.used == searched.used else row for row in costed)


def _built(row: PiecesTried, shell: ShellPlan) -> PiecesTried:
    fill_ml = fsum(piece.fill_ml for piece in shell.pieces)
    spread = Range(min(row.fill_ml.low, fill_ml), fill_ml, max(row.fill_ml.high, fill_ml))
    in_order = row.in_order and shell.removal.in_order
    return replace(row, fill_ml=spread, seam_mm=shell.seam_mm, in_order=in_order)
