"""A tape as it is typed: what was understood of it so far, drawn and in figures, and what cannot be."""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache
from math import pi
from typing import Any

from moldwright.commission.keys import keys
from moldwright.commission.orders import Commission, OriginalOrder, ShopOrder, TapeOrder
from moldwright.commission.values import value_of
from moldwright.errors import InputRefused
from moldwright.making.looking.tape import LookedTape, look_at_tape
from moldwright.sheets.tape_sheet import TapeFacts, more_lines, range_lines, tape_figures, tape_words
from moldwright.tape.drawn import Drawn, Facing, Outlined
from moldwright.units import show_length
from moldwright.units.system import UnitSystem


def tape_told(answers: Mapping[str, Any], units: UnitSystem) -> dict[str, Any]:
    """What was understood of a tape; a row that says nothing yet is no fault.

    Parameters
    ----------
    answers : by dotted key, as a commission holds them.
    units : of who reads.

    Raises InputRefused for what cannot be, with the smallest change that mends it.
    """
    table = keys()["original"]
    given = {
        table[name].field: value_of(table[name], answers[f"original.{name}"])
        for name in ("tape", "height", "displaced", "weight", "density", "solid", "material", "gaps")
        if f"original.{name}" in answers
    }
    looked, facts = tape_looked(OriginalOrder(**given), units)
    return {
        "height_mm": looked.height_mm,
        "views": [_view(each) for each in looked.drawn.outlines],
        "levels": _levels(looked.drawn, units),
        "height": show_length(looked.height_mm, units),
        "figures": tape_figures(facts),
        "facing": {facing.value: tape_words()["facing"][facing] for facing in Facing},
        "lines": [*range_lines(facts), *more_lines(facts)],
    }


@lru_cache(maxsize=32)
def tape_looked(original: OriginalOrder, units: UnitSystem) -> tuple[LookedTape, TapeFacts]:
    """The look at a tape, kept: drawing and check ask for the same one after every pause.

    Parameters
    ----------
    original : with nothing but its tape and what else tells its volume.
    units : of who reads.
    """
    return look_at_tape(Commission(original, shop=ShopOrder(units=units)))


def rows_so_far(answers: Mapping[str, Any]) -> list[dict[str, float]]:
    """The levels as far as each can be read, for a drawing that grows before the whole is understood [mm]; what was not
    read across is drawn as round as it is round about.

    Parameters
    ----------
    answers : by dotted key, as a commission holds them.
    """
    tape = answers.get("original.tape", {})
    found = []
    for row in tape.get("levels", []):
        try:
            read = value_of(keys()["original"]["tape"], {"levels": [row]})
        except InputRefused:
            continue
        assert isinstance(read, TapeOrder)
        level = read.levels[0]
        round_mm = level.girth_mm / pi
        found.append({"at": level.at_mm, "wide": level.breadth_mm or round_mm, "deep": level.depth_mm or round_mm})
    return sorted(found, key=lambda each: each["at"])


def _view(outlined: Outlined) -> dict[str, Any]:
    rings = [[[round(x, 1), round(z, 1)] for x, z in ring] for ring in outlined.rings]
    return {"facing": outlined.facing.value, "rings": rings}


def _levels(drawn: Drawn, units: UnitSystem) -> list[dict[str, Any]]:
    return [
        {
            "at": level.at_mm,
            "wide": level.breadth_mm,
            "deep": level.depth_mm,
            "wide_said": show_length(level.breadth_mm, units) if level.breadth_read else "",
            "deep_said": show_length(level.depth_mm, units) if level.depth_read else "",
        }
        for level in drawn.levels
    ]
