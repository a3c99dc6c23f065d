"""The files of a plan's folder that a page may give: sheets, pictures, solids, each by a name that is there."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import groupby
from pathlib import Path

from moldwright.errors import InputRefused
from moldwright.text.shown import short
from moldwright.web.words.marked import Words, words

TITLES: dict[str, Words] = {
    "bench": words("Bench sheets"),
    "templates": words("Templates at full size"),
    "shopping": words("What to buy"),
    "tape": words("The tape, drawn"),
    "photos": words("The photos"),
    "quantities": words("Quantities"),
}
"""What a sheet is called, by how its file's name begins."""
SOLIDS_OF: dict[str, Words] = {
    "original": words("the original as it stands on the board"),
    "mount": words("the plinth under it"),
    "glove": words("the rubber alone"),
    "gloved": words("the original in its rubber: what the shell draws off"),
    "shell": words("a piece of the shell, numbered as they come off"),
    "mold": words("all of it in one file, named and colored"),
    "mold-apart": words("the same, each piece drawn apart along its draw"),
    "plate": words("parts of the shell, laid on the plate of the printer"),
}
"""What a solid is, by its file's name, or by how that begins."""
PAPERS: dict[str, Words] = {"a4": words("A4"), "letter": words("Letter")}
SHEETS, SOLIDS, PICTURES = "sheets", "mold", "pictures"
KINDS = {
    SHEETS: {".pdf": "application/pdf"},
    SOLIDS: {".stl": "model/stl", ".3mf": "model/3mf"},
    PICTURES: {".png": "image/png"},
}
"""What is given of each folder, by the ending, as a media type (RFC 2046; model/stl, model/3mf: registered)."""


@dataclass(frozen=True, slots=True)
class SheetFile:
    """A sheet to open: its file's name, and what paper it is for."""

    name: str
    paper: Words


@dataclass(frozen=True, slots=True)
class SolidFile:
    """A solid to take along: its file's name, and what it is."""

    name: str
    of: Words | str


@dataclass(frozen=True, slots=True)
class SheetPapers:
    """A sheet, on each paper that it is set for."""

    title: Words
    files: tuple[SheetFile, ...]


def sheets_in(folder: Path) -> tuple[SheetPapers, ...]:
    """The sheets of a plan, in the order in which they are needed.

    Parameters
    ----------
    folder : the plan's.
    """
    order = list(TITLES)
    known = [name for name in names_in(folder, SHEETS) if name.partition("-")[0].removesuffix(".pdf") in order]
    begins = {name: name.partition("-")[0].removesuffix(".pdf") for name in known}
    rows = groupby(sorted(known, key=lambda name: (order.index(begins[name]), name)), key=begins.__getitem__)
    return tuple(SheetPapers(TITLES[begin], tuple(map(_file, names))) for begin, names in rows)


def solids_in(folder: Path) -> tuple[SolidFile, ...]:
    """The solids of a plan, each with what it is.

    Parameters
    ----------
    folder : the plan's.
    """
    return tuple(SolidFile(name, _solid(name.partition(".")[0])) for name in names_in(folder, SOLIDS))


def _solid(stem: str) -> Words | str:
    name = stem if stem in SOLIDS_OF else stem.partition("-")[0]
    return SOLIDS_OF.get(name, "")


def names_in(folder: Path, which: str) -> list[str]:
    """The names of what may be given of one of a plan's folders.

    Parameters
    ----------
    folder : the plan's.
    which : "sheets", "mold" or "pictures".
    """
    place = folder / which
    found = place.iterdir() if place.is_dir() else ()
    return sorted(each.name for each in found if each.suffix in KINDS[which] and each.is_file())


def paper_file(folder: Path, which: str, name: str) -> tuple[Path, str]:
    """A file that may be given, and its media type.

    Parameters
    ----------
    folder : the plan's.
    which : "sheets", "mold" or "pictures".
    name : as it came: only one that is there is ever joined to a path.

    Raises InputRefused ("not-kept").
    """
    if which not in KINDS or name not in names_in(folder, which):
        raise InputRefused("not-kept", short(name), "a file of this plan", "", "Open it from its piece.")
    return folder / which / name, KINDS[which][Path(name).suffix]


def _file(name: str) -> SheetFile:
    paper = name.removesuffix(".pdf").rpartition("-")[2]
    return SheetFile(name, PAPERS.get(paper, words("as a PDF")))
