"""Labels as they are to be printed: sheet and printer as they were typed, what is told of them, where to go on."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from moldwright.log.codes import short_code
from moldwright.sheets.label_pages import LabelPrint
from moldwright.sheets.label_sheets import USUAL, LabelSheet, measured_sheet, named_sheet, single_label
from moldwright.sheets.label_text import LabelKind, LabelText
from moldwright.units import length_mm
from moldwright.units.constants import INCH_MM
from moldwright.units.system import UnitSystem
from moldwright.words.marked import words
from moldwright.words.speaker import say

BESIDE = words(
    "These are no hazard labels: leave the maker's own readable, and mark what you decant as local rules ask."
)
TRIAL = words("Hold it against the light behind a sheet of labels; a shift to the side or down moves it.")
TAPE = words("A cup's label holds for this one filling: take it off with the cup.")


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


def print_told(told: SheetTold, units: str) -> LabelPrint:
    """Sheet and printer as they were told.

    Parameters
    ----------
    told : as it was typed.
    units : "metric" or "us", for the sheet that is usual.

    Raises InputRefused ("unknown-choice", "label-size-unclear", "value-out-of-range", ...).
    """
    shift_x, shift_y = (
        length_mm(each, key) if each else 0.0
        for key, each in (("shift to the right", told.shift_x), ("shift down", told.shift_y))
    )
    return LabelPrint(_sheet(told, units), told.start, shift_x, shift_y, told.outlines)


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


def pages_of(count: int, how: LabelPrint) -> int:
    """How many sheets so many labels take.

    Parameters
    ----------
    count : of labels.
    how : they are printed.
    """
    return max(1, -(-(how.start - 1 + count) // how.sheet.count))


def heeds_of_labels(texts: Sequence[LabelText], how: LabelPrint) -> list[str]:
    """What to heed when labels are printed and stuck on.

    Parameters
    ----------
    texts : what the labels say.
    how : they are printed.
    """
    kinds = {text.kind for text in texts}
    heeds = [say("Print at 100 %, not fitted to the page, on {sheet}.", sheet=sheet_words(how.sheet))]
    heeds += [say(TRIAL)] if how.outlines else []
    heeds += [say(BESIDE)] if LabelKind.LOT in kinds else []
    return heeds + ([say(TAPE)] if LabelKind.CUP in kinds else [])


def label_words(text: LabelText) -> str:
    """A label in a line: what it is stuck to, its name and mark.

    Parameters
    ----------
    text : what it says.
    """
    return f"{text.kind}: {' '.join(filter(None, (text.title, text.mark)))}"


def label_tree(text: LabelText) -> dict[str, Any]:
    """A label as JSON tells it.

    Parameters
    ----------
    text : what it says.
    """
    return {"kind": text.kind.name.lower(), "title": text.title, "id": text.id, "code": short_code(text.id)}


def sheet_words(sheet: LabelSheet) -> str:
    """Sizes as they stand on the box, which no rule shows.

    Parameters
    ----------
    sheet : of labels.
    """
    side, unit = (INCH_MM, "in") if sheet.units is UnitSystem.US else (1.0, "mm")
    size = f"{sheet.label_wide_mm / side:.4g} x {sheet.label_tall_mm / side:.4g} {unit}"
    if sheet.count > 1:
        return say("{across} x {down} labels of {size}", across=sheet.across, down=sheet.down, size=size)
    return say("labels of {size}", size=size)


def sheet_tree(sheet: LabelSheet) -> dict[str, Any]:
    """A sheet of labels as JSON tells it.

    Parameters
    ----------
    sheet : of labels.
    """
    return {
        "name": sheet.name, "paper_mm": [sheet.wide_mm, sheet.tall_mm], "across": sheet.across, "down": sheet.down,
        "label_mm": [sheet.label_wide_mm, sheet.label_tall_mm], "first_mm": [sheet.first_left_mm, sheet.first_top_mm],
        "pitch_mm": [sheet.pitch_x_mm, sheet.pitch_y_mm],
    }  # fmt: skip
