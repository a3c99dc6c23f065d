"""What `moldwright label` does: reads the sheet that is meant and the things, writes the PDF, says what is next."""

from __future__ import annotations

import shlex
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from moldwright.desk.label_things import Written, label_of
from moldwright.desk.own_pdf import check_own_pdf
from moldwright.desk.say import say, say_json
from moldwright.desk.shop_at import opened, units_told
from moldwright.disk.whole_file import write_whole
from moldwright.log.codes import short_code
from moldwright.sheets.label_pages import LabelPrint, label_pdf
from moldwright.sheets.label_sheets import (
    SINGLES,
    USUAL,
    LabelSheet,
    label_sheets,
    measured_sheet,
    named_sheet,
    single_label,
)
from moldwright.sheets.label_text import LabelKind, LabelText
from moldwright.text.harmless import harmless
from moldwright.units import length_mm
from moldwright.units.constants import INCH_MM
from moldwright.units.system import UnitSystem

OURS = b"/Keywords(moldwright labels"
"""What a PDF of labels says of itself."""
BESIDE = "These are no hazard labels: leave the maker's own readable, and mark what you decant as local rules ask."
TRIAL = "Hold it against the light behind a sheet of labels; --shift-x and --shift-y move it."
TAPE = "A cup's label holds for this one filling: take it off with the cup."


@dataclass(frozen=True, slots=True)
class SheetTold:
    """Sheet and printer as they were typed, "" where they were left out."""

    sheet: str = ""
    single: str = ""
    grid: str = ""
    size: str = ""
    gap: str = "0x0"
    margin: str = ""
    paper: str = "a4"
    start: int = 1
    shift_x: str = ""
    shift_y: str = ""
    outlines: bool = False


def run_labels(
    out: Path, asked: Sequence[tuple[str, Written]], told: SheetTold, shop: str, units: str, as_json: bool
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


def _texts(asked: Sequence[tuple[str, Written]], shop: str) -> list[LabelText]:
    with opened(shop) as store:
        return [label_of(store, option, written) for option, written in asked]


def print_told(told: SheetTold, units: str) -> LabelPrint:
    """Sheet and printer as they were told.

    Parameters
    ----------
    told : as it was typed.
    units : "metric" or "us".
    """
    shifts = [
        length_mm(each, f"--shift-{axis}") if each else 0.0 for axis, each in zip("xy", _shifts(told), strict=True)
    ]
    return LabelPrint(_sheet(told, units), told.start, shifts[0], shifts[1], told.outlines)


def _shifts(told: SheetTold) -> tuple[str, str]:
    return told.shift_x, told.shift_y


def _sheet(told: SheetTold, units: str) -> LabelSheet:
    if told.single:
        return single_label(told.single)
    if told.grid:
        return measured_sheet(told.paper, told.grid, told.size, told.gap, told.margin)
    return named_sheet(told.sheet or USUAL[UnitSystem(units)])


def next_start(count: int, how: LabelPrint) -> int | None:
    """The first label that is still there after so many; None where the last sheet is used up, or labels come singly.

    Parameters
    ----------
    count : of labels.
    how : they were printed.
    """
    used = (how.start - 1 + count) % how.sheet.count
    return used + 1 if used else None


def _tree(out: Path, texts: Sequence[LabelText], how: LabelPrint) -> dict[str, Any]:
    pages = max(1, -(-(how.start - 1 + len(texts)) // how.sheet.count))
    labels = [
        {"kind": text.kind.name.lower(), "title": text.title, "id": text.id, "code": short_code(text.id)}
        for text in texts
    ]
    return {
        "file": str(out), "sheet": how.sheet.name, "pages": pages, "labels": labels,
        "next_start": next_start(len(texts), how),
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
    lines += [
        harmless(f"  {short_code(text.id)}  {text.kind}: {' '.join(filter(None, (text.title, text.mark)))}")
        for text in texts
    ]
    lines.append(f"  Print at 100 %, not fitted to the page, on {_told(how.sheet)}.")
    lines += [f"  {TRIAL}"] if how.outlines else []
    again = next_start(len(texts), how)
    lines += [f"  Labels are left on the sheet: next time --start {again}."] if again and texts else []
    kinds = {text.kind for text in texts}
    lines += [f"  {BESIDE}"] if LabelKind.LOT in kinds else []
    lines += [f"  {TAPE}"] if LabelKind.CUP in kinds else []
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
        say_json({"sheets": [_sheet_tree(sheet) for sheet in known], "singles": list(SINGLES)})
        return
    usual = USUAL[UnitSystem(units_told(units))]
    wide = max(len(sheet.name) for sheet in known)
    rows = [f"{sheet.name:<{wide}}  {_told(sheet)}{'  (usual)' if sheet.name == usual else ''}" for sheet in known]
    own = "--grid 3x8 --size 70x37, with --gap, --margin and --paper: a sheet of your own, measured with a rule"
    say("\n".join([*rows, f"--single {', '.join(SINGLES)} or any other size: one label a page", own]))


def _told(sheet: LabelSheet) -> str:
    """Sizes as they stand on the box, which no rule shows."""
    side, unit = (INCH_MM, "in") if sheet.units is UnitSystem.US else (1.0, "mm")
    size = f"{sheet.label_wide_mm / side:.4g} x {sheet.label_tall_mm / side:.4g} {unit}"
    return f"{sheet.across} x {sheet.down} labels of {size}" if sheet.count > 1 else f"labels of {size}"


def _sheet_tree(sheet: LabelSheet) -> dict[str, Any]:
    return {
        "name": sheet.name, "paper_mm": [sheet.wide_mm, sheet.tall_mm], "across": sheet.across, "down": sheet.down,
        "label_mm": [sheet.label_wide_mm, sheet.label_tall_mm], "first_mm": [sheet.first_left_mm, sheet.first_top_mm],
        "pitch_mm": [sheet.pitch_x_mm, sheet.pitch_y_mm],
    }  # fmt: skip
