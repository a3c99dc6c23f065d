"""`moldwright photos`: the sheet that a piece stands on for its photographs, and how they are taken."""

from __future__ import annotations

import shlex
from pathlib import Path

from moldwright.commission.keys import keys
from moldwright.commission.values import value_of
from moldwright.desk.own_pdf import check_own_pdf
from moldwright.desk.say import say
from moldwright.disk.whole_file import write_whole
from moldwright.errors import InputRefused
from moldwright.photos.sheet.choice import PieceSize, holds, sheet_for
from moldwright.photos.sheet.pages import sheet_pages
from moldwright.photos.sheet.sizes import US, SheetSize
from moldwright.sheets.photo_paper import photo_paper, size_name
from moldwright.sheets.photo_words import photo_words
from moldwright.text.harmless import harmless
from moldwright.text.shown import shown
from moldwright.units import length_mm, show_length
from moldwright.units.system import UnitSystem

OURS = b"/Title(Photo sheet"
"""What a PDF of ours says of itself."""
LEAST_MM, MOST_MM = 1.0, 3000.0


def run_photos(out: Path, height: str, width: str, depth: str, paper: str) -> None:
    """Write the sheet for a piece, and say what to do next.

    Parameters
    ----------
    out : the PDF to write.
    height, width, depth : of the piece as it stands, as written; depth "" where it is the width.
    paper : what is in the printer, as written.
    """
    check_own_pdf(out, OURS, "sheet", "photo-sheet.pdf")
    on = paper_of(paper)
    tall, wide = _height(height), _across("width", width)
    piece = PieceSize(tall, wide, _across("depth", depth) if depth else wide)
    size = sheet_for(piece, on)
    write_whole(out, photo_paper(size, on))
    say(in_words(out, size, on))


def paper_of(written: str) -> SheetSize:
    """The paper that was named.

    Parameters
    ----------
    written : a size's name.
    """
    name = written.strip().lower().replace(" ", "-")
    if name not in list(SheetSize):
        remedy = f"Write one of: {', '.join(SheetSize)}."
        raise InputRefused("unknown-choice", f"--paper {shown(written)}", " or ".join(SheetSize), "", remedy)
    return SheetSize(name)


def _height(written: str) -> float:
    length_mm(written, "--height")
    return float(value_of(keys()["original"]["height"], written))


def _across(name: str, written: str) -> float:
    value = length_mm(written, f"--{name}")
    if not LEAST_MM <= value <= MOST_MM:
        limit = LEAST_MM if value < LEAST_MM else MOST_MM
        remedy = f"--{name} is how far the piece reaches, seen from above: {LEAST_MM:g} to {MOST_MM:g} mm."
        raise InputRefused("value-out-of-range", value, limit, "mm", remedy)
    return value


def in_words(out: Path, size: SheetSize, paper: SheetSize) -> str:
    """What was written and what is done next, for a person.

    Parameters
    ----------
    out : the PDF.
    size : of the sheet.
    paper : what it is printed on.
    """
    words = photo_words()["said"]
    pages, most = len(sheet_pages(size, paper)), holds(size)
    units = UnitSystem.US if paper in US else UnitSystem.METRIC
    tall, wide, deep = (show_length(v, units) for v in (most.height_mm, most.width_mm, most.depth_mm))
    kind = "joined" if pages > 1 else "alone" if size == paper else "within"
    rows = [
        ("sheet", words[kind].format(size=size_name(size), paper=size_name(paper), pages=pages, how=pages + 1)),
        ("holds", words["holds"].format(tall=tall, wide=wide, deep=deep)),
        *(("next", line) for line in words["next-joined" if pages > 1 else "next"]),
    ]
    told = [f"  {name if name != 'next' or line == rows[2][1] else '':<8} {line}" for name, line in rows]
    return "\n".join([harmless(shlex.quote(str(out))), *told])
