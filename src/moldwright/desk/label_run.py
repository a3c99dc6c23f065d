"""What `moldwright label` does: reads the sheet that is meant and the things, writes the PDF, says what is next."""

from __future__ import annotations

import shlex
from collections.abc import Sequence
from pathlib import Path
from typing import Any

from moldwright.desk.own_pdf import check_own_pdf
from moldwright.desk.say import say, say_json
from moldwright.desk.shop_at import opened, units_told
from moldwright.disk.whole_file import write_whole
from moldwright.log.codes import short_code
from moldwright.sheets.label_pages import LabelPrint, label_pdf
from moldwright.sheets.label_sheets import SINGLES, USUAL, label_sheets
from moldwright.sheets.label_text import LabelText
from moldwright.text.harmless import harmless
from moldwright.told.label_print import (
    SheetTold,
    heeds_of_labels,
    label_tree,
    label_words,
    next_start,
    pages_of,
    print_told,
    sheet_tree,
    sheet_words,
)
from moldwright.told.label_things import LabelAsked, label_of
from moldwright.units.system import UnitSystem

OURS = b"/Keywords(moldwright labels"
"""What a PDF of labels says of itself."""


def run_labels(
    out: Path, asked: Sequence[tuple[str, LabelAsked]], told: SheetTold, shop: str, units: str, as_json: bool
) -> None:
    """Write labels.

    Parameters
    ----------
    out : the PDF.
    asked : what is to be labeled: the option, and what was typed behind it, in their order.
    told : sheet and printer.
    shop : the store.
    units : "metric" or "us", for the sheet that is usual.
    as_json : print one JSON object.
    """
    check_own_pdf(out, OURS, "sheet of labels", "labels.pdf")
    how = print_told(told, units_told(units))
    texts = _texts(asked, shop) if asked else []
    write_whole(out, label_pdf(texts, how))
    if as_json:
        say_json(_tree(out, texts, how))
    else:
        say(in_words(out, texts, how))


def _texts(asked: Sequence[tuple[str, LabelAsked]], shop: str) -> list[LabelText]:
    with opened(shop) as store:
        return [label_of(store, option, written) for option, written in asked]


def _tree(out: Path, texts: Sequence[LabelText], how: LabelPrint) -> dict[str, Any]:
    return {
        "file": str(out), "sheet": how.sheet.name, "pages": pages_of(len(texts), how),
        "labels": [label_tree(text) for text in texts], "next_start": next_start(len(texts), how),
    }  # fmt: skip


def in_words(out: Path, texts: Sequence[LabelText], how: LabelPrint) -> str:
    """What was written and what to heed, for a person.

    Parameters
    ----------
    out : the PDF.
    texts : what the labels say.
    how : they are printed.
    """
    lines = [harmless(shlex.quote(str(out)))]
    lines += [harmless(f"  {short_code(text.id)}  {label_words(text)}") for text in texts]
    lines += [f"  {heed}" for heed in heeds_of_labels(texts, how)]
    again = next_start(len(texts), how)
    lines += [f"  Labels are left on the sheet: next time --start {again}."] if again and texts else []
    return "\n".join(lines)


def list_sheets(units: str, as_json: bool) -> None:
    """Tell the known sheets.

    Parameters
    ----------
    units : "metric" or "us".
    as_json : print one JSON object.
    """
    known = list(label_sheets().values())
    if as_json:
        say_json({"sheets": [sheet_tree(sheet) for sheet in known], "singles": list(SINGLES)})
        return
    usual = USUAL[UnitSystem(units_told(units))]
    wide = max(len(sheet.name) for sheet in known)
    rows = [
        f"{sheet.name:<{wide}}  {sheet_words(sheet)}{'  (usual)' if sheet.name == usual else ''}" for sheet in known
    ]
    own = "--grid 3x8 --size 70x37, with --gap, --margin and --paper: a sheet of your own, measured with a rule"
    say("\n".join([*rows, f"--single {', '.join(SINGLES)} or any other size: one label a page", own]))
