"""The log of casts: one line a cast, a column for everything that a cast's steps ask to be written down."""

from __future__ import annotations

from typing import Any

from moldwright.plan.mixes import CAST_KINDS, TRACES
from moldwright.plan.plan import Plan
from moldwright.plan.steps import Per
from moldwright.sheets.wording import Wording, table

LINES = 24
"""Casts on one sheet: a line is as tall as a hand writes."""
LOT_WIDE, WRITTEN_WIDE = 1.25, 1.1
"""Widths of the columns, against one of the others."""


def cast_log(plan: Plan) -> dict[str, Any]:
    """Columns and lines of the log; one sheet for every 24 casts.

    Parameters
    ----------
    plan : the plan.
    """
    words, fixed = Wording(plan.units, plan.scale_g), table()["log"]
    written = [words.line(line, step.quantities) for step in plan.steps if step.per is Per.CAST for line in step.write]
    columns = [
        {"name": fixed["number"], "wide": 0.6},
        {"name": fixed["date"], "wide": 1.0},
        *({"name": name, "wide": LOT_WIDE} for name in _lots(plan)),
        *({"name": name, "wide": WRITTEN_WIDE} for name in written),
        {"name": fixed["by"], "wide": 0.7},
    ]
    count = _casts(plan)
    sheets = [[str(k) for k in range(first, min(first + LINES, count + 1))] for first in range(1, count + 1, LINES)]
    return {
        "say": fixed["say"],
        "columns": columns,
        "sheets": [lines + [""] * (LINES - len(lines)) for lines in sheets],
    }


def _casts(plan: Plan) -> int:
    return plan.count


def _lots(plan: Plan) -> list[str]:
    """Each part of each mix of a cast whose lot may be another from cast to cast."""
    lot = table()["log"]["lot"]
    parts = dict.fromkeys(
        (mix.for_.kind, part.kind)
        for mix in plan.mixes
        if mix.for_.kind in CAST_KINDS
        for part in mix.parts
        if part.kind not in TRACES
    )
    return [f"{lot} {kind} {part}" for kind, part in parts]
