"""`moldwright look FOLDER`: what photos on the printed sheet give, before anything is planned."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from moldwright.commission.keys import keys
from moldwright.commission.values import value_of
from moldwright.desk.named_file import check_can_be
from moldwright.desk.say import say, say_json
from moldwright.desk.stage_bars import stages
from moldwright.desk.whole_file import write_whole
from moldwright.errors import InputRefused
from moldwright.photos.poses import PoseWarning
from moldwright.photos.poses.find import find_poses
from moldwright.photos.reading.photo import Photos
from moldwright.photos.reading.read import read_photos
from moldwright.photos.sheet.layout import BAR_MM
from moldwright.photos.sheet.sizes import US, SheetSize
from moldwright.photos.tally import Tally
from moldwright.photos.told import PhotoTold
from moldwright.plan.json_text import tree_of
from moldwright.ranges import Range
from moldwright.sheets.contact_sheet import ContactFacts, ContactPhoto, contact_picture, contact_sheet, thumbnail
from moldwright.sheets.photo_paper import size_name
from moldwright.sheets.photo_told import photo_line, tally_lines, warning_line
from moldwright.sheets.photo_words import photo_words
from moldwright.text.harmless import harmless
from moldwright.units import show_length, show_range

PICTURES = (".png", ".pdf")


@dataclass(frozen=True, slots=True)
class LookedPhotos:
    """What the photos of a folder give: each photo, what is missing, what should be known, and the solid's figures."""

    folder: str
    sheet: SheetSize
    bar_mm: float
    photos: tuple[PhotoTold, ...]
    tally: Tally
    warnings: tuple[tuple[PoseWarning, float], ...]
    size_mm: tuple[float, float, float] | None = None
    volume_ml: Range | None = None


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
        poses = find_poses(photos, bar_mm, progress)
        dropped = {each.file: each for each in (*photos.told, *poses.told)}
        names = sorted({*dropped, *(photo.file for photo in photos)})
        told = tuple(dropped.get(name, PhotoTold(name, True)) for name in names)
        looked = LookedPhotos(folder.name, poses.sheet.size, bar_mm, told, poses.tally, poses.warnings)
        if picture is not None:
            progress("draw it", 0.0)
            write_whole(picture, _drawn(looked, photos, picture))
    if as_json:
        say_json(tree_of(looked))
    else:
        say(in_words(looked))
    return looked


def _drawn(looked: LookedPhotos, photos: Photos, picture: Path) -> bytes:
    small = {photo.file: thumbnail(photo.rgb()) for photo in photos}
    shown = [ContactPhoto(told, small.get(told.file)) for told in looked.photos]
    facts = ContactFacts(looked.folder, tuple(figures(looked)), tuple(_lines(looked)))
    if picture.suffix.lower() == ".png":
        return contact_picture(shown, facts)
    return contact_sheet(shown, facts, "letter" if looked.sheet in US else "a4")


def figures(looked: LookedPhotos) -> list[tuple[str, str]]:
    """The figures by name.

    Parameters
    ----------
    looked : what the photos give.
    """
    words = photo_words()["look"]
    rows = [("sheet", words["sheet"].format(size=size_name(looked.sheet), bar=show_length(looked.bar_mm, step_mm=0.1)))]
    if looked.size_mm is not None:
        wide, deep, high = (show_length(side) for side in looked.size_mm)
        rows.append(("size", words["size"].format(wide=wide, deep=deep, high=high)))
    if looked.volume_ml is not None:
        rows.append(("volume", show_range(looked.volume_ml, "volume")))
    return rows


def _lines(looked: LookedPhotos) -> list[str]:
    return [*tally_lines(looked.tally), *(warning_line(*warning) for warning in looked.warnings)]


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
