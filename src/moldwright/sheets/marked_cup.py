"""The card of a cup that is filled to marks, without a scale."""

from __future__ import annotations

from moldwright.plan.mixes import DRY, MeasuredBy, MixPart, MixPlan
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
    return [_row(part, number < clear, units) for number, part in enumerate(mix.parts)]


def _row(part: MixPart, seen: bool, units: UnitSystem) -> dict[str, str]:
    """Syringes are marked in milliliters everywhere; a cup in fluid ounces has milliliters beside them."""
    shown = seen and part.by is MeasuredBy.MARKS
    reads, unit = split_unit(show_volume(part.reads_ml, units)) if shown else ("", "")
    both = shown and units is UnitSystem.US
    add, also_add = measured(part, show_volume(part.volume_ml, units))
    return {
        "name": part_name(part), "add": add, "also_add": also_add, "reads": reads, "unit": unit,
        "also": show_volume(part.reads_ml, "metric") if both else "",
    }  # fmt: skip


def measured(part: MixPart, otherwise: str) -> tuple[str, str]:
    """How much of a part goes in and what with: by syringe its milliliters, on a stick a trace, else as given.

    Parameters
    ----------
    part : of a cup.
    otherwise : what goes in by scale or marks.
    """
    if part.by is MeasuredBy.SYRINGE and part.syringe_ml is not None:
        return f"{part.volume_ml:g} ml", f"syringe of {part.syringe_ml:g} ml"
    return ("a trace", "") if part.by is MeasuredBy.STICK else (otherwise, "")
