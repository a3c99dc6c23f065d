"""What the sheet of a plan of quantities prints: texts only."""

from __future__ import annotations

from itertools import groupby
from typing import Any

from moldwright.plan.mixes import MixKind
from moldwright.plan.needs import NeedGroup, NeedPlan, NeedUnit
from moldwright.plan.rough import RoughCups, RoughPlan
from moldwright.ranges import Range
from moldwright.sheets.heading import heading
from moldwright.sheets.mix_cards import cup_table, remedy_text
from moldwright.sheets.need_words import need_name
from moldwright.sheets.rough_words import (
    cast_rows,
    caution_words,
    count_words,
    glove_rows,
    lack_words,
    original_rows,
    rough_table,
    ways_words,
)
from moldwright.sheets.shopping_data import DIMENSION, FINEST, TRACE_BELOW, assumed_rows, enough
from moldwright.sheets.typesetting import PAPERS, typeset
from moldwright.sheets.wording import Wording
from moldwright.steps.sheet import DEFER
from moldwright.units import range_parts, show_length
from moldwright.units.system import UnitSystem


def rough_sheet(plan: RoughPlan, paper: str) -> bytes:
    """The sheet as a PDF.

    Parameters
    ----------
    plan : the quantities.
    paper : "a4" or "letter".
    """
    return typeset("quantities", rough_data(plan, PAPERS[paper][0]), {})


def rough_data(plan: RoughPlan, paper: str) -> dict[str, Any]:
    """The form's data.

    Parameters
    ----------
    plan : the quantities.
    paper : the paper's name in the form.
    """
    say = rough_table()
    return heading(plan, say["what"], paper) | {
        "below": say["below"],
        "banner": say["banner"],
        "use": say["use"],
        "middle": say["middle"],
        "titles": say["titles"],
        "figures": [original_rows(plan.original, plan.units) + cast_rows(plan), glove_rows(plan)],
        "ways": ways_words(plan),
        "lacks": lack_words(plan.lacks),
        "given_by": [say["given_by"][source] for source in plan.given_by],
        "given_say": say["given_all"]["say"],
        "cups": {"say": say["cups"]["say"], "packing": say["cups"]["packing"], "rows": _cups(plan)},
        "list": {
            "say": f"{_for(plan.count)} {say['buy']} {say['spare']}",
            "head": say["list"]["head"],
            "groups": _groups(plan),
        },
        "cautions": {"say": say["cautions"]["say"], "groups": _cautions(plan)},
        "assumed": {
            "title": say["titles"]["assumed"],
            "say": say["assumed"]["say"],
            "rows": assumed_rows(plan.assumed, plan.units),
        },
    }


def _for(count: int) -> str:
    say = rough_table()["list"]
    return str(say["say"]).format(count=say["cast"] if count == 1 else say["casts"].format(count=count))


def _cups(plan: RoughPlan) -> list[dict[str, Any]]:
    coats = [each.coat.id for each in plan.glove.coats]
    return [_cup(each, coats.index(each.coat.id) + 1 if each.coat else 0, plan) for each in plan.cups]


def _cup(cups: RoughCups, number: int, plan: RoughPlan) -> dict[str, Any]:
    say, coat = rough_table()["cups"], cups.coat
    title = str(say[cups.for_])
    if coat is not None:
        thick = show_length(coat.thickness_mm, plan.units)
        title = title.format(number=number, name=coat.name, thickness=thick, pigment=coat.pigment)
    layers = [say["passes"].format(passes=coat.passes)] if coat and coat.passes > 1 else []
    notes = [*([say["coat_say"]] if coat else []), *layers, say["half" if cups.halved else "whole"]]
    return {
        "title": title,
        "count": count_words(cups),
        "one": say["one_bucket" if cups.for_ is MixKind.SHELL else "one"],
        "notes": " ".join(notes),
        "remedy": remedy_text(cups.cup, plan.units),
        **cup_table(cups.cup, plan.units, plan.scale_g),
    }


def _groups(plan: RoughPlan) -> list[dict[str, Any]]:
    groups = [(group, [need for need in plan.needs if need.for_ is group]) for group in NeedGroup]
    return [
        {"title": group.capitalize(), "rows": [_row(need, plan.units) for need in rows]}
        for group, rows in groups
        if rows
    ]


def _row(need: NeedPlan, units: UnitSystem) -> dict[str, str]:
    low, likely, high = _amounts(need.amount, need.unit, units)
    return {"name": need_name(need, units), "low": low, "likely": likely, "high": high}


def _amounts(amount: Range, unit: NeedUnit, units: UnitSystem) -> tuple[str, str, str]:
    """Low and likely without their unit, and what is enough, with it."""
    say = rough_table()["list"]
    if amount.high < TRACE_BELOW:
        return "", "", str(say["trace"])
    if unit in DIMENSION:
        whole = Range(amount.low, amount.likely, enough(amount.high))
        low, likely, high, name = range_parts(whole, DIMENSION[unit], units, FINEST)
        return low, likely, f"{high} {name}"
    if unit is NeedUnit.METER:
        low, likely, high = (show_length(1000.0 * value, units) for value in (amount.low, amount.likely, amount.high))
        return low, likely, high
    word = "" if unit is NeedUnit.EACH else f" {unit}" + ("s" if amount.high != 1 else "")
    return f"{amount.low:g}", f"{amount.likely:g}", f"{amount.high:g}{word}"


def _cautions(plan: RoughPlan) -> list[dict[str, Any]]:
    """By the part of the list; the foot of every sheet says what comes before this software's reminder."""
    words, titles = Wording(plan.units, plan.scale_g), rough_table()["cautions"]
    told = [each for each in plan.cautions if each.rule != DEFER]
    return [
        {
            "title": titles[part],
            "rows": [{"severity": each.severity, "text": caution_words(each, words)} for each in of],
        }
        for part, of in groupby(told, key=lambda each: each.for_)
    ]
