"""The log of casts: one line a cast, a column for everything that a cast's steps ask to be written down."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from moldwright.plan.mixes import CAST_KINDS, TRACES, MixKind, PartKind
from moldwright.plan.plan import Plan
from moldwright.plan.steps import Per, StepPlan
from moldwright.sheets.wording import Wording, table

LINES = 24
"""Casts on one sheet: a line is as tall as a hand writes."""
LOT_WIDE, WRITTEN_WIDE = 1.25, 1.1
"""Widths of the columns, against one of the others."""


@dataclass(frozen=True, slots=True)
class LotColumn:
    """A column for the lot of a part of a cast's mix."""

    mix: MixKind
    part: PartKind


@dataclass(frozen=True, slots=True)
class BoxColumn:
    """A column for what a step of a cast asks to be written down, its `number`-th box."""

    step: StepPlan
    number: int


def cast_log(plan: Plan, count: int | None = None) -> dict[str, Any]:
    """Columns and lines of the log; one sheet for every 24 casts.

    Parameters
    ----------
    plan : the plan.
    count : casts, None for the edition's.
    """
    words, fixed = Wording(plan.units, plan.scale_g), table()["log"]
    columns = [
        {"name": fixed["number"], "wide": 0.6},
        {"name": fixed["date"], "wide": 1.0},
        *({"name": f"{fixed['lot']} {lot.mix} {lot.part}", "wide": LOT_WIDE} for lot in lot_columns(plan)),
        *({"name": _asked(box, words), "wide": WRITTEN_WIDE} for box in box_columns(plan)),
        {"name": fixed["by"], "wide": 0.7},
    ]
    count = plan.count if count is None else count
    sheets = [[str(k) for k in range(first, min(first + LINES, count + 1))] for first in range(1, count + 1, LINES)]
    return {
        "say": fixed["say"],
        "columns": columns,
        "sheets": [lines + [""] * (LINES - len(lines)) for lines in sheets],
    }


def _asked(box: BoxColumn, words: Wording) -> str:
    return words.line(box.step.write[box.number - 1], box.step.quantities)


def lot_columns(plan: Plan) -> tuple[LotColumn, ...]:
    """Each part of each mix of a cast whose lot may be another from cast to cast.

    Parameters
    ----------
    plan : the plan.
    """
    parts = (
        LotColumn(mix.for_.kind, part.kind)
        for mix in plan.mixes
        if mix.for_.kind in CAST_KINDS
        for part in mix.parts
        if part.kind not in TRACES
    )
    return tuple(dict.fromkeys(parts))


def box_columns(plan: Plan) -> tuple[BoxColumn, ...]:
    """All that the steps of a cast ask to be written down.

    Parameters
    ----------
    plan : the plan.
    """
    steps = (step for step in plan.steps if step.per is Per.CAST)
    return tuple(BoxColumn(step, number) for step in steps for number in range(1, len(step.write) + 1))
