"""Sheets of labels: where each label lies on the paper; and single labels, each a page of its own."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from importlib import resources
from typing import Any

from moldwright.errors import InputRefused
from moldwright.text.shown import short
from moldwright.units import length_mm
from moldwright.units.constants import INCH_MM
from moldwright.units.system import UnitSystem
from moldwright.ways import Deed

PAPER_MM = {"a4": (210.0, 297.0), "letter": (8.5 * INCH_MM, 11.0 * INCH_MM)}
"""Width and height of a paper [mm]: ISO 216, ANSI Y14.1 (from memory)."""
PAPER_UNITS = {"a4": UnitSystem.METRIC, "letter": UnitSystem.US}
"""In what labels on a paper are told."""
USUAL = {UnitSystem.METRIC: "a4-70x37", UnitSystem.US: "letter-4x2"}
"""The sheet that is meant where none is told: our own."""
SINGLES = ("62x29", "50x25", "102x51")
"""Usual single labels of label printers, millimeters: common practice, no source."""
LEAST_MM, MOST_MM = 10.0, 300.0
"""Sides of a label that may be asked for [mm]."""
MOST_ROWS = 40
"""Labels across or down that a sheet may have: more would each be smaller than a code."""
FIT_MM = 0.05
"""How much a sheet told by its measures may reach past its paper [mm]: what rounding of them makes."""
EDGE_MM, CUT_MM = 5.0, 1.5
"""What printers leave white at a paper's edges, and label printers at a label's [mm]: common practice, no source."""


@dataclass(frozen=True, slots=True)
class LabelSheet:
    """A paper with labels on it; all lengths in mm.

    Parameters
    ----------
    name : how it is called for.
    wide_mm, tall_mm : the paper.
    across, down : how many labels in a row, and how many rows.
    label_wide_mm, label_tall_mm : one label.
    first_left_mm, first_top_mm : from the paper's corner to the first label's.
    pitch_x_mm, pitch_y_mm : from one label to the next.
    edge_mm : what the printer leaves white along the paper's edges.
    units : in which its sizes are told.
    """

    name: str
    wide_mm: float
    tall_mm: float
    across: int
    down: int
    label_wide_mm: float
    label_tall_mm: float
    first_left_mm: float
    first_top_mm: float
    pitch_x_mm: float
    pitch_y_mm: float
    edge_mm: float = EDGE_MM
    units: UnitSystem = UnitSystem.METRIC

    @property
    def count(self) -> int:
        """Labels of one sheet."""
        return self.across * self.down

    def corner_mm(self, place: int) -> tuple[float, float]:
        """Upper left corner of a label, from the paper's [mm].

        Parameters
        ----------
        place : 0 for the first label; row by row, as one reads.
        """
        row, column = divmod(place, self.across)
        return self.first_left_mm + column * self.pitch_x_mm, self.first_top_mm + row * self.pitch_y_mm


@cache
def label_sheets() -> Mapping[str, LabelSheet]:
    """All known sheets by their names."""
    rows = tomllib.loads(resources.files("moldwright.sheets").joinpath("label_sheets.toml").read_text("utf-8"))
    return {name: sheet_of(name, row) for name, row in rows.items()}


def sheet_of(name: str, row: Mapping[str, Any]) -> LabelSheet:
    """A sheet by its measures; one that does not fit its paper is refused.

    Parameters
    ----------
    name : how it is called.
    row : paper, across, down, size, first and pitch, lengths as people write them.

    Raises InputRefused ("labels-off-paper", "labels-overlap").
    """
    sheet = LabelSheet(
        name, *PAPER_MM[row["paper"]], row["across"], row["down"], *_two(row, "size"), *_two(row, "first"),
        *_two(row, "pitch"), units=PAPER_UNITS[row["paper"]],
    )  # fmt: skip
    _check(sheet)
    return sheet


def _two(row: Mapping[str, Any], key: str) -> tuple[float, float]:
    across, down = row[key]
    return length_mm(across, key), length_mm(down, key)


def _check(sheet: LabelSheet) -> None:
    left, top = sheet.corner_mm(sheet.count - 1)
    for side, reach, paper in (
        ("wide", left + sheet.label_wide_mm, sheet.wide_mm),
        ("tall", top + sheet.label_tall_mm, sheet.tall_mm),
    ):
        if reach > paper + FIT_MM:
            remedy = f"Together the labels are more {side} than the paper: measure the sheet again."
            raise InputRefused("labels-off-paper", round(reach, 2), round(paper, 2), "mm", remedy)
    for pitch, size, many in (
        (sheet.pitch_x_mm, sheet.label_wide_mm, sheet.across),
        (sheet.pitch_y_mm, sheet.label_tall_mm, sheet.down),
    ):
        if many > 1 and pitch < size - FIT_MM:
            remedy = "A pitch goes from one label's edge to the same edge of the next: no less than the label."
            raise InputRefused("labels-overlap", round(pitch, 2), round(size, 2), "mm", remedy)


def named_sheet(name: str) -> LabelSheet:
    """A sheet by its name.

    Parameters
    ----------
    name : as `label_sheets` has it.

    Raises InputRefused ("unknown-choice").
    """
    known = label_sheets()
    wanted = name.strip().lower()
    if wanted not in known:
        raise InputRefused(
            "unknown-choice", short(name), ", ".join(known), "", "Choose one of them", Deed.SEE_LABEL_SHEETS
        )
    return known[wanted]


def measured_sheet(paper: str, grid: str, size: str, gap: str = "0x0", margin: str = "") -> LabelSheet:
    """A sheet by its measures, as somebody with a rule tells them.

    Parameters
    ----------
    paper : "a4" or "letter".
    grid : labels across x down, "3x8".
    size : of a label, width x height, "70x37" in millimeters or with units.
    gap : between two labels, across x down.
    margin : from the paper's left and upper edge to the first label; "": the labels lie in the paper's middle.

    Raises InputRefused ("unknown-choice", "label-size-unclear", "labels-none", "labels-off-paper").
    """
    known = paper.strip().lower()
    if known not in PAPER_MM:
        raise InputRefused(
            "unknown-choice", short(paper), ", ".join(PAPER_MM), "", "Write --paper a4 or --paper letter."
        )
    (across, down), sides, gaps = _grid(grid), _pair(size, "--size"), _pair(gap, "--gap")
    pitch = (sides[0] + gaps[0], sides[1] + gaps[1])
    taken = (across * pitch[0] - gaps[0], down * pitch[1] - gaps[1])
    middle = tuple((whole - part) / 2 for whole, part in zip(PAPER_MM[known], taken, strict=True))
    first = _pair(margin, "--margin") if margin else middle
    sheet = LabelSheet(
        "own", *PAPER_MM[known], across, down, *_in_range(sides), first[0], first[1], *pitch, units=PAPER_UNITS[known]
    )
    _check(sheet)
    return sheet


def single_label(written: str) -> LabelSheet:
    """Labels one by one, each a page of its own size.

    Parameters
    ----------
    written : width x height: "62x29" in millimeters, or "4 in x 2 in".

    Raises InputRefused ("label-size-unclear", "value-out-of-range").
    """
    wide, tall = _in_range(_pair(written, "--single"))
    return LabelSheet(f"{wide:.4g}x{tall:.4g}", wide, tall, 1, 1, wide, tall, 0.0, 0.0, wide, tall, CUT_MM)


def _in_range(sides: tuple[float, float]) -> tuple[float, float]:
    for side in sides:
        if not LEAST_MM <= side <= MOST_MM:
            limit = LEAST_MM if side < LEAST_MM else MOST_MM
            remedy = f"A label has {LEAST_MM:g} to {MOST_MM:g} mm along each side."
            raise InputRefused("value-out-of-range", round(side, 2), limit, "mm", remedy)
    return sides


def _parts(written: str, option: str) -> tuple[str, str]:
    """The two sides of "62x29" or "4 in × 2 in"."""
    parts = [part.strip() for part in written.lower().replace("×", "x").split("x")]
    if len(parts) != 2 or not all(parts):
        remedy = f'Write {option} as width x height, such as "62x29" in millimeters or "4 in x 2 in".'
        raise InputRefused("label-size-unclear", short(written), "two numbers with an x between", "", remedy)
    return parts[0], parts[1]


def _pair(written: str, option: str) -> tuple[float, float]:
    """Two lengths [mm]; a bare one has the other's unit, both bare are millimeters."""
    wide, tall = _parts(written, option)
    unit = tall.lstrip("0123456789.,/ -") or "mm"
    return length_mm(f"{wide} {unit}" if wide[-1].isdigit() else wide, option), length_mm(
        f"{tall} mm" if tall[-1].isdigit() else tall, option
    )


def _grid(written: str) -> tuple[int, int]:
    wide, tall = _parts(written, "--grid")
    if not all(part.isascii() and part.isdigit() and 1 <= int(part) <= MOST_ROWS for part in (wide, tall)):
        remedy = "Write how many labels lie across and how many down, such as 3x8."
        raise InputRefused("labels-none", short(written), f"1 to {MOST_ROWS} across and down", "", remedy)
    return int(wide), int(tall)
