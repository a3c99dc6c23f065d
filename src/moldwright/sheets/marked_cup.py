"""The card of a cup that is filled to marks, without a scale."""

from __future__ import annotations

from moldwright.plan.mixes import DRY, MeasuredBy, MixPlan
from moldwright.sheets.need_words import part_name
from moldwright.sheets.words import split_unit
from moldwright.units import show_volume
from moldwright.units.system import UnitSystem


def marked_rows(mix: MixPlan, units: UnitSystem) -> list[dict[str, str]]:
    """Milliliters to add, and where the cup stands; powder hides the marks from there on.

    Parameters
    ----------
    mix : the cup.
    units : "metric" or "us".
    """
    dry = [number for number, part in enumerate(mix.parts) if part.kind in DRY]
    clear = dry[0] if dry else len(mix.parts)
    rows = []
    for number, part in enumerate(mix.parts):
        add = "a trace" if part.by is MeasuredBy.STICK else show_volume(part.volume_ml, units)
        shown = number < clear and part.by is MeasuredBy.MARKS
        reads, unit = split_unit(show_volume(part.reads_ml, units)) if shown else ("", "")
        rows.append({"name": part_name(part), "add": add, "also_add": "", "reads": reads, "unit": unit, "also": ""})
    return rows
