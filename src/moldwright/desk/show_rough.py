"""Quantities alone on the screen: what they are not comes first and last."""

from __future__ import annotations

import json
from pathlib import Path

from moldwright.desk.say import say, say_json
from moldwright.making.files.rough import JSON, SHEET
from moldwright.plan.cautions import Severity
from moldwright.plan.needs import NeedGroup
from moldwright.plan.rough import RoughPlan
from moldwright.sheets.rough_text import rough_text
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
from moldwright.sheets.wording import Wording
from moldwright.text.harmless import harmless

Rows = list[tuple[str, str]]


def show_rough(plan: RoughPlan, out: Path, as_json: bool = False) -> None:
    """Print the quantities, or `{"folder": ..., "quantities": ...}`.

    Parameters
    ----------
    plan : the quantities.
    out : their folder.
    as_json : print one JSON object.
    """
    if as_json:
        say_json({"folder": str(out), "quantities": json.loads(rough_text(plan))})
    else:
        say(rough_summary(plan, out))


def rough_summary(plan: RoughPlan, folder: Path) -> str:
    """The quantities in a screenful.

    Parameters
    ----------
    plan : the quantities.
    folder : where they are written.
    """
    table = rough_table()
    figures = [
        *original_rows(plan.original, plan.units),
        *glove_rows(plan),
        *cast_rows(plan),
        *([["", told]] if (told := ways_words(plan)) else []),
    ]
    wide = max(len(name) for name, _ in figures) + 2
    parts = [
        [harmless(plan.name), table["banner"], table["use"]],
        [*(f"  {harmless(name):<{wide}}{text}" for name, text in figures), *_cups(plan)],
        [f"{table['titles']['lacks']}:", *(f"  - {lack}" for lack in lack_words(plan.lacks))],
        [f"{table['titles']['given_by']}:", *_given_by(plan)],
        _stops(plan),
        [f"  {harmless(str(folder / name))}" for name in (SHEET, JSON)],
    ]
    return "\n\n".join("\n".join(part) for part in parts if part)


def _cups(plan: RoughPlan) -> list[str]:
    say = rough_table()["cups"]
    told = []
    for each in plan.cups:
        coat = each.coat
        named = each.for_ if coat is None else f"{each.for_} {harmless(coat.name)}"
        told.append(f"  {named}. {count_words(each)}")
    return [*told, f"  {say['packing']}"]


def _given_by(plan: RoughPlan) -> list[str]:
    ways = [rough_table()["given_by"][source] for source in plan.given_by]
    return [*(f"  - {way['title']}: {way['key']}. {way['say']}" for way in ways), rough_table()["given_all"]["say"]]


def _stops(plan: RoughPlan) -> list[str]:
    """What can ruin or hurt most, of the materials' pairs; all the others stand on the sheet."""
    words = Wording(plan.units, plan.scale_g)
    stops = [each for each in plan.cautions if each.between and each.severity is Severity.STOP]
    told = [f"  {NeedGroup(each.for_)}: {harmless(caution_words(each, words))}" for each in stops]
    return [f"{len(plan.cautions)} cautions stand on the sheet.", *told]
