"""`moldwright look FOLDER`: what photos on the printed sheet give, before anything is planned."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from moldwright.commission.keys import keys
from moldwright.commission.values import value_of
from moldwright.desk.say import say, say_json
from moldwright.desk.stage_bars import stages
from moldwright.disk.whole_file import write_whole
from moldwright.errors import InputRefused
from moldwright.making.filename import check_can_be
from moldwright.photos.ask import Ask
from moldwright.photos.photograph import photograph
from moldwright.photos.photographed import HullWarning, Photographed, PhotosAsked
from moldwright.photos.poses import PoseWarning
from moldwright.photos.reading.read import read_photos
from moldwright.photos.sheet.layout import BAR_MM
from moldwright.photos.sheet.sizes import US, SheetSize
from moldwright.photos.tally import Tally
from moldwright.photos.told import PhotoTold
from moldwright.plan.json_text import tree_of
from moldwright.ranges import Range
from moldwright.sheets.contact_sheet import ContactFacts, contact_picture, contact_sheet
from moldwright.sheets.photo_paper import size_name
from moldwright.sheets.photo_told import ask_line, photo_line, tally_lines, warning_line
from moldwright.sheets.photo_words import photo_words
from moldwright.text.harmless import harmless
from moldwright.units import show_length, show_range

PICTURES = (".png", ".pdf")


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
    written : as on the command line, "" where it was left out.
    """
    return float(value_of(keys()["original"]["bar"], written)) if written else BAR_MM


def check_contact(picture: Path) -> None:
    """Refuse a name that no contact sheet should have, before any work is done.

    Parameters
    ----------
    picture : the file to write.
    """
    if picture.suffix.lower() not in PICTURES:
        ends = " or ".join(PICTURES)
        raise InputRefused(
            "picture-no-png", picture.name, f"a name that ends in {ends}", "", "Name it as in photos.pdf."
        )
    check_can_be(picture)


def run_look_photos(folder: Path, bar: str, as_json: bool, quiet: bool, picture: Path | None) -> LookedPhotos:
    """Look at a folder of photos and print what was found.

    Parameters
    ----------
    folder : the photos.
    bar : what the sheet's bar measures, as written; "" where it was left out.
    as_json : print one JSON object.
    quiet : do not tell the stages.
    picture : the contact sheet to write, PNG or PDF; None for none.
    """
    bar_mm = bar_of(bar)
    if picture is not None:
        check_contact(picture)
    with stages(quiet or as_json) as progress, read_photos(folder, progress=progress) as photos:
        found = photograph(photos, PhotosAsked(bar_mm), progress)
        looked = looked_photos(folder.absolute().name, bar_mm, found)
        if picture is not None:
            progress("draw it", 0.0)
            write_whole(picture, _drawn(looked, found, picture))
    if as_json:
        say_json(tree_of(looked))
    else:
        say(in_words(looked))
    return looked


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


def _drawn(looked: LookedPhotos, found: Photographed, picture: Path) -> bytes:
    facts = contact_facts(looked)
    if picture.suffix.lower() == ".png":
        return contact_picture(found.seen, facts)
    return contact_sheet(found.seen, facts, "letter" if looked.sheet in US else "a4")


def contact_facts(looked: LookedPhotos) -> ContactFacts:
    """What stands over the photos on their contact sheet.

    Parameters
    ----------
    looked : what the photos give.
    """
    named = tuple((name.capitalize(), text) for name, text in figures(looked))
    return ContactFacts(looked.folder, named, tuple(_lines(looked)))


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


def _lines(looked: LookedPhotos) -> list[str]:
    warned = (warning_line(*warning) for warning in looked.warnings)
    return [*tally_lines(looked.tally), *warned, *map(ask_line, looked.asks)]


def in_words(looked: LookedPhotos) -> str:
    """What was found, for a person.

    Parameters
    ----------
    looked : what the photos give.
    """
    used = sum(told.used for told in looked.photos)
    counts = photo_words()["look"]["counts"].format(used=used, dropped=len(looked.photos) - used)
    return "\n".join(
        [
            f"{harmless(looked.folder)}: {counts}",
            *(f"  {photo_line(told)}" for told in looked.photos),
            *(f"  {line}" for line in _lines(looked)),
            *(f"  {name:<10} {text}" for name, text in figures(looked)),
        ]
    )
