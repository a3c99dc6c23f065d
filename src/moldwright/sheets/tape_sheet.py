"""The page that shows what was understood of a tape, as PDF and as PNG from one form."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from importlib import resources
from typing import Any

from moldwright.ranges import Range
from moldwright.sheets.tape_drawing import limb_letter, tape_drawing
from moldwright.sheets.typesetting import PAPERS, typeset, typeset_png
from moldwright.sheets.wording import show_area
from moldwright.tape.drawn import Drawn, Facing, LevelDrawn, LimbDrawn
from moldwright.tape.narrower import Narrower, Wanted
from moldwright.tape.told import Gap
from moldwright.text.harmless import harmless
from moldwright.units import show_length, show_range
from moldwright.units.system import UnitSystem

PICTURE_DOTS = 6.0
"""Dots per millimeter of the PNG."""
ANSWERED = (Wanted.HOLLOWS, Wanted.GAPS, Wanted.SMALL)
"""What water or weight answers too."""


@dataclass(frozen=True, slots=True)
class TapeFacts:
    """What stands on the page beside the drawing.

    `narrowed_ml` : the volume with water or weight; None where there is neither.
    `more` : what to measure or tell besides.
    """

    name: str
    height_mm: float
    volume_ml: Range
    area_cm2: Range
    gaps: Sequence[Gap] = ()
    narrowed_ml: Range | None = None
    units: UnitSystem = UnitSystem.METRIC
    more: Sequence[Narrower] = ()


@cache
def tape_words() -> Mapping[str, Any]:
    """The words of the page."""
    return tomllib.loads(resources.files("moldwright.sheets").joinpath("tape.toml").read_text("utf-8"))


def tape_files(drawn: Drawn, facts: TapeFacts) -> dict[str, bytes]:
    """The page as the files of a plan's folder.

    Parameters
    ----------
    drawn : what was understood.
    facts : what stands beside it.
    """
    sheets = {f"sheets/tape-{paper}.pdf": tape_sheet(drawn, facts, paper) for paper in PAPERS}
    return {**sheets, "sheets/tape.png": tape_picture(drawn, facts)}


def tape_sheet(drawn: Drawn, facts: TapeFacts, paper: str) -> bytes:
    """The page as a PDF.

    Parameters
    ----------
    drawn : what was understood.
    facts : what stands beside it.
    paper : "a4" or "letter".
    """
    return typeset("tape", {**tape_page(drawn, facts), "paper": PAPERS[paper][0]}, {})


def tape_picture(drawn: Drawn, facts: TapeFacts) -> bytes:
    """The page as one PNG, as tall as it takes.

    Parameters
    ----------
    drawn : what was understood.
    facts : what stands beside it.
    """
    return typeset_png("tape", {**tape_page(drawn, facts), "paper": None}, {}, PICTURE_DOTS)[0]


def tape_page(drawn: Drawn, facts: TapeFacts) -> dict[str, Any]:
    """What the form prints.

    Parameters
    ----------
    drawn : what was understood.
    facts : what stands beside it.
    """
    say, units = tape_words(), facts.units
    lines = [say["ask"], *range_lines(facts), *more_lines(facts)]
    taken = any(not (level.breadth_read and level.depth_read) for level in drawn.levels)
    return {
        "title": say["title"].format(name=harmless(facts.name) or say["untitled"]),
        "lines": lines,
        "figures": tape_figures(facts),
        "views": [tape_drawing(drawn, facing, say["facing"][facing]) for facing in Facing],
        "levels": {"head": say["levels"]["head"], "rows": [_level(n, v, units) for n, v in enumerate(drawn.levels)]},
        "limbs": {"head": say["limbs"]["head"], "rows": [_limb(n, v, units) for n, v in enumerate(drawn.limbs)]},
        "notes": [*([say["taken"]] if taken else []), *_gaps(facts)],
    }


def range_lines(facts: TapeFacts) -> list[str]:
    """How far the figures hold, and what water or weight make of them, or would.

    Parameters
    ----------
    facts : what stands beside the drawing.
    """
    say = tape_words()
    if facts.narrowed_ml is None:
        return [f"{say['range']} {say['water']}"]
    return [say["range"], say["narrowed"].format(volume=show_range(facts.narrowed_ml, "volume", facts.units))]


def more_lines(facts: TapeFacts) -> list[str]:
    """What to measure or tell besides; where water or weight narrowed the range, only what makes the form truer.

    Parameters
    ----------
    facts : what stands beside the drawing.
    """
    asked = [one for one in facts.more if facts.narrowed_ml is None or one.ask not in ANSWERED]
    say, units = tape_words()["more"], facts.units
    return [
        say[one.ask].format(
            limb=f"{harmless(one.limb).capitalize()}: " if one.limb else "",
            **{key: show_length(v, units) for key, v in _places(one)},
        )
        for one in asked
    ]


def _places(one: Narrower) -> list[tuple[str, float]]:
    return [("about", one.about_mm), ("low", one.low_mm), ("high", one.high_mm), ("girth", one.girth_mm)]


def tape_figures(facts: TapeFacts) -> list[tuple[str, str]]:
    """Height, volume and area, each with its name.

    Parameters
    ----------
    facts : what stands beside the drawing.
    """
    say, units = tape_words(), facts.units
    return [
        (say["height"], show_length(facts.height_mm, units)),
        (say["volume"], show_range(facts.volume_ml, "volume", units)),
        (say["area"], _area(facts.area_cm2, units)),
    ]


def _area(area_cm2: Range, units: UnitSystem) -> str:
    low, likely, high = (show_area(value * 100.0, units) for value in (area_cm2.low, area_cm2.likely, area_cm2.high))
    return f"{likely} ({low.split()[0]}–{high.split()[0]})"


def _level(number: int, level: LevelDrawn, units: UnitSystem) -> list[str]:
    say = tape_words()["levels"]
    row = [str(number + 1), show_length(level.at_mm, units)]
    if level.girth_mm <= 0.5 or level.breadth_mm <= 0.0:
        return [*row, say["tip"], say["unknown"], say["unknown"]]
    sizes = ((level.breadth_mm, level.breadth_read), (level.depth_mm, level.depth_read))
    return [*row, show_length(level.girth_mm, units), *(_size(mm, read, units) for mm, read in sizes)]


def _size(size_mm: float, read: bool, units: UnitSystem) -> str:
    return f"{show_length(size_mm, units)}{'' if read else '*'}"


def _limb(number: int, limb: LimbDrawn, units: UnitSystem) -> list[str]:
    say = tape_words()
    name = harmless(limb.name)
    many = say["limbs"]["many"].format(name=name, count=limb.count) if limb.count > 1 else name
    girths = ", ".join(show_length(girth, units) for girth in limb.girths_mm)
    gap = say["levels"]["unknown"] if limb.gap_mm is None else show_length(limb.gap_mm, units)
    return [limb_letter(number), many, show_length(limb.long_mm, units), girths, gap]


def _gaps(facts: TapeFacts) -> list[str]:
    say, units = tape_words(), facts.units
    told = []
    for gap in facts.gaps:
        sides = (gap.depth_mm, gap.width_mm, *(() if gap.length_mm is None else (gap.length_mm,)))
        size = " × ".join(show_length(side, units) for side in sides)
        many = size if gap.count == 1 else f"{gap.count} × {size}"
        told.append(say["gap"].format(where=harmless(gap.where), size=many))
    return [say["gaps"].format(gaps="; ".join(told))] if told else []
