"""What photos on the printed sheet give, before anything is planned."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from moldwright.commission.keys import keys
from moldwright.commission.values import value_of
from moldwright.photos.ask import Ask
from moldwright.photos.photograph import photograph
from moldwright.photos.photographed import HullWarning, Photographed, PhotosAsked
from moldwright.photos.poses import PoseWarning
from moldwright.photos.reading.read import read_photos
from moldwright.photos.sheet.layout import BAR_MM
from moldwright.photos.sheet.sizes import US, SheetSize
from moldwright.photos.tally import Tally
from moldwright.photos.told import PhotoTold
from moldwright.progress import Progress
from moldwright.ranges import Range
from moldwright.sheets.contact_sheet import ContactFacts, contact_picture, contact_sheet
from moldwright.sheets.photo_paper import size_name
from moldwright.sheets.photo_told import ask_line, tally_lines, warning_line
from moldwright.sheets.photo_words import photo_words
from moldwright.units import show_length, show_range


@dataclass(frozen=True, slots=True)
class LookedPhotos:
    """What the photos of a folder give: each photo, what is missing, what to know and to be asked, the solid."""

    folder: str
    sheet: SheetSize
    bar_mm: float
    photos: tuple[PhotoTold, ...]
    tally: Tally
    warnings: tuple[tuple[PoseWarning | HullWarning, float], ...]
    asks: tuple[Ask, ...]
    size_mm: tuple[float, float, float]
    volume_ml: Range


def bar_of(written: str) -> float:
    """What the sheet's bar of 100 mm measures [mm].

    Parameters
    ----------
    written : as a person writes it, "" where it was left out.
    """
    return float(value_of(keys()["original"]["bar"], written)) if written else BAR_MM


def look_at_photos(folder: Path, bar_mm: float, progress: Progress) -> tuple[LookedPhotos, Photographed]:
    """Look at a folder of photos: what is told of them, and what that was told from.

    Parameters
    ----------
    folder : the photos.
    bar_mm : what the sheet's bar of 100 mm measures [mm].
    progress : told while they are read and carved.
    """
    with read_photos(folder, progress=progress) as photos:
        found = photograph(photos, PhotosAsked(bar_mm), progress)
    return looked_photos(folder.absolute().name, bar_mm, found), found


def looked_photos(name: str, bar_mm: float, found: Photographed) -> LookedPhotos:
    """What is told of photos of a piece.

    Parameters
    ----------
    name : of their folder.
    bar_mm : what the sheet's bar of 100 mm measures [mm].
    found : what they gave.
    """
    low, high = found.mesh.bounds_mm
    wide, deep, tall = (float(side) for side in high - low)
    figures_ = (found.warnings, found.asks, (wide, deep, tall), found.photos_ml)
    return LookedPhotos(name, found.sheet.size, bar_mm, found.told, found.tally, *figures_)


def contact(looked: LookedPhotos, found: Photographed, as_pdf: bool) -> bytes:
    """The contact sheet as a file's bytes: PDF on the paper that the photos' sheet was printed on, else PNG.

    Parameters
    ----------
    looked : what the photos give.
    found : what that was told from.
    as_pdf : whether it is a PDF.
    """
    facts = contact_facts(looked)
    if not as_pdf:
        return contact_picture(found.seen, facts)
    return contact_sheet(found.seen, facts, "letter" if looked.sheet in US else "a4")


def contact_facts(looked: LookedPhotos) -> ContactFacts:
    """What stands over the photos on their contact sheet.

    Parameters
    ----------
    looked : what the photos give.
    """
    named = tuple((name.capitalize(), text) for name, text in figures(looked))
    return ContactFacts(looked.folder, named, tuple(lines(looked)))


def figures(looked: LookedPhotos) -> list[tuple[str, str]]:
    """The figures by name.

    Parameters
    ----------
    looked : what the photos give.
    """
    words = photo_words()["look"]
    wide, deep, high = (show_length(side) for side in looked.size_mm)
    bar = show_length(looked.bar_mm, step_mm=0.1)
    return [
        ("sheet", words["sheet"].format(size=size_name(looked.sheet), bar=bar)),
        ("size", words["size"].format(wide=wide, deep=deep, high=high)),
        ("volume", show_range(looked.volume_ml, "volume")),
    ]


def lines(looked: LookedPhotos) -> list[str]:
    """What is missing, what to know and what is asked, a line each.

    Parameters
    ----------
    looked : what the photos give.
    """
    warned = (warning_line(*warning) for warning in looked.warnings)
    return [*tally_lines(looked.tally), *warned, *map(ask_line, looked.asks)]
