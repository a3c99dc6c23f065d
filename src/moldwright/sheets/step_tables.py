"""The tables that stand under a step's lines, as texts: strips of bandage and the rolls that they are cut from."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from moldwright.plan.mold import BandagePlan, MatsPlan, PlyCut, StripUse
from moldwright.plan.plan import Plan
from moldwright.plan.steps import Shows, StepPlan
from moldwright.sheets.wording import show_area
from moldwright.units import show_length, show_mass
from moldwright.units.system import UnitSystem
from moldwright.words.marked import Words, words
from moldwright.words.speaker import say

USES: dict[StripUse, Words] = {
    StripUse.ROUND: words("goes round"),
    StripUse.UPRIGHT: words("stands upright"),
    StripUse.BASE: words("along the base"),
    StripUse.LAP: words("lap"),
    StripUse.FIELD: words("all over"),
}


@dataclass(frozen=True, slots=True)
class StepTable:
    """A table: what it is of, its columns' heads, its rows; as wide as they, so many of the first columns are words."""

    title: str
    head: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    words: int = 1


def step_tables(plan: Plan, step: StepPlan) -> tuple[StepTable, ...]:
    """The tables of a step, from the first down.

    Parameters
    ----------
    plan : the plan.
    step : of it.
    """
    return tuple(_tables(plan, step))


def _tables(plan: Plan, step: StepPlan) -> Iterator[StepTable]:
    if step.shows is not Shows.CUTS:
        return
    if plan.bandage is not None:
        yield _strips(plan.bandage, step.laid_piece, plan.units)
        if step.laid_piece is None:
            yield _rolls(plan.bandage, plan.units)
    if plan.mats is not None:
        yield _mats(plan.mats, step.laid_piece, plan)


def _strips(bandage: BandagePlan, only: int | None, units: UnitSystem) -> StepTable:
    pieces = enumerate(bandage.pieces, start=1)
    rows = [
        (
            str(number),
            say(USES[cut.use]),
            str(cut.count),
            *_size(cut.length_mm, cut.width_mm, units),
            str(bandage.plies),
        )
        for number, piece in pieces
        if only in (None, number)
        for cut in piece.cuts
    ]
    head = say("Shell"), say("For"), say("Strips"), say("Length"), say("Width"), say("Plies")
    if len(bandage.pieces) > 1 and only is None:
        return StepTable(say("Strips"), head, tuple(rows), words=2)
    return StepTable(say("Strips"), head[1:], tuple(row[1:] for row in rows))


def _size(length_mm: float, width_mm: float, units: UnitSystem) -> tuple[str, str]:
    return show_length(length_mm, units), show_length(width_mm, units)


def _rolls(bandage: BandagePlan, units: UnitSystem) -> StepTable:
    rows = tuple((str(each.rolls), _off(each.cuts, units)) for each in bandage.on_rolls)
    return StepTable(say("Rolls"), (say("Rolls"), say("Single plies off each, full width")), rows, words=2)


def _mats(mats: MatsPlan, only: int | None, plan: Plan) -> StepTable:
    """Layer by layer: the first is bare, so matting begins with the second."""
    first = mats.layers - mats.matted + 1
    rows = tuple(
        (
            str(number),
            str(layer),
            str(piece.squares),
            show_mass(piece.mass_g / mats.matted, plan.units, 1.0),
            show_area(piece.area_mm2, plan.units),
        )
        for number, piece in enumerate(mats.pieces, start=1)
        if only in (None, number)
        for layer in range(first, mats.layers + 1)
    )
    head = say("Shell"), say("Layer"), say("Squares"), say("Mass"), say("Covers")
    return StepTable(say("Matting"), head, rows)


def _off(cuts: Iterable[PlyCut], units: UnitSystem) -> str:
    """What one roll gives.

    >>> _off([PlyCut(250.0, 8), PlyCut(180.0, 4)], UnitSystem.METRIC)
    '8 × 250 mm, 4 × 180 mm'
    """
    return ", ".join(f"{cut.count} × {show_length(cut.length_mm, units)}" for cut in cuts)
