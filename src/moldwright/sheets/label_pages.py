"""Labels on their pages: the sheets that texts fill, in the order given, as one PDF."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from moldwright.errors import InputRefused
from moldwright.log.codes import short_code, urn_of
from moldwright.sheets.label_layout import CLIP_MM, CODE_SHARE, KEPT_SHARE, LabelRoom, check_holds, label_room
from moldwright.sheets.label_sheets import LabelSheet
from moldwright.sheets.label_text import LabelLine, LabelText
from moldwright.sheets.qr import qr_code, qr_data
from moldwright.sheets.typesetting import typeset
from moldwright.text.shown import short

TOGETHER = re.compile(r"(?<=\d) (?:of (?=\d)|(?=(?:mm|cm|in|g|kg|oz|lb|ml)\b))")
"""Blanks within "17 of 50" and "0.6 mm", which no line may part."""
LONGEST = 200
"""Characters of a text that a label is given: more than any holds in its smallest type."""
MOST_SHIFT_MM = 6.0
"""A printer that is off by more has the wrong paper or scales the page [mm]: our own."""


@dataclass(frozen=True, slots=True)
class LabelPrint:
    """How labels are printed.

    Parameters
    ----------
    sheet : what is in the printer.
    start : the first label of the first sheet that is still there, from 1.
    shift_x_mm, shift_y_mm : to the right and down, for a printer that is off.
    outlines : draw each label's edge, and those of labels that stay empty, for a trial on plain paper.
    """

    sheet: LabelSheet
    start: int = 1
    shift_x_mm: float = 0.0
    shift_y_mm: float = 0.0
    outlines: bool = False


def label_pdf(texts: Sequence[LabelText], how: LabelPrint) -> bytes:
    """The PDF of some labels.

    Parameters
    ----------
    texts : what they say, in their order.
    how : sheet and printer.

    Raises InputRefused ("label-start", "label-shift", "label-too-small").
    """
    return typeset("label", label_data(texts, how), {})


def label_data(texts: Sequence[LabelText], how: LabelPrint) -> dict[str, Any]:
    """What the form prints.

    Parameters
    ----------
    texts : what the labels say.
    how : sheet and printer.
    """
    _check(how)
    sheet, offset = how.sheet, how.start - 1
    pages = range(max(1, -(-(offset + len(texts)) // sheet.count)))
    return {
        "wide": sheet.wide_mm,
        "tall": sheet.tall_mm,
        "pages": [_page(texts, how, page * sheet.count - offset) for page in pages],
    }


def _page(texts: Sequence[LabelText], how: LabelPrint, first: int) -> dict[str, Any]:
    """A page; `first`: which of the texts stands on its first label."""
    sheet = how.sheet
    places = [(place, first + place) for place in range(sheet.count)]
    filled = [(place, texts[number]) for place, number in places if 0 <= number < len(texts)]
    outlined = range(sheet.count) if how.outlines else ()
    return {
        "labels": [{**_corner(how, place), **_label(text, sheet, place)} for place, text in filled],
        "outlines": [_corner(how, place) for place in outlined],
    }


def _corner(how: LabelPrint, place: int) -> dict[str, float]:
    x, y = how.sheet.corner_mm(place)
    return {
        "left": x + how.shift_x_mm, "top": y + how.shift_y_mm,
        "wide": how.sheet.label_wide_mm, "tall": how.sheet.label_tall_mm,
    }  # fmt: skip


def _label(text: LabelText, sheet: LabelSheet, place: int) -> dict[str, Any]:
    code = qr_code(urn_of(text.id))
    room = label_room(sheet, place, code, KEPT_SHARE if text.kept else CODE_SHARE)
    if text.kept:
        check_holds(room, text.kept, bool(text.mark), sheet)
    left, top, wide, tall = room.text
    return {
        "text": {"left": left, "top": top, "wide": wide, "tall": tall},
        "clip": _clip(room, sheet),
        "code": qr_data(code, room.module_mm, room.code),
        "kind": text.kind.value,
        "name": _together(text.title),
        "mark": _together(text.mark),
        "kept": text.kept,
        "lines": [_line(line) for line in text.lines],
        "short": short_code(text.id),
    }


def _clip(room: LabelRoom, sheet: LabelSheet) -> dict[str, float]:
    """Where text may show: the label up to its code, for letters that tower over their line."""
    left, top, wide, tall = room.text
    right = sheet.label_wide_mm - CLIP_MM if room.under else left + wide
    bottom = top + tall if room.under else sheet.label_tall_mm - CLIP_MM
    return {"left": CLIP_MM, "top": CLIP_MM, "wide": right - CLIP_MM, "tall": bottom - CLIP_MM}


def _line(line: LabelLine) -> dict[str, str]:
    return {"text": one_line(line.text), "figure": one_line(line.figure)}


def _together(text: str) -> str:
    return TOGETHER.sub(lambda found: found[0].replace(" ", "\u00a0"), one_line(text))


def one_line(text: str) -> str:
    """A text on one line, no longer than any page of ours holds.

    Parameters
    ----------
    text : what somebody wrote.
    """
    return short(" ".join(text.split()), LONGEST)


def _check(how: LabelPrint) -> None:
    if not 1 <= how.start <= how.sheet.count:
        remedy = f"A sheet has {how.sheet.count} labels: tell the first that is still there, row by row."
        raise InputRefused("label-start", how.start, how.sheet.count, "", remedy)
    for shift in (how.shift_x_mm, how.shift_y_mm):
        if not abs(shift) <= MOST_SHIFT_MM:
            remedy = "Print at 100 %, not fitted to the page; then see how far it is off."
            raise InputRefused("label-shift", shift, MOST_SHIFT_MM, "mm", remedy)
