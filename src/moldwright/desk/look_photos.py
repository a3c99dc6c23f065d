"""`moldwright look FOLDER`: what photos on the printed sheet give, before anything is planned."""

from __future__ import annotations

from pathlib import Path

from moldwright.desk.say import say, say_json
from moldwright.desk.stage_bars import stages
from moldwright.disk.whole_file import write_whole
from moldwright.errors import InputRefused
from moldwright.making.filename import check_can_be
from moldwright.making.looking.photos import LookedPhotos, bar_of, contact, figures, lines, look_at_photos
from moldwright.plan.json_text import tree_of
from moldwright.sheets.photo_told import photo_line
from moldwright.sheets.photo_words import photo_words
from moldwright.text.harmless import harmless

PICTURES = (".png", ".pdf")


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
    with stages(quiet or as_json) as progress:
        looked, found = look_at_photos(folder, bar_mm, progress)
        if picture is not None:
            progress("draw it", 0.0)
            write_whole(picture, contact(looked, found, picture.suffix.lower() == ".pdf"))
    if as_json:
        say_json(tree_of(looked))
    else:
        say(in_words(looked))
    return looked


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
            *(f"  {line}" for line in lines(looked)),
            *(f"  {name:<10} {text}" for name, text in figures(looked)),
        ]
    )
