"""What a row of the shopping list is called."""

from __future__ import annotations

from moldwright.plan.mixes import TRACES, MixPart, PartKind
from moldwright.plan.needs import NeedPlan
from moldwright.sheets.wording import table

SIDES = frozenset((PartKind.A, PartKind.B))


def need_name(need: NeedPlan) -> str:
    """A row's name.

    Parameters
    ----------
    need : the row.
    """
    if need.form is not None:
        return f"{need.material}, {table()['form'][need.form]}"
    if need.part in SIDES:
        return f"{need.material}, part {need.part}"
    if need.part in TRACES:
        return f"{need.part}, {need.color}"
    return need.material or str(table()["need"][need.id])


def part_name(part: MixPart) -> str:
    """What a part of a cup is called on the sheet.

    Parameters
    ----------
    part : one part of a mix.
    """
    return f"{part.kind}, {part.name}" if part.kind in TRACES else part.name
