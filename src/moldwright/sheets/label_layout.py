"""Where text and square code of a label go, and how large its type may be."""

from __future__ import annotations

from dataclasses import dataclass

from moldwright.errors import InputRefused
from moldwright.sheets.label_sheets import LabelSheet
from moldwright.sheets.qr import LEAST_MODULE_MM, QUIET, QrCode
from moldwright.units.constants import INCH_MM

PT_MM = INCH_MM / 72.0
PAD_MM = 1.5
"""What stays free inside a label's edge, for cuts and prints that are off [mm]: our own."""
GAP_MM = 0.5
"""Between the text and the code's light margin [mm]: our own."""
CLIP_MM = 0.3
"""How far inside a label's edge its text is cut off in any case, whatever its letters do [mm]: our own."""
CODE_SHARE = 0.42
"""The most of a label's long side that the code takes, its light margin counted in: type comes first. Our own."""
KEPT_SHARE = 0.3
"""The same where lines must stand: running totals come before a large code. Our own."""
BESIDE_FROM = 1.25
"""From this ratio of width to height on the code stands beside the text, else under it: our own."""
LEAST_TEXT_MM = 18.5
"""Narrowest column of text [mm]: nine digits of the short code at 8 pt."""
EM, PITCH, FRAME_PT = 1.04, 1.1, 1.0
"""Height of a line alone and from one line to the next, in type sizes; what a frame adds [pt]: as the form has them."""
LINE_PT, TITLE_PT, SHORT_PT = 6.5, 8.5, 8.0
"""Smallest type of lines, of name and mark, and of the short code's line [pt]: our own."""


@dataclass(frozen=True, slots=True)
class LabelRoom:
    """Where things stand on a label, from its upper left corner [mm].

    `text` : left, top, width, height of the column of text. `code` : left, top of the code's first module. `under` :
    the code stands under the text, else beside it.
    """

    text: tuple[float, float, float, float]
    code: tuple[float, float]
    module_mm: float
    under: bool

    @property
    def text_pt(self) -> float:
        """Height of the text's column [pt]."""
        return self.text[3] / PT_MM


def label_room(sheet: LabelSheet, place: int, code: QrCode, share: float = CODE_SHARE) -> LabelRoom:
    """Where text and code stand on one label of a sheet.

    Parameters
    ----------
    sheet : the sheet.
    place : which label, from 0; at the paper's edges less of it can be printed.
    code : the square code.
    share : the most of the label's long side that the code takes, where it can be that small.

    Raises InputRefused ("label-too-small").
    """
    left, top, right, bottom = _printable(sheet, place)
    module = _module(sheet, (right - left, bottom - top), code, share)
    dark, quiet = code.across * module, QUIET * module
    beside = _beside(sheet)
    if beside:
        at = (min(right, sheet.label_wide_mm - quiet) - dark, top + (bottom - top - dark) / 2)
        text = (left, top, at[0] - quiet - GAP_MM - left, bottom - top)
    else:
        at = (left + (right - left - dark) / 2, min(bottom, sheet.label_tall_mm - quiet) - dark)
        text = (left, top, right - left, at[1] - quiet - GAP_MM - top)
    if module < LEAST_MODULE_MM or text[2] < LEAST_TEXT_MM or text[3] < _least_pt(1) * PT_MM:
        raise _too_small(sheet, code)
    return LabelRoom(text, at, module, not beside)


def _beside(sheet: LabelSheet) -> bool:
    return sheet.label_wide_mm >= BESIDE_FROM * sheet.label_tall_mm


def _printable(sheet: LabelSheet, place: int) -> tuple[float, float, float, float]:
    """Left, top, right and bottom of what of a label can be relied on, from its own corner [mm]."""
    x, y = sheet.corner_mm(place)
    pad = min(PAD_MM, sheet.edge_mm)
    return (
        max(pad, sheet.edge_mm - x),
        max(pad, sheet.edge_mm - y),
        min(sheet.label_wide_mm - pad, sheet.wide_mm - sheet.edge_mm - x),
        min(sheet.label_tall_mm - pad, sheet.tall_mm - sheet.edge_mm - y),
    )


def _module(sheet: LabelSheet, room: tuple[float, float], code: QrCode, share: float) -> float:
    """The largest module: all dark within what can be printed, the light margin within the label."""
    sides = (sheet.label_wide_mm, sheet.label_tall_mm)
    long = sides[0] if _beside(sheet) else sides[1]
    wanted = max(share * long / code.across_with_quiet, LEAST_MODULE_MM)
    return min(min(room) / code.across, min(sides) / code.across_with_quiet, wanted)


def _least_pt(lines: int, mark: bool = False) -> float:
    """Height that the smallest type takes [pt]: name, mark, some lines, short code."""
    heads = EM * (TITLE_PT + SHORT_PT) + (EM * TITLE_PT + FRAME_PT if mark else 0.0)
    return heads + PITCH * LINE_PT * lines


def check_holds(room: LabelRoom, lines: int, mark: bool, sheet: LabelSheet) -> None:
    """Refuse a label that has no room for all lines that must stand on it.

    Parameters
    ----------
    room : of the label.
    lines : how many.
    mark : whether a mark stands above them.
    sheet : for its size.

    Raises InputRefused ("label-too-small").
    """
    if _least_pt(lines, mark) > room.text_pt:
        remedy = "A line that is missing would be a part that is missing: take larger labels."
        size = f"{lines} lines on {sheet.label_wide_mm:.4g} x {sheet.label_tall_mm:.4g} mm"
        raise InputRefused("label-too-small", size, "all lines of the cup", "", remedy)


def _too_small(sheet: LabelSheet, code: QrCode) -> InputRefused:
    size = f"{sheet.label_wide_mm:.4g} x {sheet.label_tall_mm:.4g} mm"
    least = LEAST_MODULE_MM * code.across_with_quiet
    limit = f"{least + LEAST_TEXT_MM:.0f} x {least + 2:.0f} mm or so"
    return InputRefused("label-too-small", size, limit, "", "Code and name need that much: take larger labels.")
